"""Cures whose logs are files: what each log comes to beside what was stated, and the log as a drawing."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

import numpy as np

from dossier import units
from dossier.compose.evidence_files import address
from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.plots import ACCENT, BAD, GOOD, Plot, as_svg, axes
from dossier.compose.printer import Printer
from dossier.cure_log import Column
from dossier.quantities import Quantity
from dossier.results.assembly_cures import LoggedCure, in_unit_of

_HEADS = (
    "+ Step and file | # At the lowest temperature or above | "
    "# Lowest between first and last row at the limit | # Highest | # Fastest rise"
)
_MOST_POINTS = 400
"""Points of a drawing: more are not seen at its width. The table is made from every row."""
_TABLE_ROWS = 12
"""Equal steps of the rows of the log that are printed."""


@dataclass(frozen=True)
class CuresPart:
    """The cures of one aircraft. All ready strings."""

    table: Grid
    plots: tuple[Plot, ...]


def cures(at: Printer) -> CuresPart | None:
    """Make the table and the drawings; none if no entry names a log."""
    logged = at.dossier.assembly.cures
    if not logged:
        return None
    titles = {step.name: step.title for step in at.dossier.assembly.steps}
    rows = [_row(at, titles[step], cure) for (step, _), cure in logged.items()]
    plots = [_plot(f"cure-{number}", titles[step], cure) for number, ((step, _), cure) in
             enumerate(logged.items(), start=1)]  # fmt: skip
    return CuresPart(grid("Cures by their logs", _HEADS, rows), tuple(plots))


def _row(at: Printer, title: str, cure: LoggedCure) -> Row:
    due, found, stated = cure.due, cure.figures, cure.entry.cure
    assert stated is not None, "a cure with a log has an entry that names it"
    assert stated.log is not None, "and the log has a file"
    file = next(one for one in at.dossier.evidence if one.path == str(stated.log.file))
    lowest = in_unit_of(due.lowest, found.lowest) if found.lowest is not None else "never so warm"
    within = f" Thermometer within {stated.log.within.text} (k = 2)." if stated.log.within else ""
    rise = in_unit_of(due.heating, found.heating) if due.heating else "not limited"
    limit = f"Due {due.heating.text} or less, as a mean over ten minutes" if due.heating else ""
    return row(
        Cell(
            title, address(at, file.path), note=f"{file.path}; its SHA-256 begins {file.sha256[:16]}.{within}"
        ),
        Cell(in_unit_of(due.time, found.time), note=_beside(stated.time, due.time, "more")),
        Cell(lowest, note=_beside(stated.lowest, due.lowest, "more")),
        Cell(in_unit_of(due.highest, found.highest), note=_beside(stated.highest, due.highest, "less")),
        Cell(rise, note=limit),
    )


def _beside(stated: Quantity, due: Quantity, side: str) -> str:
    return f"Stated {stated.text}; due {due.text} or {side}"


def _plot(name: str, title: str, cure: LoggedCure) -> Plot:
    due, run = cure.due, cure.run
    unit, words = due.lowest.unit, f"{title}: {_words(cure)}"
    hours, shown = run.time / 3600.0, _in_unit(run.temperature, unit)
    picked = np.unique(np.linspace(0, len(hours) - 1, min(len(hours), _MOST_POINTS)).round().astype(int))
    low, high = (_in_unit(np.array([limit.value]), unit)[0] for limit in (due.lowest, due.highest))
    with axes(name, 2.6) as (drawing, plane):
        plane.axhline(low, color=GOOD, linestyle=(0, (6, 3)), linewidth=2, label=f"Lowest {due.lowest.text}")
        plane.axhline(
            high, color=BAD, linestyle=(0, (2, 2)), linewidth=2, label=f"Highest {due.highest.text}"
        )
        plane.plot(hours[picked], shown[picked], color=ACCENT, linewidth=2, label="Log")
        plane.set_xlabel("Hours from the start of the log")
        plane.set_ylabel(unit)
        plane.grid(True)
        drawing.legend(loc="outside upper left", ncols=3)
        svg = as_svg(drawing, name, title, words)
    return Plot(title, words, svg, _values(cure))


def _words(cure: LoggedCure) -> str:
    due, found = cure.due, cure.figures
    end = in_unit_of(due.time, float(cure.run.time[-1] - cure.run.time[0]))
    return (
        f"a log of {end}: {in_unit_of(due.time, found.time)} of it at {due.lowest.text} or above, where "
        f"{due.time.text} are due, and {in_unit_of(due.highest, found.highest)} at its highest."
    )


def _values(cure: LoggedCure) -> Grid:
    """One row of the log in so many, its first and its last, and those with an extreme, which say so."""
    due, run = cure.due, cure.run
    count = len(run.time)
    step = max(1, ceil((count - 1) / _TABLE_ROWS))
    extremes = _extremes(cure)
    rows = [
        row(
            in_unit_of(due.time, float(run.time[one])),
            Cell(in_unit_of(due.lowest, float(run.temperature[one])), note=extremes.get(one, "")),
        )
        for one in sorted({*range(0, count, step), count - 1, *extremes})
    ]
    which = f"One row in {step} of the log, its last, and its extremes" if step > 1 else "Rows of the log"
    return grid(which, "# Time | # Temperature", rows)


def _extremes(cure: LoggedCure) -> dict[int, str]:
    """Number of a row -> what it is the extreme of; the lowest at work is the one that the table of cures
    prints."""
    values = cure.run.temperature
    found = {int(np.argmin(values)): "lowest of the whole log", int(np.argmax(values)): "highest"}
    warm = np.flatnonzero(values >= cure.due.lowest.value)
    if len(warm):
        lowest = int(warm[0] + np.argmin(values[warm[0] : warm[-1] + 1]))
        found[lowest] = "; ".join(
            filter(None, (found.get(lowest), "lowest between first and last row at the limit"))
        )
    return found


def _in_unit(values: Column, unit: str) -> Column:
    factor, offset = units.scale("temperature", unit)
    return np.asarray((values - offset) / factor)
