"""Many cases of one cell at once: powers, states, temperatures and ages side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.cell import Cell
from dossier.compute.cell_resistance import resistance_factor
from dossier.compute.curve import Array
from dossier.figures import OutsideRange

CHUNK = 512
"""Scenarios that are worked on together: their arrays stay in the cache."""


@dataclass(frozen=True, eq=False)
class Scenarios:
    """Columns of equal length, one row a scenario, all of one cell in SI. Make them with
    :func:`scenarios`."""

    power: Array
    """In W for each cell, above 0."""
    start: Array
    """State of charge at the start."""
    floor: Array
    """State of charge that is kept, such as a reserve."""
    temperature: Array
    """Of the cell, in K, constant."""
    growth: Array
    """Of resistance with age."""
    health: Array
    """Capacity left, of the new one."""
    wiring: Array
    """In Ω in series with each cell, see :func:`dossier.compute.pack_share.wiring_at_cell`."""

    def __len__(self) -> int:
        """Count the scenarios."""
        return len(self.power)

    def chunks(self) -> Iterator[Scenarios]:
        """Cut into pieces of at most :data:`CHUNK`."""
        columns = [getattr(self, column.name) for column in fields(self)]
        for first in range(0, len(self), CHUNK):
            yield Scenarios(*(column[first : first + CHUNK] for column in columns))

    def resistances(self, cell: Cell, at_25: Array) -> Array:
        """Return the resistance in Ω of each scenario, shape ``(scenarios, points)``, wiring included."""
        factor = resistance_factor(np.asarray(cell.constant), self.temperature, self.growth)
        return factor[:, None] * at_25 + self.wiring[:, None]


def scenarios(
    power: ArrayLike, *, start: ArrayLike = 1.0, floor: ArrayLike = 0.0, temperature: ArrayLike = 298.15,
    growth: ArrayLike = 1.0, health: ArrayLike = 1.0, wiring: ArrayLike = 0.0,
) -> Scenarios:  # fmt: skip
    """Put columns side by side; a single value goes for all scenarios. Units as in :class:`Scenarios`.

    Raises:
        OutsideRange: a value is no finite number, a power is not positive, a floor is above its start, an age
        is none.
    """
    given = (power, start, floor, temperature, growth, health, wiring)
    columns = [
        np.array(column, dtype=float).ravel()
        for column in np.broadcast_arrays(*(np.asarray(one, float) for one in given))
    ]
    made = Scenarios(*columns)
    if not all(np.isfinite(column).all() for column in columns):
        raise OutsideRange("a value of a scenario is not a finite number")
    for column, fault, says in (
        (made.power, made.power <= 0, "the power is {:.6g} W, and must be positive"),
        (
            made.floor,
            made.floor > made.start,
            "the state of charge that is kept, {:.4g}, is above that at the start",
        ),
        (made.growth, made.growth <= 0, "the growth of resistance is {:.4g}, and must be positive"),
        (made.health, made.health <= 0, "the health is {:.4g}, and must be positive"),
        (made.wiring, made.wiring < 0, "the resistance of the wiring is {:.4g} Ω, and must not be negative"),
    ):
        if fault.any():
            raise OutsideRange(says.format(column[fault][0]))
    return made
