"""Every requirement of every rule set: what the law asks, what is shown, how surely, what is unsettled."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from dossier.compose import links, verdict_numbers
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, Mark, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.verdict_words import verdict_mark
from dossier.dossier import Dossier
from dossier.judge.verdict import Verdict
from dossier.model.compliance import Reliance
from dossier.model.rule_set import RuleSet

BATTERY = {"counted": "battery counted", "not-counted": "battery not counted"}
READ = {
    "read": "read in a copy",
    "read (secondary)": "not read; a third party reports it",
    "memory": "recalled, not read: it proves nothing",
}


@dataclass(frozen=True)
class Detail:
    """One requirement in full."""

    anchor: str
    clause: str
    statement: str
    mark: Mark
    reason: str
    facts: Grid | None
    """The numbers, one column for each battery basis."""
    rule: str
    declared: str
    unsettled: tuple[str, ...]
    source: str


@dataclass(frozen=True)
class RuleSetPart:
    """One rule set of the page."""

    anchor: str
    title: str
    relied_on: tuple[tuple[str, str], ...]
    scope: str
    logic: tuple[str, ...]
    unsettled: tuple[str, ...]
    matrix: Grid
    details: tuple[Detail, ...]


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at = Printer(dossier, links.CONFORMITY)
    parts = [
        _part(at, reliance, dossier.rule_sets[reliance.rule_set])
        for reliance in dossier.project.compliance.relies_on
        if reliance.rule_set in dossier.rule_sets
    ]
    text = render(
        "conformity.md.jinja", top=notices(at), rule_sets=parts, declaration=at.to(links.DECLARATION)
    )
    return (Page(links.CONFORMITY, "Conformity", "Conformity", text),)


def _part(at: Printer, reliance: Reliance, rule_set: RuleSet) -> RuleSetPart:
    verdicts = [verdict for verdict in at.dossier.verdicts if verdict.rule_set == rule_set.rule_set]
    return RuleSetPart(
        links.anchor(str(rule_set.rule_set)),
        str(rule_set.title),
        tuple(_relied_on(reliance, rule_set)),
        str(rule_set.scope),
        tuple(map(str, rule_set.logic)),
        tuple(map(str, rule_set.unsettled)),
        _matrix(verdicts),
        tuple(_detail(at, one) for one in verdicts),
    )


def _relied_on(reliance: Reliance, rule_set: RuleSet) -> list[tuple[str, str]]:
    facts = [
        ("Jurisdiction", str(rule_set.jurisdiction)),
        ("Revision", str(rule_set.revision)),
        ("Last checked", rule_set.last_checked.isoformat()),
        ("Relied on because", str(reliance.because)),
    ]
    if any(one.figure and one.figure.without_battery for one in rule_set.requirements.values()):
        facts.append(("Basis that the builder relies on", BATTERY[reliance.battery_basis]))
    return [
        *facts,
        *([("Letter of the authority", str(reliance.authority_letter))] if reliance.authority_letter else []),
    ]


def _matrix(verdicts: list[Verdict]) -> Grid:
    return grid(
        "Requirements and verdicts",
        "Clause | + Requirement | Limit | # Value ± U (k = 2) | # Margin | = Verdict",
        [
            row(
                Cell(one.clause, f"#{links.anchor(one.requirement)}"),
                one.statement,
                verdict_numbers.limit(one),
                verdict_numbers.value(one).removesuffix(" (k = 2)") or _declared(one),
                verdict_numbers.margin(one),
                verdict_mark(one.verdict),
            )
            for one in verdicts
        ],
    )


def _declared(verdict: Verdict) -> str:
    return (verdict.declared or "").partition(" (")[0]


def _detail(at: Printer, verdict: Verdict) -> Detail:
    return Detail(
        links.anchor(verdict.requirement),
        verdict.clause,
        verdict.statement,
        verdict_mark(verdict.verdict),
        "" if verdict.declared and verdict.reason.startswith("Declared: ") else verdict.reason,
        _facts(at, verdict),
        verdict.decision_rule_words and f"{verdict.decision_rule}: {verdict.decision_rule_words}",
        verdict.declared or "",
        verdict.unsettled,
        f"{verdict.source} ({READ[verdict.source_basis]}), last checked {verdict.last_checked}",
    )


def _facts(at: Printer, verdict: Verdict) -> Grid | None:
    if verdict.figure is None and verdict.value is None:
        return None
    both = [verdict, *([verdict.on_other_basis] if verdict.on_other_basis else [])]
    heads = [BATTERY.get(one.battery_basis, "") for one in both]
    heads = [f"{heads[0].capitalize()} (relied on)", heads[1].capitalize()] if len(both) > 1 else ["Shown"]
    lines: list[tuple[str, Callable[[Verdict], Cell | Mark | str]]] = [
        ("Value", lambda one: _value(at, one)),
        ("Limit", verdict_numbers.limit),
        ("Margin", verdict_numbers.margin_words),
        ("What this measuring can prove", verdict_numbers.acceptance),
        ("Probability of conformity", verdict_numbers.probability),
        ("Basis", lambda one: one.basis),
    ]
    if len(both) > 1:
        lines += [("Verdict", lambda one: verdict_mark(one.verdict)), ("Reason", lambda one: one.reason)]
    told = [(name, [tell(one) for one in both]) for name, tell in lines]
    rows = [row(name, *cells) for name, cells in told if any(cells)]
    return grid(f"Numbers for {verdict.clause}", " | ".join(["Quantity", *heads]), rows)


def _value(at: Printer, verdict: Verdict) -> Cell:
    text = verdict_numbers.value(verdict)
    known = verdict.figure in at.dossier.figures
    return (
        Cell(text, at.sheet(verdict.figure) if known and verdict.figure else "")
        if text
        else Cell("not known")
    )
