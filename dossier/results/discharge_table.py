"""Every flight cold and warm, new and old: the profile flown by the discharge model."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from dossier.compute.charge_left import charge_after, charge_kept
from dossier.compute.cold import flight_band
from dossier.compute.discharge_outcome import WORDS, NoAnswer, Reason
from dossier.compute.mission import fly
from dossier.compute.mission_answer import Flight as Flown
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.figures import OutsideRange
from dossier.findings import Finding, Severity
from dossier.results.cell_model import CellModel
from dossier.results.energy import Flight, PhaseRow

WARM = (298.15, 288.15, 278.15)
COLD = (273.15, 263.15)
"""In K: below 5 °C cells differ so much that only a band is given."""


@dataclass(frozen=True)
class Age:
    """How much of a battery is left. A condition that is asked about, not a measurement."""

    words: str
    health: float | None
    """Capacity of the nominal one; None: as in this record."""
    growth: float


AGES = (
    Age("as in this record", None, 1.0),
    Age("at 90 % of its nominal capacity, resistance 1.25 times", 0.9, 1.25),
    Age("at 80 % of its nominal capacity, resistance 1.5 times", 0.8, 1.5),
)
"""The rise of resistance beside the loss is common practice, no source: measure it."""
AGAINST = {
    Reason.TEMPERATURE: "outside the temperatures of use",
    Reason.POWER: "the battery cannot give the power",
    Reason.RATE: "beyond the rate that the model holds for",
    Reason.COLD: "too cold for a single value",
}


_BAND = "band of different cells"
_NO_CLIMB = "some cells do not give the climb power so cold"


@dataclass(frozen=True)
class FlightCase:
    """One flight of the energy table, ready for the discharge model. Energies of the pack, in J."""

    model: CellModel
    flight: Flight
    words: str
    before: tuple[PhaseRow, ...]
    """Flown before the cruise, in order."""
    cruise: PhaseRow
    kept: float
    """Energy at the terminals of the phases that are kept for after the cruise."""

    def start(self, health: float) -> float:
        """Return the state of charge where the cruise begins, with a part of the nominal capacity left.

        Raises:
            OutsideRange: the phases before it take more than there is.
        """
        model, figures = self.model, self.model.result.figures
        return charge_after(
            model.option.full_cell_voltage.value, [row.energy for row in self.before],
            eta_b=figures["deliverable_energy"].value / figures["energy_between_limits"].value,
            N=float(model.shape.cells), Q_cell=model.circuit.capacity * health,
            z_i=model.circuit.rest.x, U_i=model.circuit.rest.y,
        )  # fmt: skip

    def floor(self, health: float) -> float:
        """Return the state of charge that level flight leaves, with a part of the nominal capacity left.

        Raises:
            OutsideRange: more is kept than there is.
        """
        model, figures = self.model, self.model.result.figures
        eta = figures["deliverable_energy"].value / figures["energy_between_limits"].value
        return charge_kept(
            model.option.empty_cell_voltage.value, model.option.reserve.value,
            figures["energy_between_limits"].value * health / model.health, [self.kept],
            eta_b=eta, N=float(model.shape.cells), Q_cell=model.circuit.capacity * health,
            z_i=model.circuit.rest.x, U_i=model.circuit.rest.y,
        )  # fmt: skip


@dataclass(frozen=True)
class Lasting:
    """The cruise in one condition. Times in s; ``longest`` only for a band. Both None: no answer."""

    temperature: float
    shortest: float | None
    longest: float | None
    words: str
    """What ends the flight, or why there is no answer."""


@dataclass(frozen=True)
class Outlook:
    """One flight at one age, at all temperatures."""

    flight: Flight
    age: Age
    lasts: tuple[Lasting, ...]


def outlooks(cases: Sequence[FlightCase]) -> tuple[tuple[Outlook, ...], tuple[Finding, ...]]:
    """Fly every case at every temperature and age: one call of the solver for each cell."""
    rows: dict[tuple[int, int], Outlook] = {}
    findings: list[Finding] = []
    numbered = list(enumerate(cases))
    for cell in dict.fromkeys(str(case.model.option.cell) for case in cases):
        own = [(number, case) for number, case in numbered if case.model.option.cell == cell]
        asked = [
            (number, case, which, age) for number, case in own for which, age in enumerate(AGES)
            if age.health is None or age.health < case.model.health
        ]  # fmt: skip
        runs = _Runs([(case, age) for _, case, _, age in asked])
        for place, (number, case, which, age) in enumerate(asked):
            rows[number, which] = Outlook(case.flight, age, tuple(runs.lasting(place)))
        findings += runs.findings([case for _, case, _, _ in asked], [age for _, _, _, age in asked])
    return tuple(rows[key] for key in sorted(rows)), tuple(findings)


class _Runs:
    """The scenarios of one cell, side by side: cases by temperatures, the temperatures running faster."""

    def __init__(self, asked: Sequence[tuple[FlightCase, Age]]) -> None:
        self.asked = asked
        self.refused: dict[int, str] = {}
        circuit = asked[0][0].model.circuit
        warm, cold = (list(product(range(len(asked)), temperatures)) for temperatures in (WARM, COLD))
        self.floors = [self._floor(number, *one) for number, one in enumerate(asked)]
        self.flights = fly(circuit, self._phases(warm), self._conditions(warm))
        self.band = flight_band(circuit, self._phases(cold), self._conditions(cold))

    def lasting(self, number: int) -> Iterator[Lasting]:
        """Give the answers of one case, from warm to cold."""
        case = self.asked[number][0]
        if number in self.refused:
            yield from (Lasting(T, None, None, self.refused[number]) for T in (*WARM, *COLD))
            return
        for step, temperature in enumerate(WARM):
            answer = self.flights[number * len(WARM) + step]
            if isinstance(answer, NoAnswer):
                yield Lasting(temperature, None, None, AGAINST[answer.reason])
            elif len(answer.phases) <= len(case.before):
                yield Lasting(temperature, 0.0, None, f"{WORDS[answer.limit]} in the phase {answer.ended_in}")
            else:
                yield Lasting(temperature, answer.phases[-1].time, None, WORDS[answer.limit])
        fixed = sum(row.duration for row in case.before)
        for step, temperature in enumerate(COLD):
            at = number * len(COLD) + step
            reason = Reason(int(self.band.reason[at]))
            if reason is not Reason.NONE:
                yield Lasting(temperature, None, None, AGAINST[reason])
            else:
                shortest, longest = (
                    max(float(times[at]) - fixed, 0.0) for times in (self.band.shortest, self.band.longest)
                )
                yield Lasting(temperature, shortest, longest, _BAND if shortest > 0 else _NO_CLIMB)

    def findings(self, cases: Sequence[FlightCase], ages: Sequence[Age]) -> Iterator[Finding]:
        """Tell each power that the battery as recorded cannot give when warm, once for a flight."""
        for number, (case, age) in enumerate(zip(cases, ages, strict=True)):
            if age.health is not None or number in self.refused:
                continue
            answer = self.flights[number * len(WARM)]
            what = _shortfall(answer, case)
            if what:
                remedy = "lower the power of the phase, or put more cells in parallel"
                place = case.model.option.place
                yield Finding("D002", f"{case.words}: {what}", remedy, place, Severity.WARNING)

    def _floor(self, number: int, case: FlightCase, age: Age) -> float:
        try:
            return min(case.floor(age.health or case.model.health), self._start(case))
        except OutsideRange as error:
            self.refused[number] = str(error)
            return 0.0

    def _start(self, case: FlightCase) -> float:
        return case.model.charge_at(case.model.option.full_cell_voltage.value)

    def _phases(self, scenarios: list[tuple[int, float]]) -> list[MissionPhase]:
        first = self.asked[0][0]
        made = [
            MissionPhase(
                row.name,
                np.array(
                    [
                        self._at_cell(number, self.asked[number][0].before[step].power)
                        for number, _ in scenarios
                    ]
                ),
                np.array([self.asked[number][0].before[step].duration for number, _ in scenarios]),
            )
            for step, row in enumerate(first.before)
        ]
        power = [self._at_cell(number, self.asked[number][0].cruise.power) for number, _ in scenarios]
        return [*made, MissionPhase(first.cruise.name, np.array(power))]

    def _at_cell(self, number: int, power: float) -> float:
        return power / self.asked[number][0].model.shape.cells

    def _conditions(self, scenarios: list[tuple[int, float]]) -> Conditions:
        cases = [self.asked[number][0] for number, _ in scenarios]
        ages = [self.asked[number][1] for number, _ in scenarios]
        return Conditions(
            start=np.array([self._start(case) for case in cases]),
            floor=np.array([self.floors[number] for number, _ in scenarios]),
            temperature=np.array([temperature for _, temperature in scenarios]),
            growth=np.array([age.growth for age in ages]),
            health=np.array([age.health or case.model.health for case, age in zip(cases, ages, strict=True)]),
            wiring=np.array([case.model.shape.wiring_at_cell for case in cases]),
        )


def _shortfall(answer: Flown | NoAnswer, case: FlightCase) -> str:
    """Say which power cannot be given; empty where all of them can."""
    if isinstance(answer, NoAnswer):
        return answer.message if answer.reason is Reason.POWER else ""
    if len(answer.phases) <= len(case.before):
        return f"the flight ends in the phase {answer.ended_in}: {WORDS[answer.limit]}"
    if answer.phases[-1].time == 0:
        return f"level flight cannot begin: {WORDS[answer.limit]}"
    return ""
