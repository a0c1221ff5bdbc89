"""A curve of a cell as arrays work on it: points, straight lines between them, one column for many
lookups."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from dossier.compute import lines
from dossier.figures import OutsideRange

Array = NDArray[np.float64]
"""Floats in SI."""
Flags = NDArray[np.bool_]
Codes = NDArray[np.int64]


@dataclass(frozen=True)
class Curve:
    """Points ``x`` from low to high and ``y`` at each, joined by straight lines; units are those of the
    columns."""

    x: tuple[float, ...]
    y: tuple[float, ...]

    def __post_init__(self) -> None:
        """Refuse columns that make no curve.

        Raises:
            OutsideRange: fewer than two points, unequal columns, or ``x`` does not rise.
        """
        if len(self.x) != len(self.y) or len(self.x) < 2:
            raise OutsideRange(
                f"a curve needs two columns of at least two points, and has {len(self.x)} and {len(self.y)}"
            )
        lines.check_rising(self.x, "first column of the curve")

    def at(self, x: float, what: str) -> float:
        """Return ``y`` at one ``x``.

        Raises:
            OutsideRange: ``x`` lies outside the points; ``what`` names it in the message.
        """
        return lines.value_at(x, self.x, self.y, what)

    def along(self, x: Array) -> Array:
        """Return ``y`` at many ``x``, beyond the ends on the line of the last two points.

        Callers stop at the ends themselves; the extended line only keeps a step that passes an end smooth.
        """
        inside = np.interp(x, self.x, self.y)
        if x.min() >= self.x[0] and x.max() <= self.x[-1]:
            return inside
        first = (self.y[1] - self.y[0]) / (self.x[1] - self.x[0])
        last = (self.y[-1] - self.y[-2]) / (self.x[-1] - self.x[-2])
        return np.asarray(
            inside + first * np.minimum(x - self.x[0], 0.0) + last * np.maximum(x - self.x[-1], 0.0)
        )


def curve(x: list[float], y: list[float]) -> Curve:
    """Make a curve from two columns.

    Raises:
        OutsideRange: as for :class:`Curve`.
    """
    return Curve(tuple(x), tuple(y))


def held_to(one: Curve, first: float, last: float) -> Curve:
    """Extend a curve to two ends with its nearest value; where it reaches already, it stays.

    For a resistance: a measured discharge starts below full and stops above empty, and beyond them nothing is
    known.
    """
    before = [(first, one.y[0])] if first < one.x[0] else []
    behind = [(last, one.y[-1])] if last > one.x[-1] else []
    points = [*before, *zip(one.x, one.y, strict=True), *behind]
    return Curve(tuple(x for x, _ in points), tuple(y for _, y in points))
