"""The builder's declaration of conformity, with what it does not cover said as plainly as what it does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dossier.compose import left_out, links, measured_by, other_batteries
from dossier.compose.changes import since_weighing
from dossier.compose.conformity import BATTERY
from dossier.compose.edition import document_number, edition_words, is_draft, state_words
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, Mark, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.verdict_words import verdict_mark
from dossier.compose.words import listed
from dossier.dossier import Dossier
from dossier.judge.declaration import Declaration, DeclaredRequirement, DeclaredRuleSet, declare
from dossier.judge.verdict import Judgement, State, Verdict


@dataclass(frozen=True)
class RuleSetPart:
    """What is declared of one rule set, and what is not."""

    title: str
    revision: str
    scope: str
    whole: str
    basis: str
    letter: str
    conforms: Grid | None
    open: Grid | None
    not_applicable: Grid | None
    unsettled: tuple[str, ...]
    """What the law leaves open, on the rule set and clause by clause."""
    other_batteries: tuple[str, ...]
    """What another battery would make of what is declared."""


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at = Printer(dossier, links.DECLARATION)
    declared = of(dossier)
    text = render(
        "declaration.md.jinja",
        top=notices(at),
        declared=declared,
        object=_object(dossier, declared),
        issuer=_issuer(dossier, declared),
        rule_sets=[_part(at, one) for one in declared.rule_sets],
        conformity=at.to(links.CONFORMITY),
        words=at.to(links.WORDS),
        draft=is_draft(dossier),
    )
    return (Page(links.DECLARATION, "Declaration", "Conformity", text),)


def of(dossier: Dossier) -> Declaration:
    """Return the declaration of one serial."""
    return declare(
        document_number(dossier),
        dossier.project.aircraft,
        dossier.record,
        compliance=dossier.project.compliance,
        rule_sets=dossier.rule_sets,
        judgement=Judgement(dossier.verdicts),
        as_of=dossier.state.as_of,
    )


def _issuer(dossier: Dossier, declared: Declaration) -> tuple[tuple[str, str], ...]:
    edition = ", ".join(words for words in (edition_words(dossier), state_words(dossier)) if words)
    return (
        ("Declaration number", declared.number),
        ("Edition of the dossier", edition),
        ("Issued by", declared.issuer),
        ("Address", ", ".join(declared.address)),
        ("Contact", declared.contact),
        ("Responsible", f"{declared.signatory}, {declared.function}"),
    )


def _object(dossier: Dossier, declared: Declaration) -> tuple[tuple[str, str], ...]:
    fitted = [
        f"{pack.pack} ({dossier.project.battery.options[pack.option].name})" for pack in dossier.state.packs
    ]
    optional, taken_out = _not_aboard(dossier)
    return (
        ("Type", declared.type_name),
        ("Designation", declared.designation),
        ("Serial number", declared.serial_number),
        ("Completed", declared.completed.isoformat() if declared.completed else "not completed"),
        ("Drawings", dossier.record.build.drawings),
        ("State of", declared.state_of.isoformat()),
        ("Battery fitted", listed(fitted) or "none"),
        ("Optional items left out", listed(optional) or "none"),
        *([("Items of the type’s list taken out", listed(taken_out))] if taken_out else []),
        ("Changed after the weighing", since_weighing(dossier).words or "nothing"),
    )


def _not_aboard(dossier: Dossier) -> tuple[list[str], list[str]]:
    """Name what of the type's list is not aboard: options, and what every aircraft of the type has."""
    out = [item for name, item in dossier.project.aircraft.items.items() if name in dossier.state.left_out]
    return [str(item.name) for item in out if item.optional], [
        str(item.name) for item in out if not item.optional
    ]


def _part(at: Printer, one: DeclaredRuleSet) -> RuleSetPart:
    rule_set = at.dossier.rule_sets[one.rule_set]
    left_open = any(
        requirement.figure and requirement.figure.without_battery
        for requirement in rule_set.requirements.values()
    )
    met, holding = ("Declared: met", "Declared: conditions of scope that hold")
    return RuleSetPart(
        one.title,
        one.revision,
        one.scope,
        one.whole.words,
        BATTERY[one.battery_basis] if left_open else "",
        one.authority_letter or "",
        _grid(at, one, holding if one.lies_outside else met, one.conforms),
        _grid(at, one, "Not declared: failed, inconclusive or not shown", one.not_declared),
        _grid(at, one, "Not applicable", one.not_applicable),
        tuple(_unsettled(one)),
        tuple(_other_batteries(at, one)),
    )


def _unsettled(one: DeclaredRuleSet) -> Iterator[str]:
    yield from one.unsettled
    for requirement in (*one.conforms, *one.not_declared):
        yield from (f"{requirement.clause}: {point}" for point in requirement.unsettled)


def _other_batteries(at: Printer, one: DeclaredRuleSet) -> Iterator[str]:
    declared = {requirement.requirement for requirement in one.conforms}
    for verdict in at.dossier.verdicts:
        if verdict.requirement in declared:
            yield from (f"{verdict.clause}: {line}." for line in other_batteries.words(at.dossier, verdict))


def _grid(
    at: Printer, one: DeclaredRuleSet, caption: str, found: Iterable[DeclaredRequirement]
) -> Grid | None:
    verdicts = {verdict.requirement: verdict for verdict in at.dossier.verdicts}
    rows = [
        row(
            Cell(requirement.clause, at.to(f"{links.CONFORMITY}#{links.anchor(requirement.requirement)}")),
            _mark(one, requirement.verdict),
            requirement.statement,
            Cell(requirement.reason, note=_rests_on(at, verdicts[requirement.requirement])),
        )
        for requirement in found
    ]
    return grid(caption, "Clause | = Verdict | + Requirement | + Reason", rows) if rows else None


def _mark(one: DeclaredRuleSet, state: State) -> Mark:
    mark = verdict_mark(state)
    return Mark("Holds", mark.kind) if one.lies_outside and state is State.CONFORMS else mark


def _rests_on(at: Printer, verdict: Verdict) -> str:
    """Say what was left out of the mass and what was measured: who signs must see both."""
    parts = (left_out.sum_words(verdict), measured_by.words(at, verdict))
    return ". ".join(part.rstrip(".") for part in parts if part) + ("." if any(parts) else "")
