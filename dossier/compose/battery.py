"""The batteries that the type may fly with: cells, energy, rates, room, charging."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.battery_acceptance import acceptance
from dossier.compose.battery_rates import rates
from dossier.compose.battery_years import use_facts, years
from dossier.compose.capacity_tests import tests
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, Mark, columns, grid, numbers, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printed, Printer
from dossier.compose.verdict_words import yes_no
from dossier.dossier import Dossier
from dossier.model.battery import Cell as BatteryCell
from dossier.model.events import PackFitted
from dossier.results.battery import PackResult
from dossier.results.pack_body import AXES
from dossier.results.rest_voltage import generic_words

HEADLINES = (
    "nameplate_energy",
    "usable_energy",
    "nominal_voltage",
    "specific_energy",
    "maximum_current",
    "charging_time",
)


@dataclass(frozen=True)
class Battery:
    """One battery. All ready strings."""

    anchor: str
    name: str
    facts: tuple[tuple[str, str], ...]
    cards: tuple[Printed, ...]
    figures: tuple[Printed, ...]
    room: Grid
    notes: tuple[str, ...]


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at = Printer(dossier, links.BATTERY)
    text = render(
        "battery.md.jinja",
        top=notices(at),
        batteries=[_battery(at, pack) for pack in dossier.packs],
        comparison=_comparison(at),
        cells=_cells(at),
        charger=_charger(at),
        wiring=at.to(links.WIRING) if dossier.project.battery.wiring else "",
        acceptance=acceptance(at),
        tests=tests(at),
        years=years(at),
        use=use_facts(at),
        rates=rates(at),
    )
    return (Page(links.BATTERY, "Battery", "Weight and energy", text),)


def _battery(at: Printer, pack: PackResult) -> Battery:
    shown = [figure for short, figure in pack.figures.items() if not short.startswith("bay_clearance_")]
    name = str(at.dossier.project.battery.options[pack.option].name)
    cards = tuple(
        at.card(pack.figures[short], _short(pack.figures[short].label, name))
        for short in HEADLINES
        if short in pack.figures
    )
    notes = sorted({figure.working.note for figure in shown if figure.working.note})
    return Battery(
        links.anchor(pack.option),
        name,
        tuple(_facts(at, pack)),
        cards,
        tuple(at.figure(figure, _short(figure.label, name)) for figure in shown),
        _room(at, pack),
        tuple(notes),
    )


def _short(label: str, option: str) -> str:
    """Leave out the name of the battery under whose heading the figure stands."""
    return label.removesuffix(f", {option}")


def _facts(at: Printer, pack: PackResult) -> Iterator[tuple[str, str]]:
    option = at.dossier.project.battery.options[pack.option]
    yield (
        "In this aircraft",
        f"fitted, serial number {pack.fitted.pack}, since {pack.fitted.date.isoformat()}"
        if pack.fitted
        else "not fitted; figures of the design",
    )
    cell = at.dossier.project.battery.cells[option.cell].name
    yield "Cells", f"{option.series} in series, {option.parallel} in parallel, {cell}"
    yield "Mass", at.quantity(pack.fitted.mass if pack.fitted else option.mass)
    yield "Arm", at.quantity((pack.fitted.arm if pack.fitted else None) or option.arm, "arm")
    yield "Size", " × ".join(at.first(getattr(option.size, axis).value, "arm") for axis in AXES)
    yield "Reserve kept", at.quantity(option.reserve)
    if pack.fitted:
        yield from _measured(at, pack.fitted)


def _measured(at: Printer, fitted: PackFitted) -> Iterator[tuple[str, str]]:
    """What was measured of a battery when it was fitted and since; the figures rest on the latest test."""
    test = at.dossier.state.capacity_tests.get(str(fitted.pack))
    if test:
        measured = f"{at.quantity(test.capacity)}, {test.date.isoformat()}"
        yield "Latest test of its capacity", f"{measured}, {test.conditions}"
    if fitted.measured_capacity:
        yield "Capacity when fitted", at.quantity(fitted.measured_capacity)
    if fitted.health:
        yield "Health when fitted", at.quantity(fitted.health)


def _room(at: Printer, pack: PackResult) -> Grid:
    bay, option = at.dossier.project.battery.bay, at.dossier.project.battery.options[pack.option]
    rows = []
    for axis in AXES:
        figure = pack.figures.get(f"bay_clearance_{axis}")
        if figure:
            left = at.beside(figure.value, 0.0, "arm")
            rows.append(
                row(
                    axis.capitalize(),
                    at.first(getattr(bay.size, axis).value, "arm"),
                    at.first(getattr(option.size, axis).value, "arm"),
                    Cell(left, at.sheet(figure.name)),
                    _fits(figure.value >= 0),
                )
            )
    return grid(
        "Room in the bay, with the gap that must stay free taken off",
        "Axis | # Bay | # Battery | # Left | State",
        rows,
    )


def _fits(good: bool) -> Mark:
    return yes_no(good, "Fits", "Too large")


def _comparison(at: Printer) -> Grid:
    """All batteries side by side, by the figures that differ."""
    options = [str(at.dossier.project.battery.options[pack.option].name) for pack in at.dossier.packs]
    rows = []
    for short in (*HEADLINES, "capacity", "energy_density", "maximum_rate"):
        figures = [pack.figures.get(short) for pack in at.dossier.packs]
        label = next(
            (_short(figure.label, option) for figure, option in zip(figures, options, strict=True) if figure),
            "",
        )
        if label:
            rows.append(
                row(
                    label,
                    *(
                        Cell(str(at.figure(figure)), at.sheet(figure.name)) if figure else "not computed"
                        for figure in figures
                    ),
                )
            )
    return grid("Batteries side by side", (*columns("Figure"), *numbers(options)), rows)


def _cells(at: Printer) -> tuple[Grid, ...]:
    used = sorted({str(option.cell) for option in at.dossier.project.battery.options.values()})
    return tuple(_cell(at.dossier.project.battery.cells[name]) for name in used)


def _cell(cell: BatteryCell) -> Grid:
    lines = [
        ("Chemistry", str(cell.chemistry)),
        ("Shape", str(cell.shape)),
        ("Mass", cell.mass.text),
        ("Nominal capacity", cell.nominal_capacity.text),
        ("Nominal voltage", cell.nominal_voltage.text),
        ("Full", cell.full_voltage.text),
        ("Empty", cell.empty_voltage.text),
        ("Rest voltages", generic_words(cell) or "of this cell, as the record states them"),
        ("Largest discharge current", cell.maximum_discharge_current.text),
        ("Largest charge current", cell.maximum_charge_current.text),
        ("Source", str(cell.source)),
    ]
    return grid(f"Cell: {cell.name}", "Property | Value", [row(name, value) for name, value in lines])


def _charger(at: Printer) -> tuple[tuple[str, str], ...]:
    charger = at.dossier.project.battery.charger
    return (
        ("Charger", str(charger.name)),
        ("Power", at.quantity(charger.power)),
        ("Efficiency", at.quantity(charger.efficiency)),
        ("Time of the taper", at.quantity(charger.taper)),
    )
