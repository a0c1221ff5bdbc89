"""Flights by the discharge model on the page of energy: beside the energy, and cold, warm, new and old."""

from __future__ import annotations

from dossier.compose.grid import Cell, Grid, Head, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.results.discharge import ModelledFlight
from dossier.results.discharge_table import COLD, WARM, Lasting, Outlook

MODEL_NOTE = (
    "By energy: what the battery stores, times one efficiency. By the discharge model: the voltage under "
    "load, from the table of resistance of the cell, at 25 °C and as when new. The model is shown against "
    "simulated cells only: a measured flight counts for more than either."
)


def modelled_cell(at: Printer, one: ModelledFlight | None) -> Cell:
    """Print the endurance by the discharge model with what ends it, or that there is none."""
    if one is None:
        return Cell("no answer")
    shown = at.figure(one.modelled)
    return Cell(f"{shown.first} {shown.uncertainty}", shown.sheet, note=f"ends by: {one.ends}")


def outlooks(at: Printer) -> tuple[Grid, ...]:
    """Make a table for each battery."""
    found = at.dossier.modelled.outlooks
    return tuple(_table(at, option, found) for option in dict.fromkeys(one.flight.option for one in found))


def _table(at: Printer, option: str, found: tuple[Outlook, ...]) -> Grid:
    name = at.dossier.project.battery.options[option].name
    heads = (
        Head("Pilot and battery", wide=True),
        *(Head(at.value(T, "temperature"), number=True) for T in (*WARM, *COLD)),
    )
    rows = [_row(at, one) for one in found if one.flight.option == option]
    return grid(f"{name}: level flight by temperature and age", heads, rows)


def _row(at: Printer, one: Outlook) -> Row:
    who = f"Pilot {at.first(one.flight.pilot, 'mass')}, battery {one.age.words}"
    return row(who, *(_lasting(at, lasts) for lasts in one.lasts))


def _lasting(at: Printer, one: Lasting) -> Cell:
    if one.shortest is None:
        return Cell("no answer", note=sentence(one.words).rstrip("."))
    shortest = at.first(one.shortest, "time")
    if one.longest is None:
        return Cell(shortest, note=one.words)
    return Cell(f"{shortest.partition(chr(0xA0))[0]} to {at.first(one.longest, 'time')}", note=one.words)
