"""Every flight cold and warm, new and old: the profile flown by the discharge model."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from dossier.compute.cell_resistance import CONSTANT_BAND
from dossier.compute.cold import flight_band
from dossier.compute.discharge_outcome import WORDS, Limit, NoAnswer, Reason
from dossier.compute.mission import fly
from dossier.compute.mission_answer import Flight as Flown
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.figures import OutsideRange
from dossier.findings import Finding, Severity
from dossier.results.cell_model import CellModel
from dossier.results.flight_case import Condition, FlightCase, Floor
from dossier.results.pack_age import NEW, for_health, times
from dossier.results.profile import Flight

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
    """Of resistance, at its upper end: it makes the shortest time."""
    least_growth: float
    """At its lower end: it makes the longest."""


HEALTHS = (None, 0.9, 0.8)
"""Of the nominal capacity; None: as in this record."""


def _age(model: CellModel, health: float | None) -> Age:
    """Put an age into words, with the range of resistance that belongs to it."""
    if health is None:
        growth = model.growth
        grown = "" if growth is NEW else f", resistance {growth.words} that when new"
        return Age(f"as in this record{grown}", None, growth.high, growth.low)
    low, high = for_health(health)
    left = f"at {100 * health:.0f} % of its nominal capacity"
    return Age(f"{left}, resistance {times(low, high)} that when new", health, high, low)


AGAINST = {
    Reason.TEMPERATURE: "outside the temperatures of use",
    Reason.POWER: "the battery cannot give the power",
    Reason.RATE: "beyond the rate that the model holds for",
    Reason.COLD: "too cold for a single value",
}


LEAST, MOST = 0, 1
"""The ends of the growth of resistance."""
_BAND = "band of different cells"
_NO_CLIMB = "some cells do not give the climb power so cold"
_NO_LATER = "some cells do not give the power of a later phase so cold"


@dataclass(frozen=True)
class Lasting:
    """The cruise in one condition. Times in s; ``longest`` only for a band, of resistances and, in the cold,
    of cells. Both None: no answer."""

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
            (number, case, which, _age(case.model, health))
            for number, case in own
            for which, health in enumerate(HEALTHS)
            if health is None or health < case.model.health
        ]
        runs = _Runs([(case, age) for _, case, _, age in asked])
        for place, (number, case, which, age) in enumerate(asked):
            rows[number, which] = Outlook(case.flight, age, tuple(runs.lasting(place)))
        findings += runs.findings()
    return tuple(rows[key] for key in sorted(rows)), tuple(findings)


class _Runs:
    """The scenarios of one cell, side by side: cases by ends of the growth of resistance by temperatures, the
    last running fastest."""

    def __init__(self, asked: Sequence[tuple[FlightCase, Age]]) -> None:
        self.asked = asked
        self.refused: dict[int, str] = {}
        circuit = asked[0][0].model.circuit
        self.growth = [(age.least_growth, age.growth) for _, age in asked]
        lanes = (product(range(len(asked)), (LEAST, MOST), temperatures) for temperatures in (WARM, COLD))
        warm, cold = (list(each) for each in lanes)
        self.floors = {lane: self._floor(*lane) for lane in (*warm, *cold)}
        self.flights = fly(circuit, self._phases(warm), self._conditions(warm))
        self.band = flight_band(circuit, self._phases(cold), self._conditions(cold))

    def lasting(self, number: int) -> Iterator[Lasting]:
        """Give the answers of one case, from warm to cold."""
        if number in self.refused:
            yield from (Lasting(T, None, None, self.refused[number]) for T in (*WARM, *COLD))
            return
        warmer = None
        for answer in (*self._all_warm(number), *self._all_cold(number)):
            warmer = answer if warmer is None else _no_better(answer, warmer)
            yield warmer

    def _all_warm(self, number: int) -> Iterator[Lasting]:
        for step, temperature in enumerate(WARM):
            best, worst = (self._warm(number, end, step) for end in (LEAST, MOST))
            longest = best.shortest if worst.shortest is not None and best != worst else None
            yield replace(worst, temperature=temperature, longest=longest)

    def _all_cold(self, number: int) -> Iterator[Lasting]:
        fixed = sum(row.duration for row in self.asked[number][0].before)
        for step, temperature in enumerate(COLD):
            best_at, worst_at = (self._at(number, end, step, len(COLD)) for end in (LEAST, MOST))
            reason = Reason(int(self.band.reason[worst_at]))
            best, worst = (self.floors[number, end, temperature] for end in (LEAST, MOST))
            if reason is not Reason.NONE or best.refused:
                yield Lasting(temperature, None, None, best.refused or AGAINST[reason])
            else:
                ends = (self.band.shortest[worst_at], self.band.longest[best_at])
                shortest, longest = (max(float(time) - fixed, 0.0) for time in ends)
                shortest = 0.0 if worst.refused else shortest
                doubt = _NO_LATER if worst.refused else _NO_CLIMB
                yield Lasting(temperature, shortest, longest, _BAND if shortest > 0 else doubt)

    def _at(self, number: int, end: int, step: int, steps: int) -> int:
        """Return the place of a scenario."""
        return (2 * number + end) * steps + step

    def _warm(self, number: int, end: int, step: int) -> Lasting:
        """Give one answer of one case at one end of the growth of resistance."""
        case, temperature = self.asked[number][0], WARM[step]
        floor = self.floors[number, end, temperature]
        answer = self.flights[self._at(number, end, step, len(WARM))]
        if isinstance(answer, NoAnswer):
            return Lasting(temperature, None, None, AGAINST[answer.reason])
        if floor.refused:
            return Lasting(temperature, None, None, floor.refused)
        if len(answer.phases) <= len(case.before):
            return Lasting(temperature, 0.0, None, f"{WORDS[answer.limit]} in the phase {answer.ended_in}")
        return Lasting(temperature, answer.phases[-1].time, None, self._ended(answer.limit, floor))

    def _ended(self, limit: Limit, floor: Floor) -> str:
        """Say what ends the cruise."""
        if limit is Limit.FLOOR and floor.decided_by:
            return f"from less charge the power of the phase {floor.decided_by} is not given"
        return WORDS[limit]

    def findings(self) -> Iterator[Finding]:
        """Tell each power that the battery as recorded cannot give when warm, once for a flight."""
        for number, (case, age) in enumerate(self.asked):
            if age.health is not None or number in self.refused:
                continue
            best, worst = (
                _shortfall(self.flights[self._at(number, end, 0, len(WARM))], case) for end in (LEAST, MOST)
            )
            worst = worst or self._refusal(number, MOST)
            best = best or self._refusal(number, LEAST)
            grown = f", if its resistance is {age.growth:.2f} times that when new"
            what = best or (worst and worst + grown)
            floor = self.floors[number, MOST, WARM[0]]
            if not what and floor.decided_by:
                what = (
                    f"the phase {floor.decided_by} needs {100 * floor.charge:.0f} % of the charge for its "
                    "power, "
                    "more than its energy and the reserve keep"
                )
            if what:
                remedy = "lower the power of the phase, or put more cells in parallel"
                place = case.model.option.place
                yield Finding("D002", f"{case.words}: {what}", remedy, place, Severity.WARNING)

    def _refusal(self, number: int, end: int) -> str:
        """Say which later phase the warm battery cannot fly; empty where it can."""
        return self.floors[number, end, WARM[0]].refused

    def _floor(self, number: int, end: int, temperature: float) -> Floor:
        """Return what the cruise leaves; in the cold the two ends of the growth stand for two kinds of
        cell."""
        case, age = self.asked[number]
        constant = CONSTANT_BAND[end] if temperature in COLD else None
        at = Condition(age.health or case.model.health, self.growth[number][end], temperature, constant)
        try:
            floor = case.floor(at)
        except OutsideRange as error:
            self.refused[number] = str(error)
            return Floor(0.0)
        return replace(floor, charge=min(floor.charge, case.full))

    def _phases(self, scenarios: list[tuple[int, int, float]]) -> list[MissionPhase]:
        first = self.asked[0][0]
        made = [
            MissionPhase(
                row.name,
                np.array(
                    [
                        self._at_cell(number, self.asked[number][0].before[step].power)
                        for number, _, _ in scenarios
                    ]
                ),
                np.array([self.asked[number][0].before[step].duration for number, _, _ in scenarios]),
            )
            for step, row in enumerate(first.before)
        ]
        power = [self._at_cell(number, self.asked[number][0].cruise.power) for number, _, _ in scenarios]
        return [*made, MissionPhase(first.cruise.name, np.array(power))]

    def _at_cell(self, number: int, power: float) -> float:
        return power / self.asked[number][0].model.shape.cells

    def _conditions(self, scenarios: list[tuple[int, int, float]]) -> Conditions:
        cases = [self.asked[number][0] for number, _, _ in scenarios]
        ages = [self.asked[number][1] for number, _, _ in scenarios]
        return Conditions(
            start=np.array([case.full for case in cases]),
            floor=np.array([self.floors[lane].charge for lane in scenarios]),
            temperature=np.array([temperature for _, _, temperature in scenarios]),
            growth=np.array([self.growth[number][end] for number, end, _ in scenarios]),
            health=np.array([age.health or case.model.health for case, age in zip(cases, ages, strict=True)]),
            wiring=np.array([case.model.shape.wiring_at_cell for case in cases]),
        )


def _no_better(colder: Lasting, warmer: Lasting) -> Lasting:
    """Hold the answer of a colder battery to that of the warmer one: what is refused stays refused, and no
    cell flies longer when it is colder."""
    if warmer.shortest is None:
        return Lasting(colder.temperature, None, None, warmer.words)
    if colder.shortest is None:
        return colder
    most = warmer.shortest if warmer.longest is None else warmer.longest
    longest = None if colder.longest is None else min(colder.longest, most)
    return replace(colder, shortest=min(colder.shortest, warmer.shortest), longest=longest)


def _shortfall(answer: Flown | NoAnswer, case: FlightCase) -> str:
    """Say which power cannot be given; empty where all of them can."""
    if isinstance(answer, NoAnswer):
        return answer.message if answer.reason is Reason.POWER else ""
    if len(answer.phases) <= len(case.before):
        return f"the flight ends in the phase {answer.ended_in}: {WORDS[answer.limit]}"
    if answer.phases[-1].time == 0:
        return f"level flight cannot begin: {WORDS[answer.limit]}"
    return ""
