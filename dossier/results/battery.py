"""Each battery that the type may fly with: from cell to pack, its energy, its rates, its room."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field

from dossier.compute import open_circuit, pack, pack_state, performance
from dossier.figures import Figure, Input, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery, Cell, Option
from dossier.model.events import PackFitted
from dossier.replay import State
from dossier.results import pack_age
from dossier.results.attempt import attempt
from dossier.results.rest_voltage import generic_findings, rest_points

AXES = ("length", "width", "height")


@dataclass(frozen=True)
class PackResult:
    """The figures of one battery by their short names, such as ``usable_energy``."""

    option: str
    fitted: PackFitted | None
    figures: Mapping[str, Figure] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()


def packs(battery: Battery, aircraft: Aircraft, state: State) -> tuple[PackResult, ...]:
    """Compute every battery; the one that is fitted with its own measured mass and capacity."""
    aboard = {str(one.option): one for one in state.packs}
    return tuple(
        _Maker(str(name), battery, aircraft, aboard.get(name), state).result() for name in battery.options
    )


class _NotMadeError(Exception):
    """A figure that others are made from lies outside the range of its formula."""


class _Maker:
    """Makes the figures of one battery, each from the ones before it."""

    def __init__(
        self, name: str, battery: Battery, aircraft: Aircraft, fitted: PackFitted | None, state: State
    ) -> None:
        self.name = name
        self.battery = battery
        self.aircraft = aircraft
        self.option: Option = battery.options[name]
        self.cell: Cell = battery.cells[self.option.cell]
        self.fitted = fitted
        self.state = state
        self.test = state.capacity_tests.get(str(fitted.pack)) if fitted else None
        self.figures: dict[str, Figure] = {}
        self.findings: list[Finding] = []
        self.series = self._count("cells in series", self.option.series, "series")
        self.parallel = self._count("strings in parallel", self.option.parallel, "parallel")

    def result(self) -> PackResult:
        for make in (self._voltages, self._capacity, self._energy, self._rates, self._body, self._charging):
            with suppress(
                _NotMadeError
            ):  # what is missing has its finding, and the rest of this step needs it
                make()
        self.findings += pack_age.unmeasured(self.figures, self.option, self.fitted)
        return PackResult(self.name, self.fitted, dict(self.figures), tuple(self.findings))

    def _count(self, label: str, value: int, key: str) -> Input:
        return Input(
            label, "number", float(value), self.option.place_of_key(key) or "not in a file", str(value)
        )

    def _make(
        self, formula: object, short: str, label: str, kind: str, inputs: dict[str, object], **more: object
    ) -> None:
        made = attempt(
            lambda: evaluate(
                formula, f"{short}.{self.name}", f"{label}, {self.option.name}", kind, inputs, **more
            ),  # type: ignore[arg-type]
            f"{label.lower()} of {self.option.name}",
            self.option.place,
        )
        if made.figure:
            self.figures[short] = made.figure
        self.findings += made.findings

    def _take(self, short: str) -> Input:
        if short not in self.figures:
            raise _NotMadeError(short)
        return taken(self.figures[short])

    def _voltages(self) -> None:
        for short, label, cell in (
            ("nominal_voltage", "Nominal voltage", self.cell.nominal_voltage),
            ("full_voltage", "Voltage at rest, full", self.option.full_cell_voltage),
            ("empty_voltage", "Voltage at rest at which flying stops", self.option.empty_cell_voltage),
        ):
            self._make(
                pack.pack_voltage,
                short,
                label,
                "voltage",
                {"N_s": self.series, "U_cell": given(cell, f"{label.lower()}, cell")},
            )

    def _capacity(self) -> None:
        nominal = given(self.cell.nominal_capacity, "nominal capacity of the cell")
        tested = self.test.capacity if self.test else self.fitted.measured_capacity if self.fitted else None
        if self.fitted and tested:
            measured = given(tested, f"measured capacity of battery {self.fitted.pack}")
            self._make(
                pack_state.cell_capacity,
                "cell_capacity",
                "Capacity of a cell, from the test of the pack",
                "charge",
                {"Q": measured, "N_p": self.parallel},
            )
        elif self.fitted and self.fitted.health:
            self._make(
                pack_state.aged_capacity,
                "cell_capacity",
                "Capacity of a cell, aged",
                "charge",
                {"Q_nom": nominal, "H": given(self.fitted.health, f"health of battery {self.fitted.pack}")},
            )
        cell = self._take("cell_capacity") if "cell_capacity" in self.figures else nominal
        self._make(
            pack.pack_capacity, "capacity", "Capacity", "charge", {"N_p": self.parallel, "Q_cell": cell}
        )
        self.cell_capacity = cell
        if self.fitted and "cell_capacity" in self.figures:
            self._growth(self.fitted, nominal)

    def _growth(self, fitted: PackFitted, nominal: Input) -> None:
        """Resistance over that when new: as the test of the capacity states it, else from the published range."""
        label = "Resistance of a cell over that when new"
        stated = (self.test or fitted).resistance_growth
        if stated:
            measured = {"y": given(stated, f"growth of resistance of battery {fitted.pack}")}
            self._make(performance.as_stated, "resistance_growth", label, "number", {**measured})
        elif self.cell_capacity.value < nominal.value:
            self._make(
                pack_state.resistance_growth,
                "resistance_growth",
                label,
                "number",
                {
                    "Q_cell": self.cell_capacity,
                    "Q_nom": nominal,
                    "k_G": pack_age.growth_per_loss(),
                    "G_1": pack_age.last_growth(fitted, self.state),
                },
                note=pack_age.RANGE,
            )

    def _energy(self) -> None:
        points = rest_points(self.cell)
        table: dict[str, object] = {
            "z_i": [point.charge for point in points],
            "U_i": [point.voltage for point in points],
        }
        self.findings += generic_findings(self.cell)
        self._make(
            pack.nameplate_energy,
            "nameplate_energy",
            "Nameplate energy",
            "energy",
            {"U_nom": self._take("nominal_voltage"), "Q": self._take("capacity")},
        )
        self._make(
            open_circuit.cell_energy_between_voltages,
            "cell_energy",
            "Energy of a cell between the limits of voltage, at rest",
            "energy",
            {
                "Q_cell": self.cell_capacity,
                "U_1": given(self.option.full_cell_voltage, "full, cell"),
                "U_2": given(self.option.empty_cell_voltage, "flying stops, cell"),
                **table,
            },
            style="cell_energy",
        )
        self._make(
            pack.cell_count,
            "cells",
            "Number of cells",
            "number",
            {"N_s": self.series, "N_p": self.parallel},
            style="count",
        )
        if "cell_energy" not in self.figures:
            return
        self._make(
            pack.pack_energy,
            "energy_between_limits",
            "Energy between the limits of voltage, at rest",
            "energy",
            {"N": self._take("cells"), "E_cell": self._take("cell_energy")},
        )
        self._make(
            pack_state.delivered_energy,
            "deliverable_energy",
            "Energy at the terminals",
            "energy",
            {
                "E": self._take("energy_between_limits"),
                "eta_b": given(self.aircraft.propulsion.efficiency.battery, "efficiency of the battery"),
            },
        )
        self._make(
            pack.usable_energy,
            "usable_energy",
            "Usable energy, reserve kept",
            "energy",
            {"E": self._take("deliverable_energy"), "r": given(self.option.reserve, "reserve")},
        )

    def _rates(self) -> None:
        power = given(self.aircraft.propulsion.maximum_power, "power at full throttle")
        note = "At the rest voltage at which flying stops; the sag under load is not in it and makes the current larger."
        self._make(
            pack.current,
            "maximum_current",
            "Current at full throttle",
            "current",
            {"P": power, "U": self._take("empty_voltage")},
            note=note,
        )
        self._make(
            pack.discharge_rate,
            "maximum_rate",
            "Discharge rate at full throttle",
            "number",
            {"P": power, "U": self._take("empty_voltage"), "Q": self._take("capacity")},
            style="rate",
            note=note,
        )
        allowed = self.cell.maximum_discharge_current.value * self.option.parallel
        drawn = self.figures["maximum_current"].value
        if drawn > allowed:
            self.findings.append(
                Finding(
                    "C002",
                    f"full throttle draws {drawn:.0f} A from {self.option.name}, and its cells allow {allowed:.0f} A",
                    "lower the power, or put more cells in parallel",
                    self.option.place,
                    Severity.WARNING,
                )
            )

    def _body(self) -> None:
        mass = (
            given(self.fitted.mass, f"battery {self.fitted.pack}, mass")
            if self.fitted
            else given(self.option.mass, f"{self.option.name}, mass")
        )
        self._make(performance.as_stated, "pack_mass", "Mass of the battery", "mass", {"y": mass})
        self._make(
            pack_state.box_volume,
            "volume",
            "Volume",
            "volume",
            {
                symbol: given(getattr(self.option.size, axis), axis)
                for symbol, axis in zip(("l_x", "l_y", "l_z"), AXES, strict=True)
            },
            style="pack_volume",
        )
        self._make(
            pack.specific_energy,
            "specific_energy",
            "Nameplate energy for mass",
            "specific_energy",
            {"E": self._take("nameplate_energy"), "m": self._take("pack_mass")},
        )
        self._make(
            pack.energy_density,
            "energy_density",
            "Nameplate energy for volume",
            "energy_density",
            {"E": self._take("nameplate_energy"), "V": self._take("volume")},
        )
        bay = self.battery.bay
        for axis in AXES:
            short = f"bay_clearance_{axis}"
            self._make(
                pack.box_clearance,
                short,
                f"Room left in the bay, {axis}",
                "length",
                {
                    "l_bay": given(getattr(bay.size, axis), f"bay, {axis}"),
                    "l_pack": given(getattr(self.option.size, axis), f"battery, {axis}"),
                    "l_gap": given(bay.clearance, "gap to keep"),
                },
                style="arm",
            )
            if self.figures[short].value < 0:
                self.findings.append(
                    Finding(
                        "C003",
                        f"{self.option.name} is {-self.figures[short].value * 1000:.0f} mm too large for the bay in {axis}",
                        "change the bay or the battery",
                        self.option.size.place_of_key(axis),
                        Severity.WARNING,
                    )
                )

    def _charging(self) -> None:
        charger = self.battery.charger
        if "energy_between_limits" in self.figures:
            self._make(
                pack.charging_time,
                "charging_time",
                "Time to charge from the lower limit to full",
                "time",
                {
                    "E": self._take("energy_between_limits"),
                    "P": given(charger.power, "power of the charger"),
                    "eta": given(charger.efficiency, "efficiency of charging"),
                    "t_taper": given(charger.taper, "taper at the end"),
                },
            )
