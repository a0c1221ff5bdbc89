"""Straight lines between points: value, integral and inverse of a table, exact and never beyond its ends."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise
from math import fsum

from dossier.figures import OutsideRange

Points = Sequence[float]


def check_rising(x_i: Points, what: str) -> None:
    """Refuse a column that does not rise strictly.

    Raises:
        OutsideRange: with the first pair that does not rise, and its row counted from 1.
    """
    for row, (before, after) in enumerate(pairwise(x_i), start=2):
        if not after > before:
            raise OutsideRange(
                f"the {what} must rise from row to row, and row {row} has {after:g} behind {before:g}"
            )


def value_at(x: float, x_i: Points, y_i: Points, what: str) -> float:
    """Return y at x on straight lines through the points; the units are those of the columns.

    Raises:
        OutsideRange: ``x`` lies before the first or behind the last point, or ``x_i`` does not rise.
    """
    check_rising(x_i, what)
    if not x_i[0] <= x <= x_i[-1]:
        raise OutsideRange(
            f"the {what} {x:.6g} is outside the table, which goes from {x_i[0]:.6g} to {x_i[-1]:.6g}"
        )
    behind = max(bisect_left(x_i, x), 1)
    share = (x - x_i[behind - 1]) / (x_i[behind] - x_i[behind - 1])
    # the weighted mean meets both ends exactly
    return (1 - share) * y_i[behind - 1] + share * y_i[behind]


def area_between(x_1: float, x_2: float, x_i: Points, y_i: Points, what: str) -> float:
    """Return the integral of y from ``x_1`` to ``x_2``, exact, and negative where ``x_2 < x_1``.

    Raises:
        OutsideRange: as for :func:`value_at`.
    """
    if x_2 < x_1:
        return -area_between(x_2, x_1, x_i, y_i, what)
    inner = [(x, y) for x, y in zip(x_i, y_i, strict=True) if x_1 < x < x_2]
    ends = [(x, value_at(x, x_i, y_i, what)) for x in (x_1, x_2)]
    nodes = [ends[0], *inner, ends[1]]
    return fsum((b - a) * (y_a + y_b) / 2 for (a, y_a), (b, y_b) in pairwise(nodes))
