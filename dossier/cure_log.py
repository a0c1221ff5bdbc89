"""The log of a cure as columns in SI, each row with its line in the file: read in one room, judged in
another."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from dossier.findings import Place
from dossier.quantities import Quantity

Column = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class CureRun:
    """A log, in SI: s from its start, and K."""

    file: str
    lines: tuple[int, ...]
    """Line of each row in the file, from 1."""
    time: Column
    temperature: Column
    unit: str
    """The unit of the temperature as the file heads it."""

    def place(self, row: int) -> Place:
        """Say where a row, counted from 0, stands."""
        return Place(self.file, self.lines[row], 1)


def cure_run(file: str, rows: list[dict[str, Quantity]]) -> CureRun:
    """Make the columns of rows that hold ``time`` and ``temperature``, each with its place."""
    times, temperatures = ([row[name] for row in rows] for name in ("time", "temperature"))
    return CureRun(
        file,
        tuple(one.place.line if one.place else 1 for one in times),
        np.array([one.value for one in times]),
        np.array([one.value for one in temperatures]),
        temperatures[0].unit,
    )
