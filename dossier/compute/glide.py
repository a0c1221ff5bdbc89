"""Glides of many cases at once: sink at each speed, best glide and least sink over masses and densities.

Speeds are true speeds at the density given; with the density at sea level they are calibrated ones.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_positive, columns
from dossier.compute.bounds import positive
from dossier.compute.curve import Array, Codes
from dossier.compute.energy import STANDARD_GRAVITY
from dossier.compute.flight_outcome import Answers, Clamp, Obstacle, answers
from dossier.compute.polar import STALL_MARGIN


@dataclass(frozen=True)
class Polar:
    """A wing: its parabola, its area and where it stalls; symbols as in :mod:`dossier.compute.polar`."""

    zero_lift_drag: float
    """C_D0."""
    induced: float
    """K, 1 / (pi e A_R)."""
    area: float
    """In m²."""
    lift_maximum: float
    """Maximum lift coefficient of the configuration."""

    def __post_init__(self) -> None:
        """Refuse numbers that make no wing.

        Raises:
            OutsideRange: one of them is not positive.
        """
        positive(self.zero_lift_drag, "zero-lift drag coefficient")
        positive(self.induced, "induced drag factor")
        positive(self.area, "wing area", "m²")
        positive(self.lift_maximum, "maximum lift coefficient")


@dataclass(frozen=True, eq=False)
class Polars:
    """Many wings: the numbers of :class:`Polar` as columns, one row a wing."""

    zero_lift_drag: Array
    induced: Array
    area: Array
    lift_maximum: Array

    def __post_init__(self) -> None:
        """Refuse numbers that make no wing.

        Raises:
            OutsideRange: one of them is not positive.
        """
        all_positive(self.zero_lift_drag, "zero-lift drag coefficient", "")
        all_positive(self.induced, "induced drag factor", "")
        all_positive(self.area, "wing area", "m²")
        all_positive(self.lift_maximum, "maximum lift coefficient", "")

    def along(self, axes: int) -> Polars:
        """Return them with more axes behind, for as many heights or speeds as wanted of each wing."""
        behind = (..., *(None,) * axes)
        return Polars(
            self.zero_lift_drag[behind], self.induced[behind], self.area[behind], self.lift_maximum[behind]
        )


@dataclass(frozen=True, eq=False)
class Drag:
    """D = A v² + B / v² of many cases."""

    square: Array
    """A, in N s²/m²."""
    inverse: Array
    """B, in N m²/s²."""
    weight: Array
    """In N."""
    stall: Array
    """True stalling speed, in m/s."""

    def force(self, v: Array) -> Array:
        """Return the drag in N at true speeds in m/s."""
        return np.asarray(self.square * v**2 + self.inverse / v**2)

    def sink(self, v: Array) -> Array:
        """Return the sink rate in m/s at true speeds in m/s."""
        return np.asarray(self.force(v) * v / self.weight)

    @property
    def best_glide_speed(self) -> Array:
        """Of the parabola, in m/s."""
        return np.asarray((self.inverse / self.square) ** 0.25)

    @property
    def least_power_speed(self) -> Array:
        """Of the parabola, in m/s."""
        return np.asarray(3**-0.25 * self.best_glide_speed)

    @property
    def slowest(self) -> Array:
        """Slowest speed of an optimum, in m/s."""
        return np.asarray(STALL_MARGIN * self.stall)

    def kept(self, v: Array) -> tuple[Array, Codes]:
        """Raise speeds to the margin above the stall, and say where that was done."""
        clamp = np.where(self.slowest > v, Clamp.STALL_MARGIN, Clamp.NONE)
        return np.maximum(v, self.slowest), clamp.astype(np.int64)


def drag(polar: Polar | Polars, mass: ArrayLike, density: ArrayLike) -> Drag:
    """Return the drag at masses in kg and densities in kg/m³.

    Raises:
        OutsideRange: a mass or density that is not positive.

    Source: derived, see :mod:`dossier.compute.polar`.
    """
    m, rho = columns(mass, density)
    all_positive(m, "mass", "kg")
    all_positive(rho, "density", "kg/m³")
    W = m * STANDARD_GRAVITY
    pressure_area = rho * polar.area
    A = pressure_area * polar.zero_lift_drag / 2
    B = 2 * polar.induced * W**2 / pressure_area
    return Drag(A, B, W, np.sqrt(2 * W / (pressure_area * polar.lift_maximum)))


def glides(polar: Polar, speed: ArrayLike, mass: ArrayLike, density: ArrayLike) -> Answers:
    """Return sink, glide ratio and lift coefficient at true speeds.

    Returns:
        columns ``sink`` in m/s, ``ratio``, ``lift_coefficient``; ``Obstacle.STALLED`` where the wing cannot
        carry.

    Raises:
        OutsideRange: a value that is not positive.
    """
    v, m, rho = columns(speed, mass, density)
    all_positive(v, "speed", "m/s")
    at = drag(polar, m, rho)
    C_L = 2 * at.weight / (rho * polar.area * v**2)
    stalled = np.greater(C_L, polar.lift_maximum)
    obstacle = np.where(stalled, Obstacle.STALLED, Obstacle.NONE)
    w = at.sink(v)
    return answers({"sink": w, "ratio": v / w, "lift_coefficient": C_L}, obstacle=obstacle)


def best_glide(polar: Polar, mass: ArrayLike, density: ArrayLike) -> Answers:
    """Return the best glide in still air: columns ``speed`` and ``sink`` in m/s, ``ratio``; see the clamp."""
    at = drag(polar, mass, density)
    return _at_optimum(at, at.best_glide_speed)


def least_sink(polar: Polar, mass: ArrayLike, density: ArrayLike) -> Answers:
    """Return least sink and best endurance: columns ``speed``, ``sink`` in m/s, ``ratio``; see the clamp."""
    at = drag(polar, mass, density)
    return _at_optimum(at, at.least_power_speed)


def _at_optimum(at: Drag, speed: Array) -> Answers:
    v, clamp = at.kept(speed)
    w = at.sink(v)
    return answers({"speed": v, "sink": w, "ratio": v / w}, clamp=clamp)
