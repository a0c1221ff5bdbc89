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
class LeftOut:
    """An item that the law leaves out of a mass. Numbers stand in the unit of the law, unrounded."""

    name: str
    mass: float
    standard_uncertainty: float
    """0 where the record states none; none is then counted."""
    is_of_piece: bool
    """Whether the record gives the mass of the piece that is fitted; else it is that of the type's list."""
    allowance: float
    """The most that is left out."""
    source: str
    """The title of what grants the allowance."""
    source_basis: str
    """``read`` or ``read (secondary)``."""

    @property
    def amount(self) -> float:
        """What is left out: the mass, and no more than the allowance."""
        return min(self.mass, self.allowance)


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
    whole: float | None = None
    """The mass before the law leaves anything out of it; ``value`` is what then counts."""
    left_out: tuple[LeftOut, ...] = ()
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
    distribution: str | None = None
    """What the probability rests on: ``normal``, or ``sampled`` where draws of the errors say otherwise."""
    decision_rule: str = ""
    """Its name in ``compliance.yaml``."""
    decision_rule_words: str = ""
    basis: str = ""
    """Which mass or speed, in which configuration, in words."""
    battery_basis: str = ""
    """``counted`` or ``not-counted``, where the law leaves it open."""
    on_other_basis: Verdict | None = None
    """The same requirement with the battery taken the other way."""
    battery: str = ""
    """The key of the battery that was asked about; empty for the aircraft as it is: that
    alone is declared."""
    with_each_battery: tuple[Verdict, ...] = ()
    """The same requirement with each battery that the type may carry, where the battery counts.

    A decision on conformity is on the item that was measured (JCGM 106:2012, clause 7, memory). With another
    battery it is a forecast: that battery was not weighed in this aircraft."""


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
