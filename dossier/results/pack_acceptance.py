"""Whether the logged test of a battery accepts it: its values against stated limits, by the one decision
rule.

Accepted means that the test met what the record asks of a test. It says nothing of the fitness of a
battery to fly.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import sqrt

from dossier.compute import log_energy, pack_criteria, performance
from dossier.compute.log_analysis import DischargeTest
from dossier.figures import Figure, Input, Inputs, OutsideRange, error_source, evaluate, given, taken
from dossier.model.aircraft import Limit
from dossier.model.battery import Cell, Option
from dossier.results.battery_outcome import Outcome
from dossier.results.log_comparison import SENSOR, Comparison
from dossier.results.logged_test import LoggedTest
from dossier.results.pack_verdict import Asked, CriterionHeld, PackVerdict, decided
from dossier.sources import cite

CELL_ERROR = 0.005
"""In V: by how much the voltage of a cell may be off against another (common practice, no source)."""


class Holder:
    """Holds one test against every criterion that is asked."""

    def __init__(
        self,
        number: int,
        one: LoggedTest,
        test: DischargeTest | None,
        battery: tuple[Option, Cell],
        asked: Asked,
    ) -> None:
        """Take one test.

        Args:
            number: of the test; figures are named after it.
            one: the test with its log.
            test: the discharge in it; None where there is none.
            battery: what was tested.
            asked: what it is held against.
        """
        self.name, self.one, self.test, self.asked = f"test_{number}", one, test, asked
        self.option, self.cell = battery
        self.figures: list[Figure] = []
        self.none = ""

    def verdict(
        self, figures: Mapping[str, Figure], compared: Sequence[Comparison], *, trusted: bool, none: str = ""
    ) -> PackVerdict | None:
        """Judge the battery; None where nothing is asked.

        Args:
            figures: of the test, by short name.
            compared: its energy and resistance.
            trusted: whether the log was accepted; else its counts show nothing, while a hot cell stays hot.
            none: why the log gives no capacity, where it gives none.
        """
        pairs = {pair.quantity: pair for pair in compared}
        acceptance = self.asked.acceptance
        counted = "" if trusted else "the log itself is not accepted"
        self.none = none
        asked: tuple[tuple[str, object, bool, str, Callable[[], Figure]], ...] = (
            ("capacity", acceptance.least_capacity_limit, True, counted, lambda: self._capacity(figures)),
            ("energy of the test", acceptance.least_energy_limit, True, counted, lambda: self._energy(pairs)),
            ("spread of the cells at rest", acceptance.largest_cell_spread_limit, False, "", self._spread),
            ("lowest temperature", acceptance.coldest_limit, True, "", lambda: self._temperature("coldest")),
            (
                "highest temperature",
                acceptance.hottest_limit,
                False,
                "",
                lambda: self._temperature("hottest"),
            ),
            (
                "resistance over that when new",
                acceptance.largest_resistance_growth_limit,
                False,
                counted,
                lambda: self._resistance(pairs),
            ),
        )
        rows = tuple(
            self._held(name, self.asked.limits[str(limit)], at_least, against, make)
            for name, limit, at_least, against, make in asked
            if limit is not None
        )
        return (
            PackVerdict(self.one.words, str(self.one.event.pack), rows, tuple(self.figures)) if rows else None
        )

    def _held(
        self, name: str, limit: Limit, at_least: bool, against: str, make: Callable[[], Figure]
    ) -> CriterionHeld:
        try:
            figure = make()
        except OutsideRange as error:
            return CriterionHeld(name, limit, at_least, None, Outcome.NOT_SHOWN, str(error))
        if against:
            return CriterionHeld(name, limit, at_least, figure, Outcome.NOT_SHOWN, against)
        outcome = decided(figure, limit, self.asked.coverage, at_least=at_least)
        return CriterionHeld(name, limit, at_least, figure, outcome)

    def _make(
        self, formula: object, short: str, label: str, kind: str, inputs: Inputs, **more: str
    ) -> Figure:
        name, full = f"{short}.{self.name}", f"{label}, {self.one.words}"
        made = evaluate(formula, name, full, kind, inputs, **more)  # type: ignore[arg-type]
        self.figures.append(made)
        return made

    def _rated(self) -> dict[str, Input]:
        """Counts and what the maker prints of a cell: numbers by definition, without uncertainty."""
        cell, option = self.cell, self.option
        rated = (
            ("Q_nom", "nominal capacity of the cell, as rated", cell.nominal_capacity),
            ("U_nom", "nominal voltage of the cell, as rated", cell.nominal_voltage),
        )
        made = {
            key: Input(label, one.kind, one.value, one.place or "", one.text) for key, label, one in rated
        }
        for key, label, word, count in (
            ("N_s", "cells in series", "series", option.series),
            ("N_p", "strings in parallel", "parallel", option.parallel),
        ):
            made[key] = Input(label, "number", float(count), option.place_of_key(word) or "", str(count))
        return made

    def _capacity(self, figures: Mapping[str, Figure]) -> Figure:
        if "logged_capacity" not in figures:
            raise OutsideRange(self.none or "the log gives no capacity")
        rated = self._rated()
        inputs = {"Q": taken(figures["logged_capacity"]), "N_p": rated["N_p"], "Q_nom": rated["Q_nom"]}
        return self._make(
            pack_criteria.capacity_of_nominal,
            "capacity_share",
            "Capacity by the log, of the nominal one",
            "ratio",
            inputs,
        )

    def _energy(self, pairs: Mapping[str, Comparison]) -> Figure:
        if "energy" not in pairs:
            raise OutsideRange("the log holds no discharge")
        inputs = {"E": taken(pairs["energy"].measured), **self._rated()}
        label = "Energy of the test, of the nameplate energy when new"
        return self._make(pack_criteria.energy_of_nameplate, "energy_share", label, "ratio", inputs)

    def _spread(self) -> Figure:
        spread = self.test.spread_at_rest if self.test else None
        if spread is None:
            raise OutsideRange("the log holds no voltages of all cells at rest")
        log, place = self.one.log, self.one.log.place(spread.row)
        stated = self.one.event.log.cell_voltage_error if self.one.event.log else None
        off = stated.value if stated else CELL_ERROR
        inputs = {}
        for key, name in (("U_h", spread.highest), ("U_l", spread.lowest)):
            error = error_source(f"voltage of {name}", off / sqrt(3), bounded=True)
            read = float(log.cells[name][spread.row]) + error
            inputs[key] = Input(f"{name}, at rest", "voltage", read, place)
        return self._make(
            pack_criteria.apart,
            "cell_spread",
            "Spread of the cells at rest",
            "voltage",
            inputs,
            style="cell_spread",
        )

    def _temperature(self, end: str) -> Figure:
        found: float | None = getattr(self.test, end) if self.test else None
        log = self.one.log
        if found is None or log.temperature is None:
            raise OutsideRange("the log holds no temperature")
        row = int(log.temperature.argmax() if end == "hottest" else log.temperature.argmin())
        label = f"middle of the cells against the sensor, {self.one.words}"
        estimate = found + error_source(label, SENSOR / sqrt(3), bounded=True)
        word = "Highest" if end == "hottest" else "Lowest"
        read = {"y": Input(f"{word.lower()} temperature in the log", "temperature", estimate, log.place(row))}
        return self._make(
            performance.as_stated, f"{end}_in_test", f"{word} temperature of the test", "temperature", read
        )

    def _resistance(self, pairs: Mapping[str, Comparison]) -> Figure:
        pair = pairs.get("resistance")
        if pair is None:
            raise OutsideRange("the log shows no step of the current: its first rows lie too far apart")
        if pair.computed is None:
            raise OutsideRange(pair.why)
        new = Input("as when new", "number", 1.0, cite("definition"))
        inputs = {**pair.computed.working.inputs, "G": new}
        table = self._make(
            log_energy.resistance_of_step,
            "new_resistance",
            "Resistance of the step by the table, new cells",
            "resistance",
            inputs,
        )
        wiring = self.option.wiring_resistance
        bare = Input("no resistance of wiring is stated", "resistance", 0.0, self.option.place or "")
        return self._make(
            pack_criteria.growth_by_step,
            "growth_by_step",
            "Resistance of the cells over that when new",
            "number",
            {
                "R": taken(pair.measured),
                "R_t": taken(table),
                "R_w": given(wiring, "wiring") if wiring else bare,
            },
        )
