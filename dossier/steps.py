"""What stands between the inputs of a figure and its result, for a reader with a calculator."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Step:
    """An intermediate value that a reader with a calculator can stop at."""

    label: str
    value: float
    kind: str
    latex: str = ""
    """How it is made, where the formula of the figure does not show it."""
    unit: str = ""
    """Its SI unit, where no kind has it."""


@dataclass(frozen=True)
class PointColumn:
    """One column of the points of a sum."""

    label: str
    latex: str
    kind: str
    values: tuple[float, ...]
    unit: str = ""
    """The SI unit, where no kind has it."""


def point_columns(titles: Iterable[tuple[str, str, str, Iterable[float]]]) -> tuple[PointColumn, ...]:
    """Make columns from what each is, its symbol in LaTeX, its kind and its values in SI."""
    return tuple(
        PointColumn(label, latex, kind, tuple(float(one) for one in values))
        for label, latex, kind, values in titles
    )


@dataclass(frozen=True)
class Points:
    """The points of an integral, side by side: the sum of the last column is the result.

    They are the very points at which the formula is evaluated, so that nothing is left out.
    """

    caption: str
    columns: tuple[PointColumn, ...]
    sums_to: str
    """What the sum of the last column is."""

    @property
    def total(self) -> float:
        """The sum of the last column, in its SI unit."""
        return sum(self.columns[-1].values)
