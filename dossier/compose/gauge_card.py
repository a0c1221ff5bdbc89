"""The gauge card: what the voltmeter shows at rest and in level flight against what is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.edition import edition_words
from dossier.compose.environment import render
from dossier.compose.gauge_measured import MeasuredPart, measured
from dossier.compose.grid import Grid, grid, row
from dossier.compose.limit_text import one_line
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.worked_rows import with_rows
from dossier.display import MINUS
from dossier.dossier import Dossier
from dossier.results.gauge import Gauge, GaugeLine
from dossier.results.pack_age import NEW
from dossier.results.rest_voltage import generic_words


@dataclass(frozen=True)
class CardLine:
    """One line of the card for the panel. All ready strings."""

    charge: str
    rest: str
    loaded: str
    to_reserve: str
    to_end: str
    name: str


@dataclass(frozen=True)
class GaugePart:
    """The card of one battery, and the errors of the wrong column."""

    anchor: str
    title: str
    conditions: str
    lines: tuple[CardLine, ...]
    errors: Grid
    flat: str
    """Why some rows do not tell the charge, for the page; empty where all do."""
    landing: tuple[str, ...]
    """Where each limit at which to land lies beside the reserve."""
    borrowed: str
    """That the rest voltages are those of no cell of this battery; empty where they are its own."""
    measured: MeasuredPart
    """Beside a measured discharge of the fitted battery."""


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page; without a card there is none."""
    if not dossier.modelled.gauges:
        return ()
    at = Printer(dossier, links.GAUGE)
    type_name = one_line(dossier.project.aircraft.identification.name)
    text = render(
        "gauge-card.md.jinja",
        top=notices(at),
        gauges=[_part(at, one) for one in dossier.modelled.gauges],
        identity=f"{type_name}, serial {dossier.record.serial_number}",
        edition=f"{edition_words(dossier)}, as of {dossier.state.as_of.isoformat()}",
        energy=at.to(f"{links.ENERGY}#cold-and-age"),
    )
    return (Page(links.GAUGE, "Gauge card", "Weight and energy", text),)


def _part(at: Printer, one: Gauge) -> GaugePart:
    name = str(at.dossier.project.battery.options[one.option].name)
    lines = tuple(_line(line) for line in one.lines)
    grown = "" if one.growth is NEW else f" and {one.growth.words} its resistance when new"
    conditions = (
        f"Level flight at {at.value(one.power, 'power')}, pilot {at.first(one.pilot, 'mass')}, battery at "
        f"25 °C with {at.first(one.health, 'ratio')} of its nominal capacity{grown}, "
        f"{_amperes(one)}{_heavier(at, one)}"
    )
    battery = at.dossier.project.battery
    borrowed = generic_words(battery.cells[battery.options[one.option].cell])
    return GaugePart(
        links.anchor(one.option), name, conditions, lines, _errors(at, one), _flat(one),
        tuple(_landing(at, one)), borrowed, measured(at, one),
    )  # fmt: skip


def _landing(at: Printer, one: Gauge) -> Iterator[str]:
    """Say where on the card each limit at which to land is reached, and what it leaves of the reserve."""
    for found in at.dossier.modelled.landing:
        if found.option != one.option:
            continue
        minutes = int(abs(found.early) // 60)
        where = f"{one_line(found.limit.name)}, {found.limit.value.text}: on this card at "
        where += f"{_percent(found.charge)} and {found.voltage:.1f} V in level flight"
        if found.gives_away:
            yield f"{where}, after the reserve began: {-found.early / 60:.1f} min of it are gone by then"
        elif found.comes_early:
            yield f"{where}, {minutes} min before the reserve begins: the limit goes first"
        else:
            yield f"{where}, where the reserve begins"


def _flat(one: Gauge) -> str:
    """Say between which charges the voltmeter does not tell the charge, with the numbers."""
    if not one.flat:
        return ""
    low, high = (_percent(one.flat[end].charge) for end in (-1, 0))
    least = min(line.change for line in one.flat)
    return (
        f"Between {low} and {high} a tenth of the charge changes the rest voltage by as little as "
        f"{least:.2f} V, and {one.least_change:.1f} V would be needed to tell it. There the voltage does not "
        "tell the charge, in flight even less than at rest"
    )


def _amperes(one: Gauge) -> str:
    """Say what an ammeter shows on the way, from the first row to the last."""
    first, last = (one.power / one.lines[end].loaded_voltage for end in (0, -1))
    return f"{first:.0f} to {last:.0f} A"


def _heavier(at: Printer, one: Gauge) -> str:
    """Warn where the model has no answer for heavier pilots that the aircraft may carry."""
    flights = at.dossier.energy.flights if at.dossier.energy else ()
    heaviest = max(flight.pilot for flight in flights if flight.option == one.option)
    return ". Not for a heavier pilot: minutes are fewer" if heaviest > one.pilot else ""


def _line(line: GaugeLine) -> CardLine:
    return CardLine(
        _percent(line.charge), _read(line, line.rest_voltage), _read(line, line.loaded_voltage),
        _minutes(line.time_to_reserve), _minutes(line.time_left), line.name,
    )  # fmt: skip


def _errors(at: Printer, one: Gauge) -> Grid:
    rows = [
        row(
            f"{_percent(line.charge)} {line.name}".strip(),
            _read(line, line.rest_voltage),
            _read(line, line.loaded_voltage),
            f"{line.change:.2f}",
            f"{one.power / line.loaded_voltage:.0f}",
            at.value(line.energy_left, "energy"),
            _minutes(line.time_left),
            _signed(line.if_taken_as_rested),
            _signed(line.if_taken_as_loaded),
        )
        for line in one.lines
    ]
    made = grid(
        "In full, with the error of the wrong column, in minutes",
        "Charge | # At rest, V | # In level flight, V | # V for 10\u00a0% at rest "
        "| # In level flight, A | # Energy left | # Minutes left "
        "| # Loaded reading taken for rest | # Rest reading taken for loaded",
        rows,
    )
    return with_rows(at, made, "gauge", one.option)


def _percent(charge: float) -> str:
    return f"{100 * charge:.0f}\u00a0%"


def _read(line: GaugeLine, voltage: float) -> str:
    """Print a voltage; where it does not tell the charge, as what it is: about so much."""
    return f"{voltage:.1f}" if line.readable else f"≈\u00a0{voltage:.1f}"


def _minutes(time: float) -> str:
    """Whole minutes, never rounded up: the card must not promise."""
    return str(int(time // 60))


def _signed(seconds: float | None) -> str:
    if seconds is None:
        return "off the card"
    minutes = round(seconds / 60)
    return f"+{minutes}" if minutes > 0 else f"{MINUS}{-minutes}" if minutes else "0"
