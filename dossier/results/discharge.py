"""How long the battery lasts by the discharge model: voltage under load, reserve, cold and age, and what ends
the flight."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from dossier.compute import charge_left, pack, pack_share, run_time
from dossier.figures import Figure, Formula, Input, OutsideRange, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.results.battery import PackResult
from dossier.results.cell_model import CellModel, cell_model, conditions
from dossier.results.discharge_table import FlightCase, Outlook, outlooks
from dossier.results.energy import Energy, Flight
from dossier.results.gauge import Gauge, gauges

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
    modelled: Figure
    ends: str
    """What ends the cruise, in words."""
    figures: tuple[Figure, ...]


@dataclass(frozen=True)
class Modelled:
    """Everything that the discharge model says of one aircraft."""

    flights: tuple[ModelledFlight, ...] = ()
    outlooks: tuple[Outlook, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    findings: tuple[Finding, ...] = ()
    models: tuple[CellModel, ...] = ()
    """Of the batteries whose record states a resistance."""
    cases: tuple[FlightCase, ...] = ()
    """The flights that the model was asked for, those without an answer as well."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return tuple(figure for flight in self.flights for figure in flight.figures)


def discharge_model(
    energy: Energy | None, aircraft: Aircraft, battery: Battery, packs: tuple[PackResult, ...]
) -> Modelled:
    """Discharge every battery in every flight of the energy table.

    A battery whose cell has no table of resistance gets a note and no answer; a power that it cannot give is
    a warning.
    """
    findings = list(_without_resistance(battery, packs))
    models: dict[str, CellModel] = {}
    for result in packs:
        try:
            made = cell_model(battery, result)
        except OutsideRange as error:
            findings.append(_no_model(error, battery, result))
            continue
        if made:
            models[result.option] = made
    cases: list[FlightCase] = []
    flights: list[ModelledFlight] = []
    for flight in energy.flights if energy else ():
        if flight.option in models:
            maker = _Maker(models[flight.option], flight, aircraft)
            flights += maker.flight_modelled()
            cases += maker.case()
            findings += maker.findings
    table, told = _table(cases, aircraft)
    cards, unread = gauges(cases)
    all_told = (*findings, *told, *unread)
    return Modelled(tuple(flights), table, cards, all_told, tuple(models.values()), tuple(cases))


def _table(cases: list[FlightCase], aircraft: Aircraft) -> tuple[tuple[Outlook, ...], tuple[Finding, ...]]:
    """Fly all cases at once, or tell why they cannot be flown."""
    try:
        return outlooks(cases)
    except OutsideRange as error:
        fault = f"no table of cold and age: {error}"
        place = aircraft.place_of_key("profile")
        return (), (Finding("D003", fault, "correct the profile", place, Severity.NOTE),)


def _without_resistance(battery: Battery, packs: tuple[PackResult, ...]) -> Iterator[Finding]:
    for name in sorted({str(battery.options[result.option].cell) for result in packs}):
        cell = battery.cells[name]
        if not cell.resistance:
            yield Finding(
                "D001",
                f"the cell {cell.name} has no table of resistance, so no voltage under load, no effect of "
                "cold or age and no gauge card is computed for it",
                "add resistance: to the cell, from the maker's discharge curve or a measurement",
                cell.place, Severity.NOTE,
            )  # fmt: skip


def _no_model(error: OutsideRange, battery: Battery, result: PackResult) -> Finding:
    option = battery.options[result.option]
    fault = f"the discharge of {option.name} cannot be modelled: {error}"
    return Finding(
        "D003", fault, "correct the tables of the cell", battery.cells[option.cell].place, Severity.WARNING
    )


class _Maker:
    """Makes the figures of one flight, each from the ones before it."""

    def __init__(self, model: CellModel, flight: Flight, aircraft: Aircraft) -> None:
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
        self.before = [taken(one) for one, kept in zip(energies, later, strict=True) if not kept]
        self.kept = [taken(one) for one, kept in zip(energies, later, strict=True) if kept]
        self.phases = tuple(row for row, kept in zip(fixed, later, strict=True) if not kept)

    def flight_modelled(self) -> tuple[ModelledFlight, ...]:
        """Make the figures, or tell why they cannot be made."""
        try:
            modelled = self._run_time()
        except OutsideRange as error:
            fault = f"{self.words}: no endurance by the discharge model, {error}"
            remedy = "rely on measured flights here"
            self.findings.append(Finding("D003", fault, remedy, self.model.option.place, Severity.NOTE))
            return ()
        return (ModelledFlight(self.flight, modelled, self._ends(modelled), tuple(self.figures)),)

    def case(self) -> tuple[FlightCase, ...]:
        """Put the flight as the table and the card need it; none where it has no charge to keep or to begin
        with."""
        cruise = self.flight.rows[self.open_at]
        if cruise.power <= 0 or "energy_between_limits" not in self.model.result.figures:
            return ()
        kept = sum(one.value for one in self.kept)
        return (FlightCase(self.model, self.flight, self.words, self.phases, cruise, kept),)

    def _make(
        self, formula: Formula, short: str, label: str, kind: str, inputs: _Given, **more: Any
    ) -> Figure:  # fmt: skip
        figure = evaluate(formula, f"{short}.{self.suffix}", f"{label}, {self.words}", kind, inputs, **more)
        self.figures.append(figure)
        return figure

    def _run_time(self) -> Figure:
        model, option, table = self.model, self.model.option, self.model.table
        counts = {
            "N_s": Input(
                "cells in series", "number", float(option.series), option.place_of_key("series") or ""
            ),
            "N_p": Input(
                "strings in parallel", "number", float(option.parallel), option.place_of_key("parallel") or ""
            ),
        }
        first, last = self._charges()
        cruise = self.flight.cruise
        power = self._make(
            pack_share.cell_power,
            "cell_power",
            "Power of one cell in level flight",
            "power",
            {"P": cruise, **counts},
            style="cell_power",
        )
        inner = self._cell_capacity()
        nominal = self._make(
            pack.nameplate_energy,
            "cell_nameplate_energy",
            "Nameplate energy of a cell",
            "energy",
            {"U_nom": given(model.cell.nominal_voltage, "nominal voltage, cell"), "Q": inner},
            style="cell_energy",
        )
        wiring = Input("no resistance of wiring is stated", "resistance", 0.0, option.place or "")
        if option.wiring_resistance:
            share = self._make(
                pack_share.wiring_at_cell,
                "wiring_at_cell",
                "Share of the wiring at a cell",
                "resistance",
                {"R_w": given(option.wiring_resistance, "wiring"), **counts},
            )
            wiring = taken(share)
        return self._make(
            run_time.time_at_power, "endurance_modelled",
            "Cruise endurance by the discharge model, reserve kept", "time",
            {"P_cell": taken(power), "z_1": taken(first), "z_2": taken(last), "Q_cell": inner, "R_x": wiring,
             "E_nom": taken(nominal), **conditions(model), **table}, note=NOTE,
        )  # fmt: skip

    def _cell_capacity(self) -> Input:
        own = self.model.result.figures.get("cell_capacity")
        return taken(own) if own else given(self.model.cell.nominal_capacity, "nominal capacity of the cell")

    def _charges(self) -> tuple[Figure, Figure]:
        """State of charge at which the cruise begins, and the one that it leaves."""
        model, figures = self.model, self.model.result.figures
        shared: dict[str, Input | list[Input]] = {
            "eta_b": given(self.aircraft.propulsion.efficiency.battery, "efficiency of the battery"),
            "N": taken(figures["cells"]),
            "Q_cell": self._cell_capacity(),
            "z_i": model.table["z_i"],
            "U_i": model.table["U_i"],
        }
        first = self._make(
            charge_left.charge_after,
            "charge_at_cruise",
            "State of charge where level flight begins",
            "ratio",
            {"U_1": given(model.option.full_cell_voltage, "full, cell"), "E_i": self.before, **shared},
        )
        last = self._make(
            charge_left.charge_kept,
            "charge_kept",
            "State of charge that level flight leaves",
            "ratio",
            {
                "U_2": given(model.option.empty_cell_voltage, "flying stops, cell"),
                "r": given(model.option.reserve, "reserve"),
                "E": taken(figures["energy_between_limits"]),
                "E_i": self.kept,
                **shared,
            },
        )
        return first, last

    def _ends(self, endurance: Figure) -> str:
        """Say which limit came first: without the voltage limit the run would be as long, or longer."""
        inputs = {
            key: one.value if isinstance(one, Input) else [item.value for item in one]
            for key, one in endurance.working.inputs.items()
        }
        lowest = max(self.model.circuit.rest.y[-1] / 2 * 1.0001, 0.01)
        freely = run_time.time_at_power(**{**inputs, "U_min": lowest})
        return (
            "voltage under load" if freely > endurance.value * (1 + 1e-9) else "reserve and later phases kept"
        )
