"""Round marks of a drawing moved apart, so that none covers another."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import cos, hypot, sin

RADIUS = 13.0
"""Of a mark, in the units of the drawing; the page draws it so."""
_APART = 2 * RADIUS + 4.0
_TURN = 2.399963
"""The golden angle in rad: marks on one point leave it in directions that do not meet."""
_ROUNDS = 400

Mark = tuple[float, float]


def spread(marks: Sequence[Mark], width: float, height: float) -> list[Mark]:
    """Move marks apart, each as little as its neighbours ask for, and keep them whole inside the drawing.

    Args:
        marks: middles in the units of the drawing, x to the right and y down.
        width: of the drawing.
        height: of the drawing. With more marks than it has room for, some still meet.
    """
    placed = list(marks)
    for _ in range(_ROUNDS):
        close = [pair for pair in combinations(range(len(placed)), 2) if _gap(placed, pair) < _APART]
        if not close:
            break
        for one, other in close:
            _part(placed, one, other)
        placed = [(_inside(x, width), _inside(y, height)) for x, y in placed]
    return placed


def _gap(placed: Sequence[Mark], pair: tuple[int, int]) -> float:
    (x, y), (other_x, other_y) = placed[pair[0]], placed[pair[1]]
    return hypot(other_x - x, other_y - y)


def _part(placed: list[Mark], one: int, other: int) -> None:
    gap = _gap(placed, (one, other))
    if gap >= _APART:
        return
    (x, y), (other_x, other_y) = placed[one], placed[other]
    angle = _TURN * (other + 1)
    along = ((other_x - x) / gap, (other_y - y) / gap) if gap > 1e-6 else (cos(angle), sin(angle))
    step = (_APART - gap) / 2 + 0.05
    placed[one] = (x - along[0] * step, y - along[1] * step)
    placed[other] = (other_x + along[0] * step, other_y + along[1] * step)


def _inside(value: float, length: float) -> float:
    return min(max(value, RADIUS + 2), max(length - RADIUS - 2, RADIUS + 2))
