"""The band of run time in the cold, where a resistance alone is too kind to some cells.

Two views, and the wider of both: the law of resistance with the smallest and the largest constant, at the
power that is asked; and the best and the worst of three simulated cells at a rate of one half, as a part of
the time at 25 °C.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np

from dossier.compute.cell import Cell
from dossier.compute.cell_resistance import CONSTANT_BAND, WARM
from dossier.compute.cell_step import Warmth
from dossier.compute.curve import Array, Codes, Curve
from dossier.compute.discharge import discharge
from dossier.compute.discharge_outcome import Reason
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.compute.scenarios import Scenarios
from dossier.figures import OutsideRange

TEMPERATURES = (263.15, 273.15, 283.15, 298.15)
"""In K."""
WORST = Curve(TEMPERATURES, (0.602, 0.822, 0.946, 1.0))
"""Run time over that at 25 °C of the worst of three parameter sets at constant power, rate 0.5 (source
pybamm)."""
BEST = Curve(TEMPERATURES, (0.919, 0.958, 0.984, 1.0))
"""Of the best; at -10 °C and at 0 °C the best are not the same cell."""


class _Answers(Protocol):
    @property
    def reason(self) -> Codes: ...


@dataclass(frozen=True, eq=False)
class TimeBand:
    """Shortest and longest run time in s, one row a scenario."""

    shortest: Array
    longest: Array
    reason: Codes
    """Of :class:`~dossier.compute.discharge_outcome.Reason`, for the warm cell: where it is not 0 the band
    means nothing."""


def discharge_band(cell: Cell, cases: Scenarios) -> TimeBand:
    """Return the band of :func:`dossier.compute.discharge.discharge`.

    Raises:
        OutsideRange: a cell is colder than -10 °C or warmer than 25 °C.
    """
    _check(cases.temperature)
    warm = discharge(cell, replace(cases, temperature=np.full(len(cases), WARM)))
    return _band(
        cases.temperature, warm, warm.computed["time"], lambda constant: _run_time(cell, cases, constant)
    )


def flight_band(
    cell: Cell, phases: Sequence[MissionPhase], conditions: Conditions, *, warmth: Warmth | None = None
) -> TimeBand:
    """Return the band of :func:`dossier.compute.mission.fly`; the warm flight is flown in air of 25 °C.

    Raises:
        OutsideRange: a cell is colder than -10 °C or warmer than 25 °C, or as for ``fly``.
    """
    temperature = np.atleast_1d(np.asarray(conditions.temperature, float))
    _check(temperature)
    warm_air = replace(warmth, ambient=WARM) if warmth else None
    warm = fly(cell, phases, replace(conditions, temperature=WARM), warmth=warm_air)

    def colder(constant: float) -> Array:
        return fly(replace(cell, constant=constant), phases, conditions, warmth=warmth).computed["time"]

    return _band(temperature, warm, warm.computed["time"], colder)


def _run_time(cell: Cell, cases: Scenarios, constant: float) -> Array:
    return discharge(replace(cell, constant=constant), cases).computed["time"]


def _band(temperature: Array, warm: _Answers, warm_time: Array, by_law: Callable[[float], Array]) -> TimeBand:
    kind, strict = (by_law(constant) for constant in CONSTANT_BAND)
    shortest = np.minimum(WORST.along(temperature) * warm_time, np.minimum(kind, strict))
    longest = np.maximum(BEST.along(temperature) * warm_time, np.maximum(kind, strict))
    reason = np.where(warm.reason == Reason.NONE, Reason.NONE, warm.reason).astype(np.int64)
    return TimeBand(shortest, longest, reason)


def _check(temperature: Array) -> None:
    low, high = TEMPERATURES[0], TEMPERATURES[-1]
    outside = (temperature < low) | (temperature > high)
    if outside.any():
        degrees = float(temperature[outside][0]) - 273.15
        raise OutsideRange(f"the cell is at {degrees:.1f} °C, and the band is known from -10 to 25 °C")
