"""The content of the builder's declaration of conformity (ISO/IEC 17050-1:2004, clause 6).

Only what was judged to conform is declared; what was not is said as plainly. Part 103 and its like know no
certificate: it is the builder's declaration, never an approval.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from dossier.judge.case import reliances
from dossier.judge.verdict import Judgement, State, Verdict
from dossier.judge.whole import OPEN, Whole, as_a_whole
from dossier.model.aircraft import Aircraft
from dossier.model.compliance import Compliance, Reliance
from dossier.model.record import SerialRecord
from dossier.model.rule_set import RuleSet

NOT_AN_APPROVAL = (
    "This is a declaration by the builder. It is no approval and no certificate of an authority, and it does "
    "not say whether the aircraft is safe or airworthy."
)


@dataclass(frozen=True)
class DeclaredRequirement:
    """One requirement and how it stands."""

    requirement: str
    clause: str
    statement: str
    verdict: State
    reason: str
    unsettled: tuple[str, ...]
    """What the law leaves open on it."""


@dataclass(frozen=True)
class DeclaredRuleSet:
    """One rule set: what is declared of it, and what is not."""

    rule_set: str
    title: str
    revision: str
    scope: str
    """What the rule set decides, and what it does not."""
    whole: Whole
    """What the requirements come to together."""
    lies_outside: bool
    """Whether keeping it takes the aircraft out of the law that the title names."""
    battery_basis: str
    """``counted`` or ``not-counted`` where the rule set leaves it open, else empty."""
    authority_letter: str | None
    conforms: tuple[DeclaredRequirement, ...]
    """The only ones that are declared."""
    not_declared: tuple[DeclaredRequirement, ...]
    """Failed, inconclusive or not shown: open deviations."""
    not_applicable: tuple[DeclaredRequirement, ...]
    unsettled: tuple[str, ...]
    """What the law leaves open on the rule set itself; each requirement has its own points."""


@dataclass(frozen=True)
class Declaration:
    """The items of a supplier's declaration. Place, date and signature are for the hand of the signatory."""

    number: str
    issuer: str
    address: tuple[str, ...]
    contact: str
    type_name: str
    designation: str
    serial_number: str
    completed: date | None
    state_of: date
    """The configuration state that it covers."""
    statement: str
    rule_sets: tuple[DeclaredRuleSet, ...]
    validity: str
    signatory: str
    function: str
    is_not: str = NOT_AN_APPROVAL


def declare(
    number: str,
    aircraft: Aircraft,
    record: SerialRecord,
    *,
    compliance: Compliance,
    rule_sets: Mapping[str, RuleSet],
    judgement: Judgement,
    as_of: date,
) -> Declaration:
    """Put together the declaration for one serial in its state of a date."""
    builder, identification = aircraft.builder, aircraft.identification
    sets = tuple(
        _rule_set(reliance, rule_sets[reliance.rule_set], judgement) for reliance in reliances(compliance)
    )
    return Declaration(
        number=number,
        issuer=str(builder.name),
        address=tuple(map(str, builder.address)),
        contact=str(builder.contact),
        type_name=str(identification.name),
        designation=str(identification.designation),
        serial_number=str(record.serial_number),
        completed=record.build.completed,
        state_of=as_of,
        statement=_statement(sets, str(record.serial_number), as_of),
        rule_sets=sets,
        validity=_validity(as_of),
        signatory=str(builder.responsible_person),
        function=str(builder.function),
    )


def _rule_set(reliance: Reliance, rule_set: RuleSet, judgement: Judgement) -> DeclaredRuleSet:
    verdicts = [verdict for verdict in judgement.verdicts if verdict.rule_set == rule_set.rule_set]
    return DeclaredRuleSet(
        str(rule_set.rule_set),
        str(rule_set.title),
        str(rule_set.revision),
        str(rule_set.scope),
        as_a_whole(rule_set, verdicts),
        rule_set.lies_outside,
        str(reliance.battery_basis),
        str(reliance.authority_letter) if reliance.authority_letter else None,
        _those(verdicts, State.CONFORMS),
        _those(verdicts, *OPEN),
        _those(verdicts, State.NOT_APPLICABLE),
        tuple(map(str, rule_set.unsettled)),
    )


def _those(verdicts: list[Verdict], *states: State) -> tuple[DeclaredRequirement, ...]:
    return tuple(
        DeclaredRequirement(
            verdict.requirement,
            verdict.clause,
            verdict.statement,
            verdict.verdict,
            verdict.reason,
            verdict.unsettled,
        )
        for verdict in verdicts
        if verdict.verdict in states
    )


def _statement(sets: tuple[DeclaredRuleSet, ...], serial_number: str, as_of: date) -> str:
    met = sum(len(one.conforms) for one in sets if not one.lies_outside)
    scope = sum(len(one.conforms) for one in sets if one.lies_outside)
    left_open = sum(len(one.not_declared) for one in sets)
    state = f"serial number {serial_number} in its state of {as_of.isoformat()}"
    if not met and not scope:
        return f"No requirement was shown to be met by {state}; nothing is declared."
    what = [
        *([f"meets the requirements listed here as met ({met})"] if met else []),
        *([f"keeps the conditions of scope listed here as holding ({scope})"] if scope else []),
    ]
    declared = f"The builder declares that {state} {' and '.join(what)}."
    return (
        f"{declared} For {left_open} more that apply, this is not declared; they are listed with the reason."
        if left_open
        else declared
    )


def _validity(as_of: date) -> str:
    return (
        f"It covers the configuration of {as_of.isoformat()} alone, and lapses when a weighing, a change of "
        "equipment or battery, or a change of the requirements makes its figures outdated."
    )
