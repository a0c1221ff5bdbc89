"""Below a table: which of its rows is worked, and the sheets of its cells."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from dossier.compose.grid import Cell, Grid
from dossier.compose.printer import Printer
from dossier.figures import Figure


def with_rows(at: Printer, made: Grid, table: str, option: str = "") -> Grid:
    """Put the worked rows to a table.

    Args:
        at: the page.
        made: the table.
        table: its key among the worked rows.
        option: of the battery, where each has a table of its own.
    """
    return replace(made, worked=tuple(worked_rows(at, table, option)))


def worked_rows(at: Printer, table: str, option: str = "") -> Iterator[tuple[str, tuple[Cell, ...]]]:
    """Name each worked row of a table with the links to its sheets."""
    for row in at.dossier.worked.of(table, option):
        yield row.words, tuple(_cell(at, figure) for figure in row.cells.values())


def _cell(at: Printer, figure: Figure) -> Cell:
    label = figure.label.partition(":")[0]
    return Cell(f"{label[:1].lower()}{label[1:]}", at.sheet(figure.name))
