"""How long level flight lasts in many conditions of one flight: the whole profile is flown, so that a phase
that the battery cannot give is not passed over."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dossier.compute.discharge_outcome import NoAnswer
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.figures import OutsideRange
from dossier.results.flight_case import Condition, FlightCase, Floor


def level_times(case: FlightCase, conditions: Sequence[Condition]) -> list[float | None]:
    """Return the time of the cruise in s in each condition; None where there is no answer.

    All conditions have the constant of the cell itself.
    """
    floors = [_floor(case, at) for at in conditions]
    phases = [
        *(MissionPhase(row.name, row.power / case.model.shape.cells, row.duration) for row in case.before),
        MissionPhase(case.cruise.name, case.cruise.power / case.model.shape.cells),
    ]
    flights = fly(
        case.model.circuit,
        phases,
        Conditions(
            start=case.full,
            floor=np.array([min(floor.charge, case.full) for floor in floors]),
            temperature=np.array([at.temperature for at in conditions]),
            growth=np.array([at.growth for at in conditions]),
            health=np.array([at.health for at in conditions]),
            wiring=case.model.shape.wiring_at_cell,
        ),
    )
    times: list[float | None] = []
    for number, floor in enumerate(floors):
        answer = flights[number]
        if floor.refused or isinstance(answer, NoAnswer):
            times.append(None)
        else:
            flown = answer.phases[-1].time if len(answer.phases) > len(case.before) else 0.0
            times.append(flown)
    return times


def _floor(case: FlightCase, at: Condition) -> Floor:
    try:
        return case.floor(at)
    except OutsideRange as error:
        return Floor(case.full, refused=str(error))
