"""One battery while its figures are made: what it is made of, and every figure so far, which the
next may take."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from dossier.figures import Figure, Formula, Input, evaluate, given, taken
from dossier.findings import Finding
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery, Cell, Option
from dossier.model.events import PackFitted
from dossier.replay import State
from dossier.results.attempt import attempt


class NotMadeError(Exception):
    """A figure that others are made from lies outside the range of its formula."""


class PackWorkings:
    """Makes the figures of one battery, each from the ones before it."""

    def __init__(
        self, name: str, battery: Battery, aircraft: Aircraft, fitted: PackFitted | None, state: State
    ) -> None:
        """Begin with the option of that name; ``fitted`` is the battery of it that is aboard, if one is."""
        self.name = name
        self.battery = battery
        self.aircraft = aircraft
        self.option: Option = battery.options[name]
        self.cell: Cell = battery.cells[self.option.cell]
        self.fitted = fitted
        self.state = state
        self.test = state.capacity_tests.get(str(fitted.pack)) if fitted else None
        self.figures: dict[str, Figure] = {}
        self.findings: list[Finding] = []
        self.series = self._count("cells in series", self.option.series, "series")
        self.parallel = self._count("strings in parallel", self.option.parallel, "parallel")

    def make(
        self,
        formula: Formula,
        short: str,
        label: str,
        kind: str,
        inputs: Mapping[str, Input | Sequence[Input]],
        **more: Any,
    ) -> None:
        """Make a figure, or say in a finding why there is none."""
        made = attempt(
            lambda: evaluate(
                formula, f"{short}.{self.name}", f"{label}, {self.option.name}", kind, inputs, **more
            ),
            f"{label.lower()} of {self.option.name}",
            self.option.place,
        )
        if made.figure:
            self.figures[short] = made.figure
        self.findings += made.findings

    def take(self, short: str) -> Input:
        """Take a figure that was made as an input of the next.

        Raises:
            NotMadeError: it could not be made.
        """
        if short not in self.figures:
            raise NotMadeError(short)
        return taken(self.figures[short])

    @property
    def cell_capacity(self) -> Input:
        """Capacity of a cell: as tested or aged where that is known, else as its maker states it."""
        if "cell_capacity" in self.figures:
            return self.take("cell_capacity")
        return given(self.cell.nominal_capacity, "nominal capacity of the cell")

    def _count(self, label: str, value: int, key: str) -> Input:
        return Input(
            label, "number", float(value), self.option.place_of_key(key) or "not in a file", str(value)
        )
