"""What the battery's conductors must carry: the current of each phase of the energy profile with the heaviest
pilot, with the coldest battery, at the end of the phase, where the voltage is lowest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import sqrt
from typing import Any

from dossier.compute import charge_left, open_circuit, pack, performance, traction_current
from dossier.compute.cell import BURST_TIME
from dossier.compute.traction_current import SHORT_SHARE, lasting_level, longest_stretch
from dossier.figures import Figure, Formula, Input, OutsideRange, error_source, evaluate, given, taken
from dossier.model.aircraft import Aircraft
from dossier.quantities import Quantity
from dossier.results.cell_model import CellModel, conditions
from dossier.results.flight_case import FlightCase
from dossier.results.profile import PhaseRow
from dossier.results.weighing import slugs
from dossier.sources import cite

HOUR = 3600.0
SAG = (
    "The whole resistance of the cells is taken to act, at the end of the phase. In a short phase less of it "
    "does: the current comes out too large rather than too small."
)
MOST = (
    "The discharge model has no answer for this phase: {}. The most stands here, the power at the voltage "
    "under load at which the discharge ends; more flows only if the drive does not stop there."
)


_Given = Mapping[str, Input | list[Input]]


@dataclass(frozen=True)
class PhaseCurrent:
    """One phase. Duration in s."""

    name: str
    duration: float
    voltage: Figure
    current: Figure
    why_most: str
    """Why the most stands here; empty where the model has an answer."""


@dataclass(frozen=True)
class OptionCurrents:
    """One battery."""

    option: str
    words: str
    """Battery and pilot, for a reader."""
    phases: tuple[PhaseCurrent, ...]
    continuous: Figure
    """The largest current that lasts."""
    continuous_voltage: Figure
    """Under it."""
    burst: Figure | None
    """The largest of all, where it is more."""
    burst_time: float
    """In s: how long more than the continuous current flows without a break."""
    lowest_voltage: Figure
    short_circuit: Figure
    figures: tuple[Figure, ...]

    @property
    def burst_current(self) -> Figure:
        """The largest current of all."""
        return self.burst or self.continuous


def option_currents(case: FlightCase, aircraft: Aircraft, coldest: Quantity) -> OptionCurrents:
    """Compute the currents of one battery in one flight of the energy table.

    Raises:
        OutsideRange: not even the most can be told.
    """
    return _Maker(case, aircraft, coldest).made()


class _Maker:
    """Makes the figures of one battery, each from the ones before it."""

    def __init__(self, case: FlightCase, aircraft: Aircraft, coldest: Quantity) -> None:
        self.case = case
        self.model: CellModel = case.model
        self.figures: list[Figure] = []
        self.aircraft = aircraft
        self.names = dict(
            zip(
                (str(phase.name) for phase in aircraft.profile),
                slugs(str(phase.name) for phase in aircraft.profile),
                strict=True,
            )
        )
        self.cold = given(coldest, "coldest battery at take-off")
        energies = (figure for figure in case.flight.figures if figure.name.startswith("energy_"))
        self.energy = {one.name.partition(".")[0].removeprefix("energy_"): one for one in energies}

    def made(self) -> OptionCurrents:
        phases = tuple(self._phase(row) for row in self.case.flight.rows if row.power > 0)
        currents, times = [one.current.value for one in phases], [one.duration for one in phases]
        lasting, largest = lasting_level(currents, times), max(range(len(currents)), key=currents.__getitem__)
        above = min((one for one in currents if one > currents[lasting]), default=None)
        continuous = self._stated("continuous_current", "Largest current that lasts", phases[lasting].current)
        burst = None
        if above is not None:
            burst = self._stated("burst_current", "Largest current for a short time", phases[largest].current)
        lowest = min((one.voltage for one in phases), key=lambda one: one.value)
        return OptionCurrents(
            self.case.flight.option,
            self.case.words,
            phases,
            continuous,
            phases[lasting].voltage,
            burst,
            0.0 if above is None else longest_stretch(currents, times, above),
            self._stated("lowest_voltage", "Lowest voltage under load", lowest),
            self._short_circuit(),
            tuple(self.figures),
        )

    def _make(
        self, formula: Formula, short: str, label: str, kind: str, inputs: _Given, **more: Any
    ) -> Figure:
        option = self.case.flight.option
        figure = evaluate(formula, f"{short}.{option}", f"{label}, {self.model.name}", kind, inputs, **more)
        self.figures.append(figure)
        return figure

    def _stated(self, short: str, label: str, figure: Figure) -> Figure:
        return self._make(performance.as_stated, short, label, figure.kind, {"y": taken(figure)})

    def _phase(self, row: PhaseRow) -> PhaseCurrent:
        slug, made = self.names[row.name], len(self.figures)
        try:
            voltage, current, why = *self._by_model(row, slug), ""
        except OutsideRange as error:
            del self.figures[made:]
            why = str(error)
            voltage, current = self._most(row, slug, why)
        return PhaseCurrent(row.name, row.duration, voltage, current, why)

    def _by_model(self, row: PhaseRow, slug: str) -> tuple[Figure, Figure]:
        """Give voltage and current at the end of a phase.

        Raises:
            OutsideRange: the model does not hold there.
        """
        z, power = self._charge(row, slug), self._power(row)
        asked = {key: one for key, one in conditions(self.model).items() if key != "C_lim"}
        voltage = self._make(
            traction_current.voltage_under_power, f"voltage_in_{slug}", f"Voltage at the end of {row.name}",
            "voltage", {"P": power, "z": taken(z), **self._counts(), **asked, "T_b": self.cold,
                        "R_w": self._wiring(), **self.model.table}, note=SAG,
        )  # fmt: skip
        current = self._current(voltage, row, slug, SAG)
        self._check_rate(row, current)
        return voltage, current

    def _most(self, row: PhaseRow, slug: str, why: str) -> tuple[Figure, Figure]:
        empty = given(self.model.cell.empty_voltage, "voltage under load at which the discharge ends, cell")
        voltage = self._make(
            pack.pack_voltage, f"voltage_in_{slug}", f"Least voltage in {row.name}", "voltage",
            {"N_s": self._counts()["N_s"], "U_cell": empty}, note=MOST.format(why),
        )  # fmt: skip
        return voltage, self._current(voltage, row, slug, MOST.format(why))

    def _current(self, voltage: Figure, row: PhaseRow, slug: str, note: str) -> Figure:
        label = f"Current at the end of {row.name}"
        inputs: dict[str, Input | list[Input]] = {"P": self._power(row), "U": taken(voltage)}
        return self._make(pack.current, f"current_in_{slug}", label, "current", inputs, note=note)

    def _power(self, row: PhaseRow) -> Input:
        if row.is_open:
            return self.case.flight.cruise
        power = self.energy[self.names[row.name]].working.inputs["P"]
        assert isinstance(power, Input)
        return power

    def _charge(self, row: PhaseRow, slug: str) -> Figure:
        """State of charge at the end of a phase; level flight goes on until only the kept phases are left."""
        rows, figures, model = self.case.flight.rows, self.model.result.figures, self.model
        at = rows.index(row)
        own = figures.get("cell_capacity")
        shared: dict[str, Input | list[Input]] = {
            "eta_b": given(self.aircraft.propulsion.efficiency.battery, "efficiency of the battery"),
            "N": taken(figures["cells"]),
            "Q_cell": taken(own)
            if own
            else given(model.cell.nominal_capacity, "nominal capacity of the cell"),
            "z_i": model.table["z_i"],
            "U_i": model.table["U_i"],
        }
        label = f"State of charge at the end of {row.name}"
        if not any(one.is_open for one in rows[: at + 1]) and not row.kept:
            spent = [self._energy(one) for one in rows[: at + 1] if not one.kept]
            start: _Given = {"U_1": given(model.option.full_cell_voltage, "full, cell"), "E_i": spent}
            return self._make(
                charge_left.charge_after, f"charge_in_{slug}", label, "ratio", {**start, **shared}
            )
        later = [self._energy(one) for one in rows[at + 1 :]]
        kept: _Given = {
            "U_2": given(model.option.empty_cell_voltage, "flying stops, cell"),
            "r": given(model.option.reserve, "reserve"),
            "E": taken(figures["energy_between_limits"]),
            "E_i": later,
        }
        return self._make(charge_left.charge_kept, f"charge_in_{slug}", label, "ratio", {**kept, **shared})

    def _energy(self, row: PhaseRow) -> Input:
        return taken(self.energy[self.names[row.name]])

    def _check_rate(self, row: PhaseRow, current: Figure) -> None:
        """Refuse a rate at which one resistance does not stand for the cell.

        Raises:
            OutsideRange: it is higher, by the current or, for a long phase, by the power.
        """
        circuit, health = self.model.circuit, self.model.health
        rate = current.value / self.model.shape.strings / (circuit.capacity * health) * HOUR
        if rate > circuit.rates.burst:
            raise OutsideRange(
                f"it is a rate of {rate:.2g}, and one resistance stands for the cell to "
                f"{circuit.rates.burst:g}"
            )
        nominal = row.power / self.model.shape.cells * HOUR / (circuit.nominal_energy * min(health, 1.0))
        if nominal > circuit.rates.sustained and row.duration > BURST_TIME:
            raise OutsideRange(
                f"it is a nominal rate of {nominal:.2g} for {row.duration:.0f} s, and one resistance stands "
                f"for the cell to {circuit.rates.sustained:g} when it lasts longer than {BURST_TIME:.0f} s"
            )

    def _short_circuit(self) -> Figure:
        low, high = SHORT_SHARE
        label = "part of the resistance that limits a short circuit"
        share = Input(
            label,
            "number",
            (low + high) / 2 + error_source(label, (high - low) / 2 / sqrt(3)),
            cite("practice"),
        )
        points = {key: self.model.table[key] for key in ("z_i", "U_i")}
        full = self._make(
            open_circuit.state_of_charge, "full_charge", "State of charge where charging stops", "ratio",
            {"U_oc": given(self.model.option.full_cell_voltage, "full, cell"), **points},
        )  # fmt: skip
        return self._make(
            traction_current.short_circuit_current, "short_circuit_current",
            "Short-circuit current, an estimate", "current",
            {"z": taken(full), "N_p": self._counts()["N_p"], "k_s": share, **self.model.table},
        )  # fmt: skip

    def _counts(self) -> dict[str, Input]:
        option = self.model.option
        counts = (
            ("N_s", "cells in series", "series", option.series),
            ("N_p", "strings in parallel", "parallel", option.parallel),
        )
        return {
            symbol: Input(label, "number", float(count), option.place_of_key(key) or "", str(count))
            for symbol, label, key, count in counts
        }

    def _wiring(self) -> Input:
        stated = self.model.option.wiring_resistance
        if stated:
            return given(stated, "wiring of the battery")
        return Input("no resistance of wiring is stated", "resistance", 0.0, self.model.option.place or "")


def heaviest(cases: tuple[FlightCase, ...]) -> Iterator[FlightCase]:
    """Give of each battery the flight with the heaviest pilot."""
    last = {case.flight.option: case for case in sorted(cases, key=lambda case: case.flight.pilot)}
    yield from (last[option] for option in dict.fromkeys(case.flight.option for case in cases))
