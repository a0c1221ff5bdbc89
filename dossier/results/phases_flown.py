"""Each phase of the profile by the discharge model: current, rate, voltage, heat, and the limit that
binds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dossier.compute.cell_resistance import WARM
from dossier.compute.cell_validity import HOUR
from dossier.compute.discharge_outcome import WORDS, Limit, NoAnswer
from dossier.compute.mission import fly
from dossier.compute.mission_answer import Flight as Answer
from dossier.compute.mission_answer import FlownPhase
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.figures import Figure, OutsideRange
from dossier.results.discharge_table import Outlook
from dossier.results.flight_case import FlightCase
from dossier.results.profile import PhaseRow


@dataclass(frozen=True)
class FlownRow:
    """One phase, of the whole battery, in SI."""

    name: str
    kind: str
    kept: bool
    """True for a reserve: it is not flown."""
    power: float
    time: float
    energy: float
    charge: float
    """State of charge at its end."""
    voltage: float
    """The lowest under load."""
    current: float
    """The largest."""
    rate: float
    """Of that current, in capacities that are left an hour."""
    heat: float
    """What cells and wiring lose, in J: an estimate."""
    ends: str
    """What ends it before its time, and when; for level flight what ends it in any case."""

    @property
    def heat_rate(self) -> float:
        """Mean heat in W."""
        return self.heat / self.time if self.time > 0 else 0.0


@dataclass(frozen=True)
class PhasesFlown:
    """One flight, the reserve flown as well."""

    case: FlightCase
    rows: tuple[FlownRow, ...]
    why: str = ""
    """Why there are no rows, or not all."""
    figures: tuple[Figure, ...] = ()
    """Heat and cooling, an estimate: with the heaviest pilot of each battery only."""


def phases_flown(cases: Sequence[FlightCase], table: Sequence[Outlook]) -> tuple[PhasesFlown, ...]:
    """Fly every case phase by phase at 25 °C, the battery as old as it is, its resistance at its upper end.

    The time of level flight is that of the table of cold and age in the same condition.

    Args:
        cases: the flights.
        table: of cold and age.
    """
    now = {id(one.flight): one.lasts[0] for one in table if one.age.health is None}
    made: dict[int, PhasesFlown] = {}
    for cell in dict.fromkeys(str(case.model.option.cell) for case in cases):
        own = [case for case in cases if str(case.model.option.cell) == cell]
        ready: list[tuple[FlightCase, float, str]] = []
        for case in own:
            lasts = now.get(id(case.flight))
            if lasts is None or lasts.shortest is None:
                made[id(case)] = PhasesFlown(
                    case, (), lasts.words if lasts else "the table of cold and age has no answer"
                )
            else:
                ready.append((case, lasts.shortest, lasts.words))
        made |= {id(one.case): one for one in _flown(ready)}
    return tuple(made[id(case)] for case in cases)


def _flown(ready: Sequence[tuple[FlightCase, float, str]]) -> Iterator[PhasesFlown]:
    """Fly the cases of one cell side by side; their phases have the same names."""
    if not ready:
        return
    profiles = [[*case.before, case.cruise, *case.later] for case, _, _ in ready]
    times = [
        [cruise if row.is_open else row.duration for row in rows]
        for rows, (_, cruise, _) in zip(profiles, ready, strict=True)
    ]
    cells = [case.model.shape.cells for case, _, _ in ready]
    phases = [
        MissionPhase(
            row.name,
            np.array([rows[step].power / count for rows, count in zip(profiles, cells, strict=True)]),
            np.array([each[step] for each in times]),
        )
        for step, row in enumerate(profiles[0])
    ]
    models = [case.model for case, _, _ in ready]
    conditions = Conditions(
        start=np.array([case.full for case, _, _ in ready]),
        floor=np.array([model.circuit.rest.x[0] for model in models]),
        temperature=np.full(len(ready), WARM),
        growth=np.array([model.growth.high for model in models]),
        health=np.array([model.health for model in models]),
        wiring=np.array([model.shape.wiring_at_cell for model in models]),
    )
    try:
        answers = fly(models[0].circuit, phases, conditions)
    except OutsideRange as error:
        yield from (PhasesFlown(case, (), str(error)) for case, _, _ in ready)
        return
    for number, (case, _, words) in enumerate(ready):
        answer = answers[number]
        if isinstance(answer, NoAnswer):
            yield PhasesFlown(case, (), answer.message)
        else:
            yield PhasesFlown(case, tuple(_rows(case, profiles[number], answer, words)), _cut_short(answer))


def _cut_short(answer: Answer) -> str:
    return (
        ""
        if answer.limit is Limit.NONE
        else f"{WORDS[answer.limit]} in the phase {answer.ended_in}; nothing after it is flown"
    )


def _rows(case: FlightCase, profile: Sequence[PhaseRow], answer: Answer, words: str) -> Iterator[FlownRow]:
    """Give the phases as flown, of the whole battery."""
    by_step: Mapping[int, FlownPhase] = dict(enumerate(answer.phases))
    began = 0.0
    for step, row in enumerate(profile):
        if step not in by_step:
            return
        one = by_step[step]
        ended = answer.limit is not Limit.NONE and step == len(answer.phases) - 1
        when = f", {(began + one.time) / 60:.1f} min after the start"
        ends = f"{WORDS[answer.limit]}{when}" if ended else f"{words}{when}" if row.is_open else ""
        began += one.time
        yield _row(case, row, one, ends)


def _row(case: FlightCase, row: PhaseRow, one: FlownPhase, ends: str) -> FlownRow:
    model, shape = case.model, case.model.shape
    current = one.power / one.lowest_voltage
    return FlownRow(
        row.name,
        row.kind,
        row.kept,
        row.power,
        one.time,
        row.power * one.time,
        one.charge,
        one.lowest_voltage * shape.series,
        current * shape.strings,
        current / (model.circuit.capacity * model.health) * HOUR,
        one.heat * shape.cells,
        ends,
    )
