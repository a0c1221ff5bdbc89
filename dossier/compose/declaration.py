"""The builder's declaration of conformity, with what it does not cover said as plainly as what it does."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.conformity import BATTERY
from dossier.compose.edition import document_number, edition_words
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.verdict_words import verdict_mark
from dossier.compose.words import listed
from dossier.dossier import Dossier
from dossier.judge.declaration import Declaration, DeclaredRequirement, DeclaredRuleSet, declare
from dossier.judge.verdict import Judgement


@dataclass(frozen=True)
class RuleSetPart:
    """What is declared of one rule set, and what is not."""

    title: str
    revision: str
    basis: str
    letter: str
    complete: bool
    conforms: Grid | None
    open: Grid | None
    not_applicable: Grid | None


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at = Printer(dossier, links.DECLARATION)
    declared = of(dossier)
    text = render(
        "declaration.md.jinja",
        top=notices(at),
        declared=declared,
        object=_object(dossier, declared),
        issuer=_issuer(declared),
        rule_sets=[_part(at, one) for one in declared.rule_sets],
        conformity=at.to(links.CONFORMITY),
        draft=not edition_words(dossier).startswith("Edition"),
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


def _issuer(declared: Declaration) -> tuple[tuple[str, str], ...]:
    return (
        ("Declaration number", declared.number),
        ("Issued by", declared.issuer),
        ("Address", ", ".join(declared.address)),
        ("Contact", declared.contact),
    )


def _object(dossier: Dossier, declared: Declaration) -> tuple[tuple[str, str], ...]:
    fitted = [
        f"{pack.pack} ({dossier.project.battery.options[pack.option].name})" for pack in dossier.state.packs
    ]
    left_out = [
        str(item.name)
        for name, item in dossier.project.aircraft.items.items()
        if name in dossier.state.left_out
    ]
    return (
        ("Type", declared.type_name),
        ("Designation", declared.designation),
        ("Serial number", declared.serial_number),
        ("Completed", declared.completed.isoformat() if declared.completed else "not completed"),
        ("Drawings", str(dossier.record.build.design_revision)),
        ("State of", declared.state_of.isoformat()),
        ("Battery fitted", listed(fitted) or "none"),
        ("Optional items left out", listed(left_out) or "none"),
    )


def _part(at: Printer, one: DeclaredRuleSet) -> RuleSetPart:
    rule_set = at.dossier.rule_sets[one.rule_set]
    left_open = any(
        requirement.figure and requirement.figure.without_battery
        for requirement in rule_set.requirements.values()
    )
    return RuleSetPart(
        one.title,
        one.revision,
        BATTERY[one.battery_basis] if left_open else "",
        one.authority_letter or "",
        one.complete,
        _grid(at, "Declared: met", one.conforms),
        _grid(at, "Not declared: failed, inconclusive or not shown", one.not_declared),
        _grid(at, "Not applicable", one.not_applicable),
    )


def _grid(at: Printer, caption: str, found: Iterable[DeclaredRequirement]) -> Grid | None:
    rows = [
        row(
            Cell(one.clause, at.to(f"{links.CONFORMITY}#{links.anchor(one.requirement)}")),
            one.statement,
            verdict_mark(one.verdict),
            one.reason,
        )
        for one in found
    ]
    return grid(caption, "Clause | + Requirement | = Verdict | + Reason", rows) if rows else None
