"""The empty aircraft today: from the weighing on, with each battery, and against the design."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.printer import Printer
from dossier.display import with_doubt
from dossier.figures import Figure
from dossier.results.empty import EmptyAircraft


@dataclass(frozen=True)
class EmptyTables:
    """All ready strings."""

    changes: Grid
    with_each: Grid
    design: Grid


def empty_tables(at: Printer) -> EmptyTables | None:
    """Print the empty aircraft, if it was weighed."""
    empty = at.dossier.empty
    return EmptyTables(_changes(at, empty), _with_each(at, empty), _design(at, empty)) if empty else None


def _changes(at: Printer, empty: EmptyAircraft) -> Grid:
    weighing = at.dossier.weighing
    assert weighing is not None
    rows = [
        row(
            "As weighed",
            weighing.event.date.isoformat(),
            _linked(at, weighing.mass),
            _linked(at, weighing.cg),
        ),
        *(
            row(one.what, one.date, at.first(one.mass.value, "mass"), at.first(one.arm.value, "arm"))
            for one in empty.rows
        ),
        row(
            "Empty, without battery",
            at.dossier.state.as_of.isoformat(),
            *(_linked(at, figure) for figure in empty.without_battery),
            total=True,
        ),
    ]
    return grid(
        "From the weighing to the empty aircraft without battery", "Step | = Date | # Mass | # Arm", rows
    )


def _with_each(at: Printer, empty: EmptyAircraft) -> Grid:
    return grid(
        "Empty aircraft with each battery",
        "Battery | # Empty mass | # Uncertainty | # Centre of gravity | # Uncertainty | # On the chord",
        [_pair(at, words, pair, empty) for words, pair in _pairs(at, empty)],
    )


def _pairs(at: Printer, empty: EmptyAircraft) -> Iterator[tuple[str, tuple[Figure, Figure]]]:
    packs = at.dossier.state.packs
    if empty.fitted and packs:
        yield f"Fitted: {packs[0].pack}", empty.fitted
    yield "None", empty.without_battery
    for name, pair in empty.with_option.items():
        yield str(at.dossier.project.battery.options[name].name), pair


def _pair(at: Printer, words: str, pair: tuple[Figure, Figure], empty: EmptyAircraft) -> Row:
    chords = {figure.name: figure for figure in empty.chord}
    chord = chords.get(pair[1].name.replace("empty_cg", "empty_cg_chord"))
    mass, arm = (at.figure(figure) for figure in pair)
    return row(
        words,
        Cell(_both(mass.first, mass.other), mass.sheet),
        mass.uncertainty,
        Cell(_both(arm.first, arm.other), arm.sheet),
        arm.uncertainty,
        Cell(at.figure(chord).first, at.sheet(chord.name)) if chord else "no chord laid down",
    )


def _design(at: Printer, empty: EmptyAircraft) -> Grid:
    return grid(
        "As designed and as weighed, without battery",
        "Source | # Mass | # Centre of gravity",
        [
            row(
                "Sum of the type's list for this aircraft",
                *(_linked(at, figure) for figure in empty.designed),
            ),
            row("From the weighing", *(_linked(at, figure) for figure in empty.without_battery)),
            row(
                "Weighed less designed", _linked(at, empty.above_design), "a difference has none", total=True
            ),
        ],
    )


def _linked(at: Printer, figure: Figure) -> Cell:
    printed = at.figure(figure)
    return Cell(with_doubt(_both(printed.first, printed.other), printed.uncertainty), printed.sheet)


def _both(first: str, other: str) -> str:
    return f"{first} ({other})" if other else first
