"""The decision rule: a measured value, its uncertainty and a limit (JCGM 106:2012, clauses 7 and 8).

The limit of a law is exact; only the measurement is uncertain. All values here are in the unit of the law.

What is known of a measured value is a distribution, and the probability of conformity is the part of it that
keeps the limit (JCGM 106:2012, 7.1, memory). A normal one is taken as long as draws of the errors say the
same. Where they do not, probability and guard band come from the draws, by the same coverage.
"""

from __future__ import annotations

import operator
from dataclasses import dataclass
from math import floor, inf
from statistics import NormalDist

import numpy as np

from dossier import units
from dossier.halton import COUNT, Array

HOLDS = {"<": operator.lt, "<=": operator.le, ">=": operator.ge, ">": operator.gt}
"""The comparison as the law prints it."""
_DIGITS = 12
NEAR = 5.0
"""Standard uncertainties from the limit, within which draws are made. Beyond 3 a normal distribution leaves
0.1 %, but the long side of a skewed one more."""
RELEVANT = 0.01
"""How far the probability by draws may be from the normal one before it counts; the draws themselves are good
to about a third of it. A fifth of the risk that a guarded rule leaves, where that is less."""


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
    rejection_band: float
    """How far outside the limit a value is rejected: the guard band, but where draws are skewed."""
    distribution: str | None
    """``normal`` or ``sampled``: what the probability rests on; none without one."""


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


def decide(
    value: float, uncertainty: float, limit: Limit, coverage: float | None, draws: Array | None = None
) -> Decision:
    """Decide on conformity.

    Args:
        value: the measured value, unrounded.
        uncertainty: its standard uncertainty, in the same unit.
        limit: the limit as the law has it.
        coverage: the one-sided probability of a guarded rule; none for simple acceptance.
        draws: the value as draws of its errors, where these may tell more; not a number has no answer, and
            never keeps the limit.
    """
    normal = conformity_probability(value, uncertainty, limit)
    if draws is None or normal is None or not _differs(normal, sampled_probability(draws, limit), coverage):
        band = 0.0 if coverage is None else coverage_multiple(coverage) * uncertainty
        return _decided(value, limit, (band, band), (normal, None if normal is None else "normal"))
    bands = (0.0, 0.0) if coverage is None else _sampled_bands(value, limit, coverage, draws)
    return _decided(value, limit, bands, (sampled_probability(draws, limit), "sampled"))


def sampled_probability(draws: Array, limit: Limit) -> float:
    """Return the share of draws that keep the limit; one that has no answer does not."""
    return float(np.mean(HOLDS[limit.relation](draws, limit.value)))


def _differs(normal: float, sampled: float, coverage: float | None) -> bool:
    risk = 1.0 if coverage is None else 1 - coverage
    return abs(sampled - normal) > max(2 / COUNT, min(RELEVANT, risk / 5))


def _sampled_bands(value: float, limit: Limit, coverage: float, draws: Array) -> tuple[float, float]:
    """Return guard band and band of rejection: each leaves a share of 1 - c of the draws beyond it."""
    inside = limit.value - draws if limit.is_upper else draws - limit.value
    beyond = floor((1 - coverage) * draws.size)
    least = np.sort(np.where(np.isnan(inside), -inf, inside))[beyond]
    most = np.sort(np.where(np.isnan(inside), inf, inside))[draws.size - 1 - beyond]
    margin = limit.inside(value)
    return max(0.0, float(margin - least)), max(0.0, float(most - margin))


def _decided(
    value: float, limit: Limit, bands: tuple[float, float], known: tuple[float | None, str | None]
) -> Decision:
    guard_band, rejection_band = bands
    probability, distribution = known
    if limit.keeps(limit.worse(value, guard_band)):
        outcome = "conforms"
    elif not limit.keeps(limit.worse(value, -rejection_band)):
        outcome = "does not conform"
    else:
        outcome = "inconclusive"
    return Decision(
        outcome,
        limit.inside(value),
        guard_band,
        limit.worse(limit.value, -guard_band),
        probability,
        rejection_band,
        distribution,
    )
