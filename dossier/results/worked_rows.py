"""Rows of tables with the working of their cells: what is printed, a reader with a calculator finds again.

A row is declared for each table, and its figures are made one from the other by formulas of
:mod:`dossier.compute`. That they come to the numbers of the table is held by tests.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from dossier.figures import Figure, FirstOrderFails, Formula, Input, Inputs, OutsideRange, evaluate
from dossier.steps import Points

NO_SLOPE = (
    "Without an uncertainty: a value that lies one standard uncertainty away has no answer, and what draws "
    "say stands in the table."
)


@dataclass(frozen=True)
class WorkedRow:
    """One row of a table, from the record to the printed cells."""

    table: str
    """Key of the table on its page."""
    page: str
    """Key of the page of sheets on which it is worked."""
    words: str
    """Which row it is."""
    figures: tuple[Figure, ...]
    """All that were made for it, in order."""
    cells: Mapping[str, Figure]
    """Column of the row -> its figure."""
    row: object
    """The row of the table: each key of ``cells`` leads to a value of it, over names and places."""
    option: str = ""
    """Of the battery, where each battery has a table of its own."""


@dataclass(frozen=True)
class WorkedRows:
    """The worked rows of all tables of one aircraft."""

    rows: tuple[WorkedRow, ...] = ()
    _cells: frozenset[str] = field(init=False, repr=False, compare=False, default=frozenset())

    def __post_init__(self) -> None:
        """Note which figures are cells: they are printed as the table prints them."""
        names = frozenset(figure.name for one in self.rows for figure in one.cells.values())
        object.__setattr__(self, "_cells", names)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return tuple(figure for one in self.rows for figure in one.figures)

    def is_cell(self, name: str) -> bool:
        """Whether a figure stands as a cell in a table."""
        return name in self._cells

    def of(self, table: str, option: str = "") -> tuple[WorkedRow, ...]:
        """Return the worked rows of one table."""
        return tuple(one for one in self.rows if (one.table, one.option) == (table, option))


class Chain:
    """Makes the figures of one row, each from the ones before it."""

    def __init__(self, table: str, option: str, words: str) -> None:
        """Name them after the table and the battery."""
        self.prefix, self.option, self.words = f"row_{table}", option, words
        self.figures: list[Figure] = []

    def make(
        self, formula: Formula, short: str, label: str, kind: str, inputs: Inputs, **more: Any
    ) -> Figure:  # fmt: skip
        """Evaluate a formula for the row; without uncertainties where they have no slope.

        Raises:
            OutsideRange: the estimate itself has no answer.
        """
        name, words = f"{self.prefix}.{short}.{self.option}", f"{label}: {self.words}"
        try:
            figure = evaluate(formula, name, words, kind, inputs, **more)
        except FirstOrderFails:
            note = f"{more.pop('note', '')} {NO_SLOPE}".strip()
            figure = evaluate(formula, name, words, kind, _exact(inputs), note=note, **more)
        self.figures.append(figure)
        return figure

    def exact(
        self, formula: Formula, short: str, label: str, kind: str, inputs: Inputs, **more: Any
    ) -> Figure:  # fmt: skip
        """Evaluate a formula at the estimates alone: one that steps in time takes too long for slopes.

        Raises:
            OutsideRange: there is no answer.
        """
        return self.make(formula, short, label, kind, _exact(inputs), **more)

    def with_points(self, figure: Figure, points: tuple[Points, ...]) -> Figure:
        """Put the points of its integral to the figure that was made last."""
        assert self.figures[-1] is figure
        self.figures[-1] = replace(figure, working=replace(figure.working, points=points))
        return self.figures[-1]


def _exact(inputs: Inputs) -> Inputs:
    """Take the estimates alone."""
    return {
        key: replace(one, estimate=one.value, figure=None)
        if isinstance(one, Input)
        else [replace(item, estimate=item.value, figure=None) for item in one]
        for key, one in inputs.items()
    }


def of_the_row(label: str, kind: str, value: float, text: str = "") -> Input:
    """Take a value that the row is for, such as its height: it is exact."""
    return Input(label, kind, value, "the row of the table", text)


def held(make: Callable[[], WorkedRow | None]) -> Iterator[WorkedRow]:
    """Leave out a row that has no numbers: its table says why."""
    try:
        row = make()
    except OutsideRange:
        return
    if row is not None:
        yield row
