"""Flights by the discharge model on the page of energy: beside the energy, and cold, warm, new and old."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from string import ascii_lowercase

from dossier.compose.grid import Cell, Grid, Head, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.compose.worked_rows import with_rows
from dossier.results.discharge_table import COLD, WARM, Lasting, Outlook
from dossier.results.modelled_endurance import ModelledFlight

MODEL_NOTE = (
    "By energy: what the battery stores, times one efficiency, which does not know of cold, rate or a grown "
    "resistance. By the discharge model: the voltage under "
    "load, from the table of resistance of the cell, at 25 °C. Where the battery has lost capacity and "
    "nobody measured its resistance, a published range of growth is in the ±. The model is shown against "
    "simulated cells only: a measured flight counts for more than either. A power above the rate that lasts "
    "is held against its time phase by phase; two such phases in a row were not simulated."
)


def modelled_cell(at: Printer, one: ModelledFlight | None) -> Cell:
    """Print the endurance by the discharge model with what ends it, or that there is none."""
    if one is None:
        return Cell("no answer")
    shown = at.figure(one.modelled)
    return Cell(f"{shown.first} {shown.uncertainty}", shown.sheet, note=f"ends by: {one.ends}")


@dataclass(frozen=True)
class OutlookPart:
    """The table of one battery, and what its letters stand for. All ready strings."""

    table: Grid | None
    """None where no flight of the battery has an answer."""
    reasons: tuple[tuple[str, str], ...]
    nothing: str = ""
    """Then: of which battery, for which pilots, temperatures and ages."""


def outlooks(at: Printer) -> tuple[OutlookPart, ...]:
    """Make a table for each battery."""
    found = at.dossier.modelled.outlooks
    return tuple(_part(at, option, found) for option in dict.fromkeys(one.flight.option for one in found))


def _part(at: Printer, option: str, found: tuple[Outlook, ...]) -> OutlookPart:
    name = at.dossier.project.battery.options[option].name
    own = [one for one in found if one.flight.option == option]
    words = list(dict.fromkeys(lasts.words for one in own for lasts in one.lasts))
    letters = {reason: ascii_lowercase[number] for number, reason in enumerate(words)}
    heads = (Head("Pilot and battery"), *(_head(at, T) for T in (*WARM, *COLD)))
    reasons = tuple((letter, sentence(reason)) for reason, letter in letters.items())
    if all(lasts.shortest is None for one in own for lasts in one.lasts):
        coldest, warmest = (at.value(T, "temperature") for T in (min(*WARM, *COLD), max(*WARM, *COLD)))
        nothing = f"{name}: no answer for any pilot and age, from {coldest} to {warmest}."
        return OutlookPart(None, reasons, nothing)
    rows = [_row(at, one, letters) for one in own]
    made = grid(f"{name}: level flight by temperature and age", heads, rows)
    return OutlookPart(with_rows(at, made, "outlook", option), reasons)


def _limit(at: Printer, name: str) -> float | None:
    """Return a limit that the stated use names, in SI."""
    aircraft = at.dossier.project.aircraft
    named = getattr(aircraft.use, name) if aircraft.use else None
    return None if named is None else aircraft.limits[named].value.value


def _head(at: Printer, temperature: float) -> Head:
    coldest = _limit(at, "coldest_take_off_limit")
    words = " below the limit for take-off" if coldest is not None and temperature < coldest else ""
    return Head(at.value(temperature, "temperature") + words, number=True)


def _row(at: Printer, one: Outlook, letters: Mapping[str, str]) -> Row:
    retired = _limit(at, "retirement_limit")
    below = retired is not None and one.age.health is not None and one.age.health < retired
    note = f"{one.age.words}{'; below the capacity at which it is retired' if below else ''}"
    who = Cell(f"Pilot {at.first(one.flight.pilot, 'mass')}", note=note)
    return row(who, *(Cell(f"{_lasting(lasts)} ({letters[lasts.words]})") for lasts in one.lasts))


def _lasting(one: Lasting) -> str:
    """Print whole minutes, rounded down as on the gauge card."""
    if one.shortest is None:
        return "no answer"
    shortest, longest = (int(time // 60) for time in (one.shortest, one.longest or one.shortest))
    return f"{longest}\u00a0min" if shortest >= longest else f"{shortest} to {longest}\u00a0min"
