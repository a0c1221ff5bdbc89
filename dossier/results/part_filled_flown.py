"""How long level flight lasts by the discharge model, once with the charge that the energy of later phases
keeps and once with what their power needs as well."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dossier.compute.cell_resistance import WARM
from dossier.compute.discharge_outcome import WORDS, NoAnswer, Reason
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.figures import OutsideRange
from dossier.results.discharge_table import AGAINST
from dossier.results.flight_case import Condition, FlightCase


@dataclass(frozen=True)
class InLevelFlight:
    """Times in s; both None where the flight has no answer."""

    time: float | None
    """With the charge kept that later phases need for energy and power."""
    by_energy_kept: float | None
    """With the charge kept that they need for their energy alone."""
    why: str = ""


def cruises(cases: Sequence[FlightCase]) -> InLevelFlight:
    """Fly one case at 25 °C, as old as it is, its resistance at its upper end, as the table of cold and age.

    Args:
        cases: one, or none where there is no cruise to fly.
    """
    if not cases:
        return InLevelFlight(None, None, "there is no level flight to fly")
    case = cases[0]
    model = case.model
    try:
        floor = case.floor(Condition(model.health, model.growth.high))
        kept = case.kept(model.health)
    except OutsideRange as error:
        return InLevelFlight(None, None, str(error))
    if floor.refused:
        return InLevelFlight(None, None, floor.refused)
    floors = [min(one, case.full) for one in (floor.charge, kept)]
    cells = model.shape.cells
    phases = [MissionPhase(row.name, row.power / cells, row.duration) for row in case.before]
    phases.append(MissionPhase(case.cruise.name, case.cruise.power / cells))
    flown = fly(
        model.circuit,
        phases,
        Conditions(
            start=case.full, floor=np.array(floors), temperature=WARM, growth=model.growth.high,
            health=model.health, wiring=model.shape.wiring_at_cell,
        ),
    )  # fmt: skip
    times: list[float] = []
    for answer in (flown[0], flown[1]):
        if isinstance(answer, NoAnswer):
            return InLevelFlight(None, None, _without(answer))
        if len(answer.phases) < len(phases) or answer.phases[-1].time == 0:
            return InLevelFlight(None, None, f"{WORDS[answer.limit]} in the phase {answer.ended_in}")
        times.append(answer.phases[-1].time)
    return InLevelFlight(times[0], times[1])


def _without(answer: NoAnswer) -> str:
    """Say why there is none: for a rate with the numbers, since a builder may look for better cells."""
    return answer.message if answer.reason is Reason.RATE else AGAINST[answer.reason]
