"""A log of a battery's test as columns in SI, each row with its line in the file: read in one room, judged in
another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from dossier.findings import Place

Column = NDArray[np.float64]


@dataclass(frozen=True)
class LogColumns:
    """Which column of the file holds what. A name left out is looked for under its label of the open
    format."""

    time: str | None = None
    voltage: str | None = None
    current: str | None = None
    charge: str | None = None
    """The charge taken, as the instrument counts it."""
    temperature: str | None = None
    cells: tuple[str, ...] = ()
    """The voltage of each group in series."""


@dataclass(frozen=True, eq=False)
class BatteryLog:
    """A log, in SI: s, V, A, C, K. The sign of the current is the file's own."""

    file: str
    lines: tuple[int, ...]
    """Line of each row in the file, from 1."""
    time: Column
    voltage: Column
    current: Column
    charge: Column | None = None
    temperature: Column | None = None
    cells: Mapping[str, Column] = field(default_factory=dict)

    def __len__(self) -> int:
        """Count the rows."""
        return len(self.lines)

    def place(self, row: int) -> Place:
        """Say where a row, counted from 0, stands."""
        return Place(self.file, self.lines[row], 1)
