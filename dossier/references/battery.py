"""References inside the battery file."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from dossier.findings import Finding
from dossier.model.battery import Cell, Option
from dossier.project import Project
from dossier.references.names import unknown


def check(project: Project) -> Iterator[Finding]:
    """Check cells and options."""
    for cell in project.battery.cells.values():
        yield from _cell(cell)
    for option in project.battery.options.values():
        yield from unknown(option.cell, project.battery.cells, "cell", "cells in battery.yaml")
        cell_of_option = project.battery.cells.get(option.cell)
        if cell_of_option:
            yield from _voltages(option, cell_of_option)


def _cell(cell: Cell) -> Iterator[Finding]:
    points = cell.open_circuit_voltage
    if len(points) < 2:
        yield Finding("P020", "the table of rest voltages has fewer than two points", "give at least empty and full", cell.place_of_key("open_circuit_voltage"))
    for before, after in pairwise(points):
        if after.state_of_charge.value <= before.state_of_charge.value or after.voltage.value <= before.voltage.value:
            yield Finding("P020", f"{after.state_of_charge.text}, {after.voltage.text} does not follow {before.state_of_charge.text}, {before.voltage.text}",
                          "charge and voltage both rise from empty to full", after.place)


def _voltages(option: Option, cell: Cell) -> Iterator[Finding]:
    points = cell.open_circuit_voltage
    if not points:
        return
    low, high = points[0].voltage, points[-1].voltage
    for key in ("full_cell_voltage", "empty_cell_voltage"):
        voltage = getattr(option, key)
        if not low.value <= voltage.value <= high.value:
            yield Finding("P021", f"{voltage.text} is outside the cell's table, {low.text} to {high.text}", "stay inside the table, or extend it from the maker's sheet",
                          voltage.place)
    if option.empty_cell_voltage.value >= option.full_cell_voltage.value:
        yield Finding("P021", f"flying stops at {option.empty_cell_voltage.text}, not below full at {option.full_cell_voltage.text}", "correct one of them",
                      option.place_of_key("empty_cell_voltage"))
