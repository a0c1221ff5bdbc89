"""The centre-of-gravity envelope: limits on straight lines between corners, and how far a loading is inside.

Below the lowest corner the limits are constant. Above the highest corner nothing is laid down: the single
formulas
say so with ``OutsideRange``, and :func:`margins` gives a negative margin of mass and no margin of arm (NaN).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from dossier.compute import lines
from dossier.figures import OutsideRange, formula

Array = NDArray[np.float64]
ROUNDING = 1e-12
"""Of a mass: what floats leave where parts add up to the mass limit itself, which is still inside."""
FLAT = 1e-12
"""In m/kg: slopes that differ by less are the same; what floats leave of a straight limit."""


@formula
def limit_arm(m: float, m_j: Sequence[float], x_j: Sequence[float]) -> float:
    r"""Forward or aft limit of the centre of gravity at a mass.

    Formula: x_{lim} = x_j + \frac{m - m_j}{m_{j+1} - m_j} \, (x_{j+1} - x_j)
    Result: x_lim
    Valid: from 0 to the mass of the highest corner; constant below the lowest corner
    Source: faa-h-8083-30b, figures 6-24 and 6-25
    """
    lines.check_rising(m_j, "mass of the envelope's corners")
    if not 0 < m <= m_j[-1]:
        raise OutsideRange(f"the mass of {m:.6g} kg is not between 0 and the mass limit of {m_j[-1]:.6g} kg")
    return x_j[0] if m <= m_j[0] else lines.value_at(m, m_j, x_j, "mass")


@formula
def forward_margin(m: float, x_CG: float, m_j: Sequence[float], x_fj: Sequence[float]) -> float:
    r"""Distance of the centre of gravity behind the forward limit; negative when it is ahead of it.

    Formula: \Delta x_f = x_{CG} - x_{f}(m)
    Result: dx_f
    Valid: up to the mass of the highest corner
    Source: faa-h-8083-30b, figures 6-24 and 6-25
    """
    return x_CG - limit_arm(m, m_j, x_fj)


@formula
def aft_margin(m: float, x_CG: float, m_j: Sequence[float], x_aj: Sequence[float]) -> float:
    r"""Distance of the centre of gravity ahead of the aft limit; negative when it is behind it.

    Formula: \Delta x_a = x_{a}(m) - x_{CG}
    Result: dx_a
    Valid: up to the mass of the highest corner
    Source: faa-h-8083-30b, figures 6-24 and 6-25
    """
    return limit_arm(m, m_j, x_aj) - x_CG


@formula
def mass_margin(m_max: float, m: float) -> float:
    r"""Mass left below a limit; negative when the limit is passed.

    Formula: \Delta m = m_{max} - m
    Result: dm
    Valid: always
    Source: definition
    """
    return m_max - m


def bends_outward(envelope: Envelope) -> bool:
    """Whether, of two loadings inside, every loading is inside that has a part of what they differ by aboard.

    Such a loading lies on the straight line between them, mass against moment. There the forward limit is
    ``m x_f(m)`` and must nowhere be concave, and the aft limit ``m x_a(m)`` nowhere convex: over rising mass
    the slope of the forward limit never falls and that of the aft limit never rises. Below the lowest corner
    both limits are constant. Source: derived, from moments.
    """
    forward = [line.slope for line in envelope.lines(envelope.forward)]
    aft = [-line.slope for line in envelope.lines(envelope.aft)]
    return all(before <= after + FLAT for slopes in (forward, aft) for before, after in pairwise(slopes))


@dataclass(frozen=True)
class Line:
    """A limit between two masses: ``arm = start + slope * mass``, in m and m/kg."""

    low: float
    high: float
    start: float
    slope: float


@dataclass(frozen=True)
class Envelope:
    """Corners with rising mass; the highest is the mass limit. In kg and m.

    Raises:
        ValueError: unequal lengths, no corner, masses that are not positive or do not rise, a forward limit
            not ahead of the aft one.
    """

    masses: tuple[float, ...]
    forward: tuple[float, ...]
    aft: tuple[float, ...]

    def __post_init__(self) -> None:
        """Refuse what is no envelope."""
        if not self.masses or not len(self.masses) == len(self.forward) == len(self.aft):
            raise ValueError("an envelope needs a corner, each with a mass, a forward and an aft limit")
        if self.masses[0] <= 0:
            raise ValueError(f"the lowest corner has a mass of {self.masses[0]:g} kg, not a positive one")
        lines.check_rising(self.masses, "mass of the envelope's corners")
        for mass, forward, aft in zip(self.masses, self.forward, self.aft, strict=True):
            if not forward < aft:
                raise ValueError(
                    f"at {mass:g} kg the forward limit {forward:g} m is not ahead of the aft limit {aft:g} m"
                )

    @property
    def max_mass(self) -> float:
        """The mass of the highest corner, in kg."""
        return self.masses[-1]

    def up_to(self, mass: float) -> Envelope:
        """Cut the envelope at a lower mass limit, in kg; the shape below stays.

        Raises:
            OutsideRange: the mass is not positive or above the highest corner.
        """
        top = [limit_arm(mass, self.masses, limit) for limit in (self.forward, self.aft)]
        kept = sum(corner < mass for corner in self.masses)
        return Envelope(
            (*self.masses[:kept], mass), (*self.forward[:kept], top[0]), (*self.aft[:kept], top[1])
        )

    def lines(self, limit: Sequence[float]) -> Iterator[Line]:
        """Give the pieces of one of the limits, from no mass up."""
        yield Line(0.0, self.masses[0], limit[0], 0.0)
        for (low, at_low), (high, at_high) in pairwise(zip(self.masses, limit, strict=True)):
            slope = (at_high - at_low) / (high - low)
            yield Line(low, high, at_low - slope * low, slope)


@dataclass(frozen=True)
class Margins:
    """How far loadings are inside an envelope; negative is outside. Arrays of one shape, in m, m and kg.

    Over the mass limit no arm limit is laid down: there ``forward`` and ``aft`` are NaN and ``mass`` is
    negative.
    """

    forward: Array
    aft: Array
    mass: Array

    @property
    def inside(self) -> NDArray[np.bool_]:
        """Whether each loading is inside or on the border; NaN compares false."""
        return (self.forward >= 0) & (self.aft >= 0) & (self.mass >= 0)


def margins(masses: ArrayLike, arms: ArrayLike, envelope: Envelope) -> Margins:
    """Measure loadings against an envelope.

    Args:
        masses: loaded masses in kg, any shape.
        arms: their centres of gravity in m, the same shape.
        envelope: the limits.
    """
    m, x = np.broadcast_arrays(np.asarray(masses, dtype=np.float64), np.asarray(arms, dtype=np.float64))
    at_limit = np.abs(m - envelope.max_mass) <= ROUNDING * envelope.max_mass
    m = np.where(at_limit, envelope.max_mass, m)
    # np.interp holds the first value below the lowest corner, as the envelope does
    forward, aft = (
        np.interp(m, envelope.masses, limit, right=np.nan) for limit in (envelope.forward, envelope.aft)
    )
    return Margins(x - forward, aft - x, envelope.max_mass - m)
