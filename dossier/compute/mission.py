"""A flight in phases of constant power, stepped in time: slow part of the resistance, heat, and the first
limit.

Holds (source pybamm, simulated missions of two parameter sets): within 1 % of time and 70 mV a cell at the
end of a phase, for phases above the sustained rate of at most 240 s, a rate by current of at most 3 (energy
cells) or 5 (power cells), from 5 °C up. Beyond, there is no answer. At one power and without the slow part it
agrees with :mod:`dossier.compute.discharge`.
"""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute.cell import Cell
from dossier.compute.cell_step import Warmth
from dossier.compute.mission_answer import Flights
from dossier.compute.mission_plan import Conditions, MissionPhase, SlowPart, check_phases
from dossier.compute.mission_steps import Stepper

STEP = 5.0
"""Longest step of time in s."""


def fly(
    cell: Cell, phases: Sequence[MissionPhase], conditions: Conditions, *, warmth: Warmth | None = None,
    slow_part: SlowPart | None = None, step: float = STEP,
) -> Flights:  # fmt: skip
    """Fly the phases in every scenario until they are flown or a limit ends the flight.

    Args:
        cell: the cell, in SI.
        phases: in order; scenarios are as many as the longest column of phases and conditions has rows.
        conditions: at the start.
        warmth: the heat of a cell; left out, its temperature stays.
        slow_part: of the resistance; the usual one if left out.
        step: longest step of time in s.

    Raises:
        OutsideRange: a power or a duration is negative, or a phase without duration is not the last.
    """
    check_phases(phases)
    stepper = Stepper(cell, phases, conditions, warmth=warmth, slow_part=slow_part or SlowPart())
    for phase in phases:
        stepper.fly(phase, step)
    return stepper.flights()
