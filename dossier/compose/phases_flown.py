"""The phases of a flight by the discharge model: current, rate, voltage, heat and the limit that binds;
cooling."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.limit_text import one_line
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.figures import Figure
from dossier.results.heat import AIR_WARMING, DOUBT, HOTTEST, SEA_LEVEL, SPECIFIC_HEAT, CoolingRow, Heat
from dossier.results.phases_flown import FlownRow, PhasesFlown
from dossier.results.profile import Flight

HEADS = (
    "Phase | # Lasts | # Charge left | # Lowest voltage | # Largest current | # Rate, 1/h | # Mean heat "
    "| + What ends it"
)
COOLING = (
    "Phase | # Heat, mean | # Lasts | # Rise if it stays | # Air, mass | # Air at sea level "
    "| # Cells at its end"
)

HOUR = 3600.0
"""Joules of a watt-hour."""


@dataclass(frozen=True)
class HeatPart:
    """Heat and cooling of one battery. All ready strings."""

    name: str
    facts: tuple[tuple[str, str], ...]
    table: Grid


def flown_table(at: Printer, flight: Flight) -> tuple[Grid | None, str]:
    """Make the table of one flight, and say why it is not there or ends early."""
    one = next((each for each in at.dossier.modelled.phases if each.case.flight is flight), None)
    if one is None:
        return None, ""
    why = f"By the discharge model: {one.why}" if one.why else ""
    if not one.rows:
        return None, why
    title = f"Phases by the discharge model, battery at 25\u00a0°C{_grown(one)}"
    return grid(title, HEADS, [_flown(at, line) for line in one.rows]), why


def _grown(one: PhasesFlown) -> str:
    growth = one.case.model.growth.high
    return "" if growth == 1 else f", resistance {growth:.2f} times that when new"


def _lasts(at: Printer, time: float) -> str:
    return at.value(time, "time") if time >= 600 else at.value(time, "seconds")


def _flown(at: Printer, one: FlownRow) -> Row:
    return row(
        Cell(one.name, note=f"{one.kind}, kept back" if one.kept else ""),
        _lasts(at, one.time),
        f"{100 * one.charge:.0f}\u00a0%",
        f"{one.voltage:.1f}\u00a0V",
        at.value(one.current, "current"),
        f"{one.rate:.2f}",
        Cell(f"{one.heat_rate:.0f}\u00a0W", note=f"{one.heat / HOUR:.1f}\u00a0Wh"),
        Cell(sentence(one.ends) if one.ends else "its time"),
    )


def heat_parts(at: Printer) -> tuple[HeatPart, ...]:
    """Make the section of heat and cooling: each battery with the heaviest pilot that was flown whole."""
    return tuple(_part(at, heat) for heat in at.dossier.modelled.heats)


def assumptions() -> tuple[str, ...]:
    """Name what the estimate rests on."""
    low, high = SPECIFIC_HEAT
    heat = (
        "Heat is what cells and wiring lose under load by the discharge model, at 25\u00a0°C; it may be off "
        f"by {100 * DOUBT:.0f}\u00a0% either way (own judgement, no source), and the heat of the reaction "
        "itself is not in it."
    )
    cells = (
        f"Cells take {low:.0f} to {high:.0f}\u00a0J/(kg\u00a0K), as literature has it; the case takes "
        "nothing, and all cells share the heat equally. A cell in the middle is hotter."
    )
    air = (
        f"The air is allowed to warm by {AIR_WARMING:.0f}\u00a0K (own choice, no source), takes all the heat "
        f"as it arises, and has {SEA_LEVEL}\u00a0kg/m³; how it finds the cells is not known here. In a phase "
        "of seconds the cells take most of it up."
    )
    carried = (
        "Cells at its end: the heat of this phase and of all before it, nothing cooling, from 25\u00a0°C; "
        "the lower number for cells that take much heat and the smaller heat, the higher for the reverse. "
        "The resistance falls as they warm, so less heat is made than at 25\u00a0°C; its law holds up to "
        "60\u00a0°C. The times of the phases stay those at 25\u00a0°C."
    )
    return heat, cells, air, carried


def _part(at: Printer, heat: Heat) -> HeatPart:
    rows = [_cooling(at, one) for one in heat.rows]
    return HeatPart(
        sentence(heat.words).rstrip("."),
        tuple(_facts(at, heat)),
        grid("Heat and cooling by phase, an estimate", COOLING, rows),
    )


def _cooling(at: Printer, one: CoolingRow) -> Row:
    return row(
        one.name,
        f"{one.heat_rate:.0f}\u00a0W",
        _lasts(at, one.time),
        f"{one.rise:.1f}\u00a0K",
        f"{one.air:.3f}\u00a0kg/s",
        f"{1000 * one.air_volume:.1f}\u00a0L/s",
        _ends_at(at, one),
    )


def _ends_at(at: Printer, one: CoolingRow) -> str:
    if one.ends_at is None:
        return "no answer"
    most = f"above {at.first(HOTTEST, 'temperature')}"
    low, high = (most if end is None else at.first(end, "temperature") for end in one.ends_at)
    return low if low == high else f"{low.split()[0]} to {high}"


def _facts(at: Printer, heat: Heat) -> Iterator[tuple[str, str]]:
    yield "Heat in the whole profile", _words(at, heat.lost)
    yield "Rise if nothing cools the cells and they stay as resistive as at 25\u00a0°C", _words(at, heat.rise)
    start, end = at.first(heat.start, "temperature"), _ends_at(at, heat.rows[-1])
    yield "The cells at its end, less resistive as they warm", f"{end}, from {start} at its start"
    if heat.limit:
        yield (
            one_line(heat.limit.name),
            f"{heat.limit.value.text}. An estimate gives no verdict: watch the thermometer",
        )
    yield (
        f"Air for the heat of {heat.hottest_phase.name}, warmed by {AIR_WARMING:.0f}\u00a0K",
        (f"{_words(at, heat.air)}, at sea level {_words(at, heat.air_volume)}"),
    )


def _words(at: Printer, figure: Figure) -> str:
    shown = at.figure(figure)
    return f"{shown.first} {shown.uncertainty}".rstrip()
