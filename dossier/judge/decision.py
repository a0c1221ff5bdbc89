"""The decision rule: a measured value, its uncertainty and a limit (JCGM 106:2012, clauses 7 and 8).

The limit of a law is exact; only the measurement is uncertain. All values here are in the unit of the law.
"""

from __future__ import annotations

import operator
from dataclasses import dataclass
from statistics import NormalDist

from dossier import units

HOLDS = {"<": operator.lt, "<=": operator.le, ">=": operator.ge, ">": operator.gt}
"""The comparison as the law prints it."""
_DIGITS = 12


def settled(value: float) -> float:
    """Round to 12 significant digits, so that the noise of binary numbers decides nothing.

    A double holds 15 to 16 digits, of which conversions and sums of a handful of readings use up the last two
    or three. No scale and no airspeed indicator shows a 12th digit: what falls away here was never measured.
    Readings that add up to 254 lb on paper then are 254 lb, and fail "less than 254 lb".
    """
    return float(f"{value:.{_DIGITS - 1}e}")


def in_unit(value: float, kind: str, unit: str) -> float:
    """Convert an SI value to another unit of its kind, settled."""
    factor, offset = units.scale(kind, unit)
    return settled((value - offset) / factor)


def spread_in_unit(uncertainty: float, kind: str, unit: str) -> float:
    """Convert an SI standard uncertainty to another unit of its kind."""
    return uncertainty / units.scale(kind, unit)[0]


@dataclass(frozen=True)
class Limit:
    """A limit and the comparison that keeps it."""

    value: float
    relation: str
    """A key of :data:`HOLDS`."""

    @property
    def is_upper(self) -> bool:
        """Whether smaller is better."""
        return self.relation in ("<", "<=")

    def keeps(self, value: float) -> bool:
        """Whether a value keeps the limit, to 12 digits."""
        return bool(HOLDS[self.relation](settled(value), settled(self.value)))

    def inside(self, value: float) -> float:
        """How far a value lies inside the limit; negative outside."""
        return settled(self.value - value if self.is_upper else value - self.value)

    def worse(self, value: float, by: float) -> float:
        """Move a value towards the wrong side of the limit."""
        return settled(value + by if self.is_upper else value - by)


@dataclass(frozen=True)
class Decision:
    """What a decision rule says."""

    outcome: str
    """``conforms``, ``does not conform`` or ``inconclusive``."""
    margin: float
    """Positive inside the limit."""
    guard_band: float
    acceptance_limit: float
    """The worst value that would have been accepted: what the present measuring can prove."""
    probability: float | None
    """Of conformity; none where no uncertainty is stated."""


def coverage_multiple(coverage: float) -> float:
    """Return how many standard uncertainties the guard band has: z(c), one-sided, normal.

    Formula: w = z(c) u with Phi(z) = c
    Valid: 0.5 <= c < 1
    Source: JCGM 106:2012, 8.3 (memory); w = 0.83 U for 95 % and w = U for 97.7 % agree with ILAC-G8:09/2019,
    table 1, as restated by third parties
    """
    return NormalDist().inv_cdf(coverage)


def conformity_probability(value: float, uncertainty: float, limit: Limit) -> float | None:
    """Return the probability that the true value keeps the limit, from the measurement alone.

    Formula: p = Phi((TL - x)/u) for an upper limit, Phi((x - TL)/u) for a lower one
    Valid: the measured value is about normal; an uncertainty is stated, else there is no probability
    Source: JCGM 106:2012, 7.3 (memory)
    """
    return NormalDist().cdf(limit.inside(value) / uncertainty) if uncertainty > 0 else None


def decide(value: float, uncertainty: float, limit: Limit, coverage: float | None) -> Decision:
    """Decide on conformity.

    Args:
        value: the measured value, unrounded.
        uncertainty: its standard uncertainty, in the same unit.
        limit: the limit as the law has it.
        coverage: the one-sided probability of a guarded rule; none for simple acceptance.
    """
    guard_band = 0.0 if coverage is None else coverage_multiple(coverage) * uncertainty
    if limit.keeps(limit.worse(value, guard_band)):
        outcome = "conforms"
    elif not limit.keeps(limit.worse(value, -guard_band)):
        outcome = "does not conform"
    else:
        outcome = "inconclusive"
    return Decision(
        outcome,
        limit.inside(value),
        guard_band,
        limit.worse(limit.value, -guard_band),
        conformity_probability(value, uncertainty, limit),
    )
