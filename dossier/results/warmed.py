"""The temperature of the cells at the end of each phase where the heat is carried along and nothing cools
them: **an estimate only**, between a cell that takes much heat and one that takes little."""

from __future__ import annotations

import numpy as np

from dossier.compute.cell_resistance import WARM
from dossier.compute.cell_step import Warmth
from dossier.compute.discharge_outcome import Limit, NoAnswer
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.figures import OutsideRange
from dossier.results.phases_flown import PhasesFlown

Ends = tuple[float | None, float | None]
"""Lowest and highest temperature in K; None: above the highest for which the law of the resistance holds."""


def warmed(one: PhasesFlown, specific_heat: tuple[float, float], doubt: float) -> tuple[Ends | None, ...]:
    """Fly the phases again as long as they were flown, the resistance falling as the cells warm.

    Args:
        one: a flight that was flown whole.
        specific_heat: of the cells, the least and the most, in J/(kg K).
        doubt: part by which the heat may be off either way.

    Returns:
        for each phase the ends of the temperature at its end; None in place of both where the warmer cells
        have no answer.
    """
    least, most = specific_heat
    cool, hot = (_flown(one, heat) for heat in (most / (1 - doubt), least / (1 + doubt)))
    if cool is None or hot is None:
        return tuple(None for _ in one.rows)
    return tuple(zip(cool, hot, strict=True))


def _flown(one: PhasesFlown, specific_heat: float) -> tuple[float | None, ...] | None:
    """Return the temperature in K at the end of each phase, None from where it is too high; without an answer
    None in place of all."""
    case, model = one.case, one.case.model
    phases = [MissionPhase(row.name, row.power / model.shape.cells, row.time) for row in one.rows]
    conditions = Conditions(
        start=np.array([case.full]), floor=model.circuit.rest.x[0], temperature=WARM,
        growth=model.growth.high, health=model.health, wiring=model.shape.wiring_at_cell,
    )  # fmt: skip
    keeps = Warmth(model.cell.mass.value * specific_heat, 0.0, WARM)
    try:
        answer = fly(model.circuit, phases, conditions, warmth=keeps)[0]
    except OutsideRange:
        return None
    if isinstance(answer, NoAnswer) or answer.limit not in (Limit.NONE, Limit.TEMPERATURE):
        return None
    whole = answer.phases if answer.limit is Limit.NONE else answer.phases[:-1]
    known = [phase.temperature for phase in whole]
    return (*known, *(None for _ in phases[len(known) :]))
