"""``battery.yaml``: cells, the packs that the type may fly with, the bay that takes them, the charger."""

from __future__ import annotations

from math import sqrt
from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import (
    Charge,
    Count,
    Current,
    Duration,
    Key,
    Length,
    Mass,
    Name,
    OneOf,
    Power,
    Ratio,
    Resistance,
    Temperature,
    Text,
    Voltage,
)
from dossier.model.wiring import Wiring


class OpenCircuitPoint(Part):
    """Rest voltage of the cell at a state of charge."""

    state_of_charge: Ratio
    voltage: Voltage


class ResistancePoint(Part):
    """Quasi-steady resistance of a new cell at 25 °C, at a state of charge."""

    state_of_charge: Ratio
    resistance: Resistance
    """Rest voltage less voltage under a lasting current, over it: not the one for alternating current."""


class Cell(Part):
    """A cell, as its maker or the builder's own measurement describes it."""

    name: Text
    chemistry: Annotated[str, OneOf("lithium-nmc", "lithium-nca", "lithium-iron-phosphate")]
    shape: Annotated[str, OneOf("cylindrical", "pouch", "prismatic")]
    mass: Mass
    diameter: Length | None = None
    length: Length
    width: Length | None = None
    thickness: Length | None = None
    nominal_capacity: Charge
    nominal_voltage: Voltage
    full_voltage: Voltage
    empty_voltage: Voltage
    maximum_discharge_current: Current
    maximum_charge_current: Current
    open_circuit_voltage: list[OpenCircuitPoint] | None = None
    """At rest, from empty to full, as measured or from the maker."""
    generic_open_circuit_voltage: Annotated[str, OneOf("lfp", "nca", "nmc532", "nmc811")] | None = None
    """A table of the tool instead, for as long as nothing is measured. Other cells of one chemistry differ
    from it by 0.1 to 0.2 V, and every page says that it is not that of this cell."""
    resistance: list[ResistancePoint] | None = None
    """At 25 °C, from empty to full; left out, no voltage under load is computed for this cell."""
    resistance_temperature_constant: Temperature | None = None
    """How the resistance rises in the cold, such as ``3000 K``; left out, the usual one."""
    application: Annotated[str, OneOf("energy", "power")] | None = None
    """What the cell is made for; it says to which rate one resistance stands for it. Left out: energy."""
    ageing_model: Annotated[str, OneOf("schmalstieg-2014")] | None = None
    """The published model that its years are estimated with; left out, none. Only for NMC cells."""
    source: Text
    """The maker's sheet, or the measurement."""

    @property
    def room(self) -> float | None:
        """The volume in m³ that one takes where they stand as close as they can; None without its measures.

        Cylinders side by side: no packing of equal circles is denser than the hexagonal one, which fills
        pi / sqrt(12) = 0.907 of the plane (Thue's theorem; from memory). So each takes sqrt(3) / 2 of its
        diameter squared.
        """
        if self.diameter is not None:
            return sqrt(3) / 2 * self.diameter.value**2 * self.length.value
        if self.width is None or self.thickness is None:
            return None
        return self.length.value * self.width.value * self.thickness.value


class Size(Part):
    """Outer dimensions along, across and up."""

    length: Length
    width: Length
    height: Length

    @property
    def volume(self) -> float:
        """In m³."""
        return self.length.value * self.width.value * self.height.value


class Option(Part):
    """A battery that the type may fly with."""

    name: Text
    cell: Name
    series: Count
    """Groups in series."""
    parallel: Count
    """Cells side by side in a group."""
    mass: Mass
    """Of the whole battery with case, wiring and electronics."""
    arm: Length
    size: Size
    reserve: Ratio
    """The part of the usable energy that is kept for the landing."""
    full_cell_voltage: Voltage
    """Where charging stops, at rest."""
    empty_cell_voltage: Voltage
    """Where flying stops, at rest."""
    wiring_resistance: Resistance | None = None
    """Of leads, contactors and plugs of the whole battery, in series with it; left out, none is counted."""


class Bay(Part):
    """The place in the airframe that takes the battery."""

    size: Size
    clearance: Length
    """The gap that must stay free on every side."""


class Charger(Part):
    """The charger supplied or named."""

    name: Text
    power: Power
    efficiency: Ratio
    taper: Duration
    """The time at the end in which the current falls."""


class Acceptance(Part):
    """What the logged test of a battery must show. Each names a limit of aircraft.yaml; what is left out is
    not asked for."""

    least_capacity_limit: Name | None = None
    """A part of the nominal capacity."""
    least_energy_limit: Name | None = None
    """Energy of the test, as a part of the nameplate energy of the new battery."""
    largest_cell_spread_limit: Name | None = None
    """Difference of voltage between the cells at rest, before the test or else after it."""
    coldest_limit: Name | None = None
    """The lowest temperature in the log."""
    hottest_limit: Name | None = None
    """The highest temperature in the log."""
    largest_resistance_growth_limit: Name | None = None
    """Resistance of the first step over that of the new cell by its table, such as ``1.5``."""


class Battery(Part):
    """The battery file."""

    cells: dict[Key, Cell]
    options: dict[Key, Option]
    bay: Bay
    charger: Charger
    acceptance: Acceptance | None = None
    """Left out: no test accepts or rejects a battery."""
    wiring: Wiring | None = None
    """Left out: conductors, fuses and plugs are not looked at."""

    @property
    def names(self) -> dict[str, str]:
        """What each option is called, by its key."""
        return {str(key): str(option.name) for key, option in self.options.items()}

    @property
    def heaviest(self) -> str:
        """The key of the heaviest option: lists are written for it while no battery is fitted."""
        return max(map(str, self.options), key=lambda name: self.options[name].mass.value)
