"""Cruise endurance of one flight by the discharge model, as figures with their working."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from dossier.compute import charge_left, charge_taken, open_circuit, pack, pack_share, power_floor, run_time
from dossier.figures import Figure, Formula, Input, OutsideRange, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.results.cell_model import CellModel, conditions
from dossier.results.flight_case import FlightCase
from dossier.results.intermediate import plain
from dossier.results.profile import Flight, PhaseRow

NOTE = (
    "Computed with one resistance for each state of charge, at 25 °C, shown against simulated cells only. "
    "Expect 3 % at best, and 5 % from a maker's sheet; what the record leaves open as to the resistance is "
    "not in the ±."
)


_Given = Mapping[str, Input | list[Input]]


@dataclass(frozen=True)
class ModelledFlight:
    """The cruise of one flight, by the energy and by the discharge model."""

    flight: Flight
    words: str
    """Which battery and which pilot."""
    modelled: Figure
    ends: str
    """What ends the cruise, in words."""
    figures: tuple[Figure, ...]


class EnduranceMaker:
    """Makes the figures of one flight, each from the ones before it."""

    def __init__(self, model: CellModel, flight: Flight, aircraft: Aircraft) -> None:
        """Part the phases into those before the open cruise and those for which charge is kept."""
        self.model = model
        self.flight = flight
        self.aircraft = aircraft
        self.findings: list[Finding] = []
        self.figures: list[Figure] = []
        self.suffix = flight.endurance.name.partition(".")[2]
        self.words = flight.endurance.label.partition(", reserve kept, ")[2]
        energies = [figure for figure in flight.figures if figure.name.startswith("energy_")]
        self.open_at = next(number for number, row in enumerate(flight.rows) if row.is_open)
        fixed = [row for row in flight.rows if not row.is_open]
        later = [row.kept or number >= self.open_at for number, row in enumerate(fixed)]
        self.before = [one for one, kept in zip(energies, later, strict=True) if not kept]
        self.kept = [one for one, kept in zip(energies, later, strict=True) if kept]
        self.phases = tuple(row for row, kept in zip(fixed, later, strict=True) if not kept)
        self.later = tuple(row for row, kept in zip(fixed, later, strict=True) if kept)

    def flight_modelled(self) -> tuple[ModelledFlight, ...]:
        """Make the figures, or tell why they cannot be made."""
        try:
            modelled = self._run_time()
        except OutsideRange as error:
            fault = f"{self.words}: no endurance by the discharge model, {error}"
            remedy = "rely on measured flights here"
            self.findings.append(Finding("D003", fault, remedy, self.model.option.place, Severity.NOTE))
            return ()
        return (ModelledFlight(self.flight, self.words, modelled, self._ends(modelled), tuple(self.figures)),)

    def case(self) -> tuple[FlightCase, ...]:
        """Put the flight as the table and the card need it; none where it has no charge to keep or to begin
        with."""
        cruise = self.flight.rows[self.open_at]
        if cruise.power <= 0 or "energy_between_limits" not in self.model.result.figures:
            return ()
        return (FlightCase(self.model, self.flight, self.words, self.phases, cruise, self.later),)

    def _make(
        self, formula: Formula, short: str, label: str, kind: str, inputs: _Given, **more: Any
    ) -> Figure:  # fmt: skip
        figure = evaluate(formula, f"{short}.{self.suffix}", f"{label}, {self.words}", kind, inputs, **more)
        self.figures.append(figure)
        return figure

    def _run_time(self) -> Figure:
        model, table = self.model, self.model.table
        power = self._cell_power(self.flight.cruise, "cell_power", "Power of one cell in level flight")
        inner, wiring = self._cell_capacity(), self._wiring()
        first, last = self._charges(wiring)
        nominal = self._make(
            pack.nameplate_energy, "cell_nameplate_energy", "Nameplate energy of a cell", "energy",
            {"U_nom": given(model.cell.nominal_voltage, "nominal voltage, cell"), "Q": inner},
            style="cell_energy",
        )  # fmt: skip
        inputs: _Given = {
            "P_cell": taken(power), "z_1": taken(first), "z_2": taken(last), "Q_cell": inner, "R_x": wiring,
            "E_nom": taken(nominal), **conditions(model), **table,
        }  # fmt: skip
        return self._make(
            run_time.time_at_power, "endurance_modelled",
            "Cruise endurance by the discharge model, reserve kept", "time", inputs, note=NOTE,
            points=(run_time.points_of_run(**plain(inputs)),),
        )  # fmt: skip

    def _counts(self) -> _Given:
        option = self.model.option
        return {
            "N_s": Input(
                "cells in series", "number", float(option.series), option.place_of_key("series") or ""
            ),
            "N_p": Input(
                "strings in parallel", "number", float(option.parallel), option.place_of_key("parallel") or ""
            ),
        }

    def _cell_power(self, power: Input, short: str, label: str) -> Figure:
        inputs = {"P": power, **self._counts()}
        return self._make(pack_share.cell_power, short, label, "power", inputs, style="cell_power")

    def _wiring(self) -> Input:
        option = self.model.option
        if not option.wiring_resistance:
            return Input("no resistance of wiring is stated", "resistance", 0.0, option.place or "")
        share = self._make(
            pack_share.wiring_at_cell, "wiring_at_cell", "Share of the wiring at a cell", "resistance",
            {"R_w": given(option.wiring_resistance, "wiring"), **self._counts()},
        )  # fmt: skip
        return taken(share)

    def _cell_capacity(self) -> Input:
        own = self.model.result.figures.get("cell_capacity")
        return taken(own) if own else given(self.model.cell.nominal_capacity, "nominal capacity of the cell")

    def _charges(self, wiring: Input) -> tuple[Figure, Figure]:
        """State of charge at which the cruise begins, and the one that it leaves."""
        model, figures = self.model, self.model.result.figures
        first = self._charge_at_cruise(wiring)
        shared: dict[str, Input | list[Input]] = {
            "eta_b": given(self.aircraft.propulsion.efficiency.battery, "efficiency of the battery"),
            "N": taken(figures["cells"]),
            "Q_cell": self._cell_capacity(),
            "z_i": model.table["z_i"],
            "U_i": model.table["U_i"],
        }
        last = self._make(
            charge_left.charge_kept,
            "charge_kept",
            "State of charge that keeps the energy of the reserve and of later phases",
            "ratio",
            {
                "U_2": given(model.option.empty_cell_voltage, "flying stops, cell"),
                "r": given(model.option.reserve, "reserve"),
                "E": taken(figures["energy_between_limits"]),
                "E_i": [taken(one) for one in self.kept],
                **shared,
            },
        )
        return first, self._kept_in_power(last, wiring, shared) if self.kept else last

    def _charge_at_cruise(self, wiring: Input) -> Figure:
        """State of charge where level flight begins: what each phase before it takes, under its own load."""
        model = self.model
        at = {key: one for key, one in conditions(model).items() if key not in ("C_lim", "U_min")}
        shared: _Given = {"Q_cell": self._cell_capacity(), "R_x": wiring, **at, **model.table}
        charge = self._make(
            open_circuit.state_of_charge, "charge_at_start", "State of charge of the full battery", "ratio",
            {"U_oc": given(model.option.full_cell_voltage, "full, cell"),
             "z_i": model.table["z_i"], "U_i": model.table["U_i"]},
        )  # fmt: skip
        for row, energy in zip(self.phases, self.before, strict=True):
            asked, lasts = energy.working.inputs["P"], energy.working.inputs["t"]
            assert isinstance(asked, Input)
            assert isinstance(lasts, Input)
            slug = energy.name.partition(".")[0].removeprefix("energy_")
            power = self._cell_power(
                asked, f"cell_power_{slug}", f"Power of one cell in the phase {row.name}"
            )
            charge = self._make(
                charge_taken.charge_after_power, f"charge_after_{slug}",
                f"State of charge after the phase {row.name}", "ratio",
                {"P_cell": taken(power), "t": lasts, "z_1": taken(charge), **shared},
            )  # fmt: skip
        return charge

    def _kept_in_power(self, by_energy: Figure, wiring: Input, shared: _Given) -> Figure:
        """State of charge from which the phases after the cruise can be flown, in energy and in power."""
        needs = [self._need(row, energy, wiring) for row, energy in zip(self.later, self.kept, strict=True)]
        return self._make(
            power_floor.charge_kept_for_power, "charge_left", "State of charge that level flight leaves",
            "ratio",
            {"z_2": taken(by_energy), "z_k": needs, "E_i": [taken(one) for one in self.kept], **shared},
        )  # fmt: skip

    def _need(self, row: PhaseRow, energy: Figure, wiring: Input) -> Input:
        """State of charge that a later phase needs for its power."""
        model, table = self.model, self.model.table
        if row.power <= 0:
            return Input(f"{row.name}: motor off", "ratio", model.circuit.rest.x[0], model.option.place or "")
        asked = energy.working.inputs["P"]
        assert isinstance(asked, Input)
        slug = energy.name.partition(".")[0].removeprefix("energy_")
        power = self._cell_power(asked, f"cell_power_{slug}", f"Power of one cell in the phase {row.name}")
        at = {key: one for key, one in conditions(model).items() if key != "C_lim"}
        needed = self._make(
            power_floor.charge_for_power, f"charge_for_{slug}",
            f"State of charge that the phase {row.name} needs for its power", "ratio",
            {"P_cell": taken(power),
             "I_lim": given(model.cell.maximum_discharge_current, "greatest current, cell"),
             "R_x": wiring, **at, **table},
        )  # fmt: skip
        return taken(needed)

    def _ends(self, endurance: Figure) -> str:
        """Say which limit came first: without the voltage limit the run would be as long, or longer."""
        inputs = plain(endurance.working.inputs)
        lowest = max(self.model.circuit.rest.y[-1] / 2 * 1.0001, 0.01)
        freely = run_time.time_at_power(**{**inputs, "U_min": lowest})
        if freely > endurance.value * (1 + 1e-9):
            return "voltage under load"
        made = {figure.name.partition(".")[0]: figure.value for figure in self.figures}
        if made.get("charge_left", 0.0) > made["charge_kept"]:
            return "charge that a later phase needs for its power"
        return "reserve and later phases kept"
