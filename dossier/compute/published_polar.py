"""Polars as others state them: a quadratic through published sinks, a parabola through drag coefficients.

The quadratic only echoes a published polar; beyond its points it is not to be used.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import columns
from dossier.compute.bounds import positive
from dossier.figures import OutsideRange


@dataclass(frozen=True)
class Quadratic:
    """w = a v² + b v + c, in SI or in any one unit of speed for both."""

    a: float
    b: float
    c: float
    slowest: float
    """Of the points."""
    fastest: float

    def sink(self, v: float) -> float:
        """Return the sink rate.

        Raises:
            OutsideRange: outside the points.
        """
        if not self.slowest <= v <= self.fastest:
            ends = f"{self.slowest:.4g} to {self.fastest:.4g}"
            raise OutsideRange(f"the speed {v:.4g} is outside the points, which go from {ends}")
        return self.a * v**2 + self.b * v + self.c

    @property
    def best_glide_speed(self) -> float:
        """Where the tangent from zero touches."""
        return sqrt(positive(self.c, "sink at no speed") / positive(self.a, "bend of the polar"))

    @property
    def best_glide_ratio(self) -> float:
        """At that speed."""
        return 1 / (2 * sqrt(self.a * self.c) + self.b)

    @property
    def least_sink_speed(self) -> float:
        """Lowest point of the curve."""
        return -self.b / (2 * positive(self.a, "bend of the polar"))


def quadratic(speed: ArrayLike, sink: ArrayLike) -> Quadratic:
    """Return the quadratic through three points, or nearest to more of them with equal weights.

    Raises:
        OutsideRange: fewer than three different speeds.
    """
    v, w = columns(speed, sink)
    if len(set(v)) < 3:
        raise OutsideRange(f"there are {len(set(v))} different speeds, and a quadratic needs three")
    c, b, a = np.linalg.lstsq(np.vander(v, 3, increasing=True), w, rcond=None)[0]
    return Quadratic(float(a), float(b), float(c), float(v.min()), float(v.max()))


@dataclass(frozen=True)
class Parabola:
    """C_D = C_D0 + K C_L²."""

    zero_lift_drag: float
    induced: float


def parabola(lift: ArrayLike, drag: ArrayLike) -> Parabola:
    """Return the parabola nearest to lift and drag coefficients below the stall, with equal weights.

    Raises:
        OutsideRange: fewer than two different squares of lift coefficient.
    """
    C_L, C_D = columns(lift, drag)
    if len(set(np.round(C_L**2, 12))) < 2:
        raise OutsideRange("all lift coefficients have the same square, and a parabola needs two")
    C_D0, K = np.linalg.lstsq(np.column_stack([np.ones_like(C_L), C_L**2]), C_D, rcond=None)[0]
    return Parabola(float(C_D0), float(K))
