"""The type's own numbers, by the quantities that claims are about."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from dossier.figures import Figure
from dossier.judge.claim_numbers import Number, made, written
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery, Cell, Option

MEASURED = {"stall_speed": "stall_speed", "maximum_level_speed": "level_speed"}
"""Figure of a flight test -> quantity."""
LIMITS = {
    "manoeuvring_speed": "manoeuvring_speed",
    "positive_load_factor": "load_factor",
    "best_glide_speed": "best_glide_speed",
    "best_climb_speed": "climb_speed",
}
"""Limit by its name -> quantity."""
OF_A_BATTERY = {
    "nameplate_energy": "energy",
    "usable_energy": "usable_energy",
    "energy_between_limits": "charge_energy",
    "pack_mass": "pack_mass",
    "volume": "pack_volume",
    "capacity": "capacity",
    "empty_voltage": "loaded_voltage",
    "level_power": "level_power",
    "polar_climb_rate": "climb_rate",
    "endurance": "endurance",
}
"""Figure before its dot -> quantity; each of them is computed."""


def own_numbers(aircraft: Aircraft, battery: Battery, figures: Mapping[str, Figure]) -> Mapping[str, Number]:
    """Collect them; what is not computed for this serial is left out.

    Args:
        aircraft: the type.
        battery: its batteries.
        figures: all figures of the serial by name.
    """
    return dict([*_of_the_type(aircraft), *_of_figures(figures), *_of_batteries(battery, figures)])


def _of_the_type(aircraft: Aircraft) -> Iterator[tuple[str, Number]]:
    glide, propulsion = aircraft.glide, aircraft.propulsion
    yield "wing_span", written("Wing span", aircraft.geometry.wing_span)
    yield "wing_area", written("Wing area", aircraft.geometry.wing_area)
    yield "least_sink", written("Least sink of the type's file", glide.minimum_sink, "vertical_speed")
    yield "glide_mass", written("Mass of that glide", glide.at_mass)
    if glide.best_glide_ratio is not None:
        yield (
            "best_glide_ratio",
            written("Best glide ratio of the type's file", glide.best_glide_ratio, "glide_ratio"),
        )
    yield "maximum_power", written("Electrical power at full throttle", propulsion.maximum_power)
    shaft = propulsion.efficiency.controller.value * propulsion.efficiency.motor.value
    yield "shaft_efficiency", Number("Efficiency of controller and motor", shaft, "ratio", "computed")
    for name, quantity in LIMITS.items():
        if name in aircraft.limits:
            limit = aircraft.limits[name]
            basis = f", {limit.basis}" if limit.basis else ""
            style = "rate" if quantity == "load_factor" else ""
            yield quantity, written(f"{limit.name}{basis}", limit.value, style)
    if aircraft.use is not None:
        yield "hours_per_year", written("Hours in the air in a year", aircraft.use.hours_per_year)


def _of_figures(figures: Mapping[str, Figure]) -> Iterator[tuple[str, Number]]:
    for name, quantity in MEASURED.items():
        if name in figures:
            yield quantity, made(figures[name], "measured")
    if "stall_speed" in figures:
        yield "measured_stall", made(figures["stall_speed"], "measured")
    if "maximum_take_off_mass" in figures:
        yield "take_off_mass", made(figures["maximum_take_off_mass"], "type")
    for name, quantity in (
        ("drive_efficiency", "drive"),
        ("zero_lift_drag.polar", "zero_lift"),
        ("induced_drag.polar", "induced"),
    ):
        if name in figures:
            yield quantity, made(figures[name])


def _of_batteries(battery: Battery, figures: Mapping[str, Figure]) -> Iterator[tuple[str, Number]]:
    for key, option in battery.options.items():
        cell = battery.cells[option.cell]
        for short, quantity in OF_A_BATTERY.items():
            if f"{short}.{key}" in figures:
                yield f"{quantity}.{key}", made(figures[f"{short}.{key}"])
        yield f"reserve.{key}", written("Reserve that is kept", option.reserve)
        yield (
            f"series.{key}",
            Number(
                "Cells in series", float(option.series), "count", "type", place=option.place_of_key("series")
            ),
        )
        yield from _of_cells(key, option, cell)
        energy = cell.nominal_capacity.value * cell.nominal_voltage.value / cell.mass.value
        yield (
            f"cell_specific_energy.{key}",
            Number(
                f"Energy for mass of the cell {cell.name}",
                energy,
                "specific_energy",
                "type",
                place=cell.place,
            ),
        )
        rate = cell.maximum_discharge_current.value / cell.nominal_capacity.value * 3600.0
        yield (
            f"allowed_rate.{key}",
            Number(f"Rate that the cell {cell.name} allows, 1/h", rate, "rate", "type", place=cell.place),
        )
        yield f"charger_power.{key}", written("Power of the charger from the outlet", battery.charger.power)


def _of_cells(key: str, option: Option, cell: Cell) -> Iterator[tuple[str, Number]]:
    count, place = option.series * option.parallel, option.place_of_key("parallel")
    mass = count * cell.mass.value
    yield f"cells_mass.{key}", Number(f"Mass of the {count} cells alone", mass, "mass", "type", place=place)
    if cell.room is not None:
        label = f"Room of the {count} cells, as close as they can stand"
        yield f"cells_room.{key}", Number(label, count * cell.room, "pack_volume", "type", place=place)
