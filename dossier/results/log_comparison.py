"""The energy of a logged discharge, and the resistance of its first step, against the model of the type."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

import numpy as np

from dossier.compute import log_energy, pack, pack_state
from dossier.compute.cell_resistance import USUAL_CONSTANT
from dossier.compute.log_analysis import DischargeTest
from dossier.compute.log_energy import HOUR, STEP_SHARE, ZERO, accuracy
from dossier.compute.log_steps import ResistanceStep
from dossier.figures import (
    Figure,
    Formula,
    Input,
    OutsideRange,
    constant,
    error_source,
    evaluate,
    given,
    propagate,
    taken,
)
from dossier.model.battery import Cell, Option
from dossier.quantities import COVERAGE_FACTOR
from dossier.results.cell_model import common_table
from dossier.results.logged_test import LoggedTest
from dossier.results.pack_age import NEW, growth_per_loss
from dossier.sources import cite
from dossier.tables.rest_voltages import generic_of

INDOORS = (20 + ZERO, 10.0)
"""In K: a battery whose temperature nobody wrote down, and how far it may be off (source practice)."""
SENSOR = 2.0
"""In K, how far the middle of a cell may be from the sensor on it (source practice)."""
IRON_PHOSPHATE = "lithium-iron-phosphate"
_Given = Mapping[str, Input | list[Input]]
Ends = tuple[Input, Input] | str
"""States of charge before and after a test, or why they are not known."""


@dataclass(frozen=True)
class Comparison:
    """A measured value beside a computed one."""

    quantity: str
    """``energy`` or ``resistance``."""
    measured: Figure
    computed: Figure | None = None
    difference: Figure | None = None
    agrees: bool | None = None
    """None where nothing can be compared."""
    why: str = ""
    """Why not, then."""
    follows: tuple[str, ...] = ()
    """What the comparison rests on, and what does not follow from it."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return tuple(one for one in (self.measured, self.computed, self.difference) if one)


def agree(difference: Figure) -> bool:
    """Say whether a difference lies within its expanded uncertainty, k = 2."""
    return abs(difference.value) <= COVERAGE_FACTOR * difference.standard_uncertainty


def comparisons(
    number: int, one: LoggedTest, test: DischargeTest, battery: tuple[Option, Cell], ends: Ends
) -> tuple[Comparison, ...]:
    """Compare what one log shows.

    Args:
        number: of the test; figures are named after it.
        one: the test with its log.
        test: the discharge in it.
        battery: what was tested.
        ends: states of charge before and after, or why they are not known.
    """
    made = _Maker(number, one, test, battery)
    resistance = made.resistance(ends if isinstance(ends, str) else ends[0])
    return (made.energy(ends), *([resistance] if resistance else []))


class _Maker:
    """Makes the comparisons of one log."""

    def __init__(
        self, number: int, one: LoggedTest, test: DischargeTest, battery: tuple[Option, Cell]
    ) -> None:
        self.name, self.one, self.test = f"test_{number}", one, test
        self.option, self.cell = battery

    def energy(self, ends: Ends) -> Comparison:
        """Hold the energy that the log gives against that of the model."""
        error = error_source(f"energy of the test of {self.one.words}", self.test.energy.standard_uncertainty)
        place = self.one.log.place(self.test.first)
        whole = {"N": Input("whole battery", "number", 1.0, place)}
        read = Input("energy by the log", "energy", self.test.energy.value + error, place)
        measured = self._make(
            pack.pack_energy, "logged_energy", "Energy taken in the test", "energy", whole | {"E_cell": read}
        )
        if isinstance(ends, str):
            return Comparison("energy", measured, why=ends)
        try:
            return self._energy(measured, ends)
        except OutsideRange as error_found:
            return Comparison("energy", measured, why=str(error_found))

    def _energy(self, measured: Figure, ends: tuple[Input, Input]) -> Comparison:
        current, capacity = self._current(), self._capacity()
        rate = current.value / capacity.value * HOUR
        inputs: _Given = {
            "Q": capacity, "I": current, "z_1": ends[0], "z_2": ends[1], "k_m": self._model(rate),
            **self._shared(capacity), **self._table(),
        }  # fmt: skip
        computed = self._make(
            log_energy.energy_of_test, "modelled_energy", "Energy of the test by the model", "energy", inputs
        )
        difference = self._make(
            log_energy.energy_beyond, "energy_difference", "Energy by the log less that by the model",
            "energy", {"E": taken(measured), "E_t": taken(computed)},
        )  # fmt: skip
        follows = (
            f"from {100 * ends[0].value:.1f} to {100 * ends[1].value:.1f} % of the charge, by voltages",
            self._capacity_words(measured, capacity),
            self._temperature_words(),
            f"at {rate:.2g} capacities an hour: of the voltage at full power it shows nothing",
        )
        return Comparison("energy", measured, computed, difference, agree(difference), "", follows)

    def _capacity_words(self, measured: Figure, capacity: Input) -> str:
        """Say whose capacity is reckoned with, and how much of the nameplate energy the test gave."""
        nameplate = self.option.series * self.cell.nominal_voltage.value * capacity.value
        whose = "the stated capacity, so that the voltages decide" if self.one.stated else "that of the type"
        share = 100 * measured.value / nameplate
        return f"with {whose}; the test gave {share:.1f} % of the nameplate energy of that capacity"

    def resistance(self, start: Input | str) -> Comparison | None:
        """Hold the resistance of the step from rest against the table; None where there is no such step."""
        step = next((one for one in self.test.steps if one.row == self.test.first), None)
        if step is None:
            return None
        measured = self._step(step)
        if isinstance(start, str):
            return Comparison("resistance", measured, why=start)
        try:
            return self._resistance(measured, step, start)
        except OutsideRange as error:
            return Comparison("resistance", measured, why=str(error))

    def _step(self, step: ResistanceStep) -> Figure:
        place = self.one.log.place(step.row)
        label = f"instruments at the step of {self.one.words}"
        read = step.resistance.value + error_source(label, step.resistance.standard_uncertainty)
        whole = Input("whole battery", "number", 1.0, place)
        fall = Input("fall of voltage over step of current", "resistance", read, place)
        counts: _Given = {"N_s": whole, "N_p": whole, "R_cell": fall}
        label = f"Resistance from the step to {step.current_step:.0f} A, after {step.after:.0f} s"
        return self._make(pack.pack_resistance, "logged_resistance", label, "resistance", counts)

    def _resistance(self, measured: Figure, step: ResistanceStep, start: Input) -> Comparison:
        low, high = STEP_SHARE
        label = "part of the resistance that acts in the time of a step"
        part = (low + high) / 2 + error_source(label, (high - low) / 2 / sqrt(3))
        table = self._table()
        inputs: _Given = {
            "z": start, "k_s": Input(label, "number", part, cite("pybamm")),
            **self._shared(self._capacity()), "z_i": table["z_i"], "R_i": table["R_i"],
        }  # fmt: skip
        computed = self._make(
            log_energy.resistance_of_step, "modelled_resistance", "Resistance of the step by the table",
            "resistance", inputs,
        )  # fmt: skip
        difference = self._make(
            log_energy.resistance_beyond, "resistance_difference",
            "Resistance by the log less that by the table", "resistance",
            {"R": taken(measured), "R_t": taken(computed)},
        )  # fmt: skip
        follows = (
            f"after {step.after:.0f} s, at {100 * start.value:.1f} % of the charge",
            self._temperature_words(),
            f"the table is for a current that lasts: within seconds {low:g} to {high:g} of it acts",
        )
        return Comparison("resistance", measured, computed, difference, agree(difference), "", follows)

    def _make(self, formula: Formula, short: str, label: str, kind: str, inputs: _Given) -> Figure:
        return evaluate(formula, f"{short}.{self.name}", f"{label}, {self.one.words}", kind, inputs)

    def _current(self) -> Input:
        """The mean current weighed by charge: with it a constant resistance takes just as much energy."""
        log, rows = self.one.log, slice(self.test.first, self.test.last + 1)
        current, time = np.abs(log.current[rows]), log.time[rows]
        if len(time) < 2:
            raise OutsideRange("the log has one row under load")
        mean = float(np.trapezoid(current**2, time) / np.trapezoid(current, time))
        return Input("current of the test, weighed by charge", "current", mean, log.place(self.test.first))

    def _capacity(self) -> Input:
        """As the record states it for this test, else as the type has it: what the pages reckon with."""
        if self.one.stated:
            return given(self.one.stated, f"capacity of {self.one.words}, as stated")
        nominal = self.cell.nominal_capacity
        health = getattr(self.one.event, "health", None)
        part = health.estimate("health when fitted") if health else 1.0
        label = "nominal capacity of the battery" + (", by its health" if health else "")
        estimate = nominal.estimate("nominal capacity of the cell") * self.option.parallel * part
        return Input(label, "charge", estimate, nominal.place or "not in a file", nominal.text)

    def _model(self, rate: float) -> Input:
        """What the model, and a generic table of rest voltages, may be off by."""
        iron = self.cell.chemistry == IRON_PHOSPHATE
        part = accuracy(IRON_PHOSPHATE if iron else str(self.cell.application or "energy"), rate)
        label = "discharge model against simulated cells"
        factor = 1 + error_source(label, part / sqrt(3))
        generic = generic_of(self.cell)
        if generic:
            factor = factor + error_source("rest voltages of another cell", generic.spread_energy / sqrt(3))
        return Input(label, "number", factor, cite("pybamm"))

    def _shared(self, capacity: Input) -> dict[str, Input]:
        """Counts, temperature, age and wiring, for both comparisons."""
        option, place = self.option, self.option.place or "not in a file"
        stated = self.cell.resistance_temperature_constant
        usual = constant("usual rise of resistance in the cold", "temperature", USUAL_CONSTANT, "pybamm")
        wiring = option.wiring_resistance
        bare = Input("no resistance of wiring is stated", "resistance", 0.0, place)
        series, strings = (option.place_of_key(key) or place for key in ("series", "parallel"))
        return {
            "N_s": Input("cells in series", "number", float(option.series), series),
            "N_p": Input("strings in parallel", "number", float(option.parallel), strings),
            "T_b": self._temperature(),
            "G": self._growth(capacity),
            "b": given(stated, "rise of resistance in the cold") if stated else usual,
            "R_w": given(wiring, "wiring") if wiring else bare,
        }  # fmt: skip

    def _growth(self, capacity: Input) -> Input:
        """Growth of the resistance as stated with the test, else the published range for what is lost."""
        stated = self.one.event.resistance_growth
        if stated:
            return given(stated, f"growth of resistance of {self.one.words}")
        cell = capacity.estimate / self.option.parallel
        nominal = given(self.cell.nominal_capacity, "nominal capacity of the cell")
        lost = Input("capacity of a cell", "charge", cell, capacity.origin)
        if lost.value >= nominal.value:
            return NEW.input
        inputs: _Given = {"Q_cell": lost, "Q_nom": nominal, "k_G": growth_per_loss(), "G_1": NEW.input}
        grown = propagate(pack_state.resistance_growth, inputs)
        return Input("published growth of resistance", "number", grown, cite("resistance-with-loss"))

    def _temperature(self) -> Input:
        log = self.one.log
        if log.temperature is None:
            mean, off = INDOORS
            label = "temperature nobody wrote down, indoors"
            return Input(label, "temperature", mean + error_source(label, off / sqrt(3)), cite("practice"))
        mean = float(np.mean(log.temperature[self.test.first : self.test.last + 1]))
        label = f"middle of the cells against the sensor, {self.one.words}"
        estimate = mean + error_source(label, SENSOR / sqrt(3))
        return Input("mean temperature of the log", "temperature", estimate, log.place(self.test.first))

    def _temperature_words(self) -> str:
        coldest, hottest = self.test.coldest, self.test.hottest
        if coldest is None or hottest is None:
            mean, off = INDOORS
            return f"no temperature in the log: {mean - ZERO:.0f} °C is taken, {off:.0f} °C either way"
        return f"at {coldest - ZERO:.0f} to {hottest - ZERO:.0f} °C by the log"

    def _table(self) -> dict[str, list[Input]]:
        if not self.cell.resistance:
            raise OutsideRange("the cell has no table of resistance")
        return common_table(self.cell)
