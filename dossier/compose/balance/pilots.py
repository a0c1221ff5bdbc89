"""The lightest and the heaviest pilot with each battery, against the baggage."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.printer import Printer
from dossier.results.pilot_limits import ANY, BY_ENVELOPE, BY_MASS, FULL, HEAVIEST, LIGHTEST

NOT_COMPUTED = Cell("not computed")
BY = {BY_MASS: "by weight", BY_ENVELOPE: "by the envelope"}


def pilots_with_baggage(at: Printer) -> Grid | None:
    """Make the table, what holds with any baggage first; none where the type has no baggage station."""
    shelf = at.dossier.project.aircraft.loading.baggage
    if shelf is None:
        return None
    least = f"{at.first(shelf.minimum.value, 'mass')} of baggage" if shelf.minimum.value else "No baggage"
    most = f"{at.first(shelf.maximum.value, 'mass')} of baggage"
    heads = f"Pilot without ballast | # With any baggage | # {least} | # {most}"
    rows = [line for option in at.dossier.project.battery.options for line in _rows(at, str(option))]
    return grid("Pilots that fit", heads, rows)


def _rows(at: Printer, option: str) -> Iterator[Row]:
    name = at.dossier.project.battery.names[option]
    ends = (option, f"{option}.{FULL}")
    if at.dossier.project.aircraft.loading.envelope:
        light = (_linked(at, f"{LIGHTEST}.{end}") for end in ends)
        yield row(f"Lightest, {name}", _whole(at, f"{LIGHTEST}.{option}.{ANY}"), *light)
    heavy = (_heaviest(at, end) for end in ends)
    yield row(f"Heaviest, {name}", _whole(at, f"{HEAVIEST}.{option}.{ANY}"), *heavy)


def _heaviest(at: Printer, end: str) -> Cell:
    """By weight and by the envelope: the smaller one counts."""
    named = {f"{short}.{end}": words for short, words in BY.items()}
    found = [(name, words) for name, words in named.items() if name in at.dossier.figures]
    if not found:
        return NOT_COMPUTED
    pieces = [Cell(f"{_first(at, name)} {words}", at.sheet(name)) for name, words in found]
    return Cell(pieces=tuple(pieces), stacked=True)


def _whole(at: Printer, name: str) -> Cell:
    figure = at.dossier.figures.get(name)
    if figure is None:
        return NOT_COMPUTED
    shown = at.figure(figure)
    told = ", ".join(part for part in (shown.uncertainty, shown.other) if part)
    return Cell(shown.first, shown.sheet, note=told)


def _linked(at: Printer, name: str) -> Cell:
    return Cell(_first(at, name), at.sheet(name)) if name in at.dossier.figures else NOT_COMPUTED


def _first(at: Printer, name: str) -> str:
    return at.figure(at.dossier.figures[name]).first


def baggage_figures(at: Printer) -> frozenset[str]:
    """Name the figures that the table shows or that lead to them; none without a baggage station."""
    if at.dossier.project.aircraft.loading.baggage is None:
        return frozenset()
    starts = (LIGHTEST, HEAVIEST, "ready_mass", "ready_cg")
    return frozenset(name for name in at.dossier.figures if name.startswith(starts))
