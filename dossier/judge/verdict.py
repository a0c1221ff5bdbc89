"""What is said of one requirement, and of one serial as a whole."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from dossier.figures import Figure
from dossier.findings import Finding, Place


class State(StrEnum):
    """How a requirement stands."""

    CONFORMS = "conforms"
    DOES_NOT_CONFORM = "does not conform"
    INCONCLUSIVE = "inconclusive"
    """The limit lies within the guard band: neither is shown."""
    NOT_SHOWN = "not shown"
    """Something is missing; the reason says what."""
    NOT_APPLICABLE = "not applicable"


@dataclass(frozen=True)
class Verdict:
    """What is said of one requirement. Numbers stand in ``unit``, the unit of the law, unrounded."""

    requirement: str
    """Such as ``us-14-cfr-103/e-1``."""
    rule_set: str
    clause: str
    statement: str
    source: str
    source_basis: str
    """``read``, ``read (secondary)`` or ``memory``."""
    last_checked: str
    unsettled: tuple[str, ...]
    place: Place | None
    """Where the builder relies on the rule set."""
    verdict: State = State.NOT_SHOWN
    reason: str = ""
    """One plain sentence."""
    figure: str | None = None
    """The name of the figure that was held against the limit."""
    fact: str | None = None
    """The name of the declared fact that was asked for."""
    declared: str | None = None
    """The answer that was declared, and its ground."""
    value: float | None = None
    unit: str = ""
    standard_uncertainty: float | None = None
    limit: float | None = None
    limit_text: str = ""
    comparison: str = ""
    """As the law prints it: ``<``, ``<=``, ``>=`` or ``>``."""
    margin: float | None = None
    """Positive inside the limit."""
    guard_band: float | None = None
    acceptance_limit: float | None = None
    """The worst value that the present measuring could have proved."""
    probability: float | None = None
    """Probability of conformity."""
    decision_rule: str = ""
    """Its name in ``compliance.yaml``."""
    decision_rule_words: str = ""
    basis: str = ""
    """Which mass or speed, in which configuration, in words."""
    battery_basis: str = ""
    """``counted`` or ``not-counted``, where the law leaves it open."""
    on_other_basis: Verdict | None = None
    """The same requirement with the battery taken the other way."""


@dataclass(frozen=True)
class Judgement:
    """All verdicts on one serial."""

    verdicts: tuple[Verdict, ...] = ()
    """In the order of the reliances and of the requirements in their rule set."""
    figures: tuple[Figure, ...] = ()
    """Figures made on the way: the masses that count against a limit."""
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True)
class Obstacle:
    """Why a requirement is not shown, and what the builder should know of it."""

    reason: str
    finding: Finding | None = None
