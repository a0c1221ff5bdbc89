"""Every requirement of every rule set: what the law asks, what is shown, how surely, what is unsettled."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from dossier.compose import left_out, links, measured_by, other_batteries, verdict_numbers
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, Mark, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.verdict_words import verdict_mark
from dossier.dossier import Dossier
from dossier.judge.verdict import Verdict
from dossier.judge.whole import as_a_whole
from dossier.model.compliance import Reliance
from dossier.model.rule_set import RuleSet

BATTERY = {"counted": "battery counted", "not-counted": "battery not counted"}
READ = {
    "read": "read in a copy",
    "read (secondary)": "read in a reprint, or as a third party quotes it; not in the official text",
    "memory": "recalled, not read: it proves nothing",
}

SLOT = "nothing is estimated by it"
EXISTS = {
    "read": "named in a copy",
    "read (secondary)": "named by a third party",
    "memory": "that it is there is recalled",
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
    batteries: Grid | None
    """The same with each battery of the type, where the battery counts."""
    rule: str
    declared: str
    unsettled: tuple[str, ...]
    unread: tuple[str, ...]
    """Methods of estimating that were not read."""
    source: str


@dataclass(frozen=True)
class RuleSetPart:
    """One rule set of the page."""

    anchor: str
    title: str
    relied_on: tuple[tuple[str, str], ...]
    whole: str
    """What the requirements come to together."""
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
        "conformity.md.jinja",
        top=notices(at),
        rule_sets=parts,
        declaration=at.to(links.DECLARATION),
        words=at.to(links.WORDS),
    )
    return (Page(links.CONFORMITY, "Conformity", "Conformity", text),)


def _part(at: Printer, reliance: Reliance, rule_set: RuleSet) -> RuleSetPart:
    verdicts = [verdict for verdict in at.dossier.verdicts if verdict.rule_set == rule_set.rule_set]
    return RuleSetPart(
        links.anchor(str(rule_set.rule_set)),
        str(rule_set.title),
        tuple(_relied_on(at.dossier, reliance, rule_set)),
        as_a_whole(rule_set, verdicts).words,
        str(rule_set.scope),
        tuple(map(str, rule_set.logic)),
        tuple(map(str, rule_set.unsettled)),
        _matrix(at, verdicts),
        tuple(_detail(at, one) for one in verdicts),
    )


def _relied_on(dossier: Dossier, reliance: Reliance, rule_set: RuleSet) -> list[tuple[str, str]]:
    facts = [
        ("Jurisdiction", str(rule_set.jurisdiction)),
        ("Revision", str(rule_set.revision)),
        ("Text last checked", _last_checked(dossier, rule_set)),
        ("Relied on because", str(reliance.because)),
    ]
    if any(one.figure and one.figure.without_battery for one in rule_set.requirements.values()):
        facts.append(("Basis that the builder relies on", BATTERY[reliance.battery_basis]))
    return [
        *facts,
        *([("Letter of the authority", str(reliance.authority_letter))] if reliance.authority_letter else []),
    ]


def _last_checked(dossier: Dossier, rule_set: RuleSet) -> str:
    """Say when somebody last looked; what was in force on an earlier day was not looked up apart."""
    checked, state = rule_set.last_checked, dossier.state.as_of
    later = f", after this state of {state.isoformat()}: a change of the law between them is not known here"
    return f"{checked.isoformat()}{later if checked > state else ''}"


def _matrix(at: Printer, verdicts: list[Verdict]) -> Grid:
    return grid(
        "Requirements and verdicts",
        "Clause | Verdict | + Requirement | Limit | # Value ± U (k\u00a0=\u00a02) | # Margin",
        [
            row(
                Cell(one.clause, f"#{links.anchor(one.requirement)}"),
                _verdict(at, one),
                Cell(one.statement, note=left_out.sum_words(one)),
                verdict_numbers.limit(one),
                verdict_numbers.value(one).removesuffix(" (k = 2)") or _declared(one),
                verdict_numbers.margin(one),
            )
            for one in verdicts
        ],
    )


def _verdict(at: Printer, verdict: Verdict) -> Cell:
    """Show the verdict on the aircraft as it is, and below it what another battery would make of it."""
    others = other_batteries.short_words(at.dossier, verdict)
    return Cell(mark=verdict_mark(verdict.verdict), note="; ".join(others))


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
        other_batteries.table(at, verdict),
        verdict.decision_rule_words and f"{verdict.decision_rule}: {verdict.decision_rule_words}",
        verdict.declared or "",
        verdict.unsettled,
        tuple(_unread(at, verdict)),
        f"{verdict.source} ({READ[verdict.source_basis]}), last checked {verdict.last_checked}",
    )


def _unread(at: Printer, verdict: Verdict) -> Iterator[str]:
    """Name each method that the requirement keeps a slot for."""
    rule_set = at.dossier.rule_sets[verdict.rule_set]
    requirement = rule_set.requirements[verdict.requirement.partition("/")[2]]
    for method in requirement.unread_methods:
        source = rule_set.sources[method.source]
        named = f"{source.title}, {source.publisher}, {source.edition}, {method.where}"
        basis = EXISTS[source.basis]
        yield f"For {method.estimates}: {named} ({basis}). {method.state.capitalize()}: {SLOT}."


def _facts(at: Printer, verdict: Verdict) -> Grid | None:
    if verdict.figure is None and verdict.value is None:
        return None
    both = [verdict, *([verdict.on_other_basis] if verdict.on_other_basis else [])]
    heads = [BATTERY.get(one.battery_basis, "") for one in both]
    heads = [f"{heads[0].capitalize()} (relied on)", heads[1].capitalize()] if len(both) > 1 else ["Shown"]
    lines: list[tuple[str, Callable[[Verdict], Cell | Mark | str]]] = [
        ("Value", lambda one: _value(at, one)),
        ("How it comes about", left_out.sum_words),
        ("Limit", verdict_numbers.limit),
        ("Margin", verdict_numbers.margin_words),
        ("What this measuring can prove", verdict_numbers.acceptance),
        ("Probability of conformity", verdict_numbers.probability),
        ("The rule asks for", lambda one: "" if one.fact else one.basis),
        ("Measured", lambda one: measured_by.words(at, one)),
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
