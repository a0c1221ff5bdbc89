"""References inside the battery file."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from dossier.findings import Finding, Severity
from dossier.model.battery import Cell, Option
from dossier.model.events import CapacityTest, PackFitted
from dossier.project import Project
from dossier.references.names import unknown
from dossier.tables.rest_voltages import generic_of, rest_columns


def check(project: Project) -> Iterator[Finding]:
    """Check cells and options."""
    for cell in project.battery.cells.values():
        yield from _which_table(cell)
        yield from _cell(cell)
        yield from _resistances(cell)
    yield from _use(project)
    yield from _logs(project)
    for option in project.battery.options.values():
        yield from unknown(option.cell, project.battery.cells, "cell", "cells in battery.yaml")
        cell_of_option = project.battery.cells.get(option.cell)
        if cell_of_option:
            yield from _voltages(option, cell_of_option)
            yield from _cells_fit(option, cell_of_option)


def _which_table(cell: Cell) -> Iterator[Finding]:
    """Ask for just one table of rest voltages, and that a generic one is of the chemistry of the cell."""
    own, generic = cell.open_circuit_voltage, generic_of(cell)
    if own is None and generic is None:
        yield Finding(
            "P027",
            f"the cell {cell.name} has no rest voltages",
            "measure open_circuit_voltage:, or name a table: generic_open_circuit_voltage: nmc811",
            cell.place,
        )
    if own is not None and generic is not None:
        yield Finding(
            "P027",
            f"the cell {cell.name} has rest voltages of its own and names a generic table",
            "keep its own",
            cell.place_of_key("generic_open_circuit_voltage"),
        )
    if generic and generic.chemistry != cell.chemistry:
        yield Finding(
            "P027",
            f"the table {generic.name} is of {generic.chemistry}, and the cell {cell.name} is "
            f"{cell.chemistry}",
            "name a table of its chemistry",
            cell.place_of_key("generic_open_circuit_voltage"),
        )


def _cell(cell: Cell) -> Iterator[Finding]:
    points = cell.open_circuit_voltage
    if points is None:
        return
    if len(points) < 2:
        yield Finding(
            "P020",
            "the table of rest voltages has fewer than two points",
            "give at least empty and full",
            cell.place_of_key("open_circuit_voltage"),
        )
    for before, after in pairwise(points):
        if (
            after.state_of_charge.value <= before.state_of_charge.value
            or after.voltage.value <= before.voltage.value
        ):
            yield Finding(
                "P020",
                f"{after.state_of_charge.text}, {after.voltage.text} does not follow "
                f"{before.state_of_charge.text}, {before.voltage.text}",
                "charge and voltage both rise from empty to full",
                after.place,
            )


def _resistances(cell: Cell) -> Iterator[Finding]:
    points, (ends, _) = cell.resistance, rest_columns(cell)
    if points is None:
        return
    if len(points) < 2:
        remedy = "give at least two points, or leave the table out"
        yield Finding(
            "P026",
            "the table of resistances has fewer than two points",
            remedy,
            cell.place_of_key("resistance"),
        )
    for before, after in pairwise(points):
        if after.state_of_charge.value <= before.state_of_charge.value:
            yield Finding(
                "P026",
                f"{after.state_of_charge.text} does not follow {before.state_of_charge.text}",
                "the charge rises from empty to full",
                after.place,
            )
    for point in points if ends else ():
        if not ends[0] <= point.state_of_charge.value <= ends[-1]:
            yield Finding(
                "P026",
                f"{point.state_of_charge.text} is outside the table of rest voltages",
                "stay between its ends",
                point.state_of_charge.place,
            )


def _use(project: Project) -> Iterator[Finding]:
    use = project.aircraft.use
    if use and use.charge_after_flight.value >= use.charge_before_flight.value:
        fault = (
            f"a flight ends at {use.charge_after_flight.text}, not below the "
            f"{use.charge_before_flight.text} at which it begins"
        )
        yield Finding("P025", fault, "correct one of them", use.charge_after_flight.place)


def _logs(project: Project) -> Iterator[Finding]:
    for record in project.serials.values():
        for event in record.events:
            log = event.log if isinstance(event, PackFitted | CapacityTest) else None
            if log and str(log.file) not in {str(cited.file) for cited in event.evidence}:
                yield Finding(
                    "P024",
                    f"the log {log.file} is not among the evidence of its event",
                    "name it under evidence as well, so that it is sealed",
                    log.place_of_key("file"),
                )


def _voltages(option: Option, cell: Cell) -> Iterator[Finding]:
    _, table = rest_columns(cell)
    if not table:
        return
    points = cell.open_circuit_voltage
    low, high = (
        (points[0].voltage.text, points[-1].voltage.text)
        if points
        else (f"{table[0]:g} V", f"{table[-1]:g} V")
    )
    for key in ("full_cell_voltage", "empty_cell_voltage"):
        voltage = getattr(option, key)
        if not table[0] <= voltage.value <= table[-1]:
            yield Finding(
                "P021",
                f"{voltage.text} is outside the cell's table, {low} to {high}",
                "stay inside the table, or extend it from the maker's sheet",
                voltage.place,
            )
    if option.empty_cell_voltage.value >= option.full_cell_voltage.value:
        yield Finding(
            "P021",
            f"flying stops at {option.empty_cell_voltage.text}, not below full at "
            f"{option.full_cell_voltage.text}",
            "correct one of them",
            option.place_of_key("empty_cell_voltage"),
        )


def _cells_fit(option: Option, cell: Cell) -> Iterator[Finding]:
    """Tell cells that weigh more than their battery, or need more room than its box has."""
    count, place = option.series * option.parallel, option.place_of_key("parallel")
    remedy = "count the cells again, or correct {}"
    mass = count * cell.mass.value
    if 0 < option.mass.value < mass:  # a nought is told as one
        weigh = f"{count} cells of {cell.mass.text} weigh {mass:.1f} kg"
        fault = f"{weigh}, more than {option.name} at {option.mass.text}"
        yield Finding(
            "P046", fault, remedy.format("the mass of the cell or of the battery"), place, Severity.WARNING
        )
    if cell.room is not None and 0 < option.size.volume < count * cell.room:
        need = f"{count} cells need {1000 * count * cell.room:.1f} L where they stand as close as they can"
        fault = f"{need}, and the box of {option.name} has {1000 * option.size.volume:.1f} L"
        help_ = remedy.format("the measures of the cell or of the battery")
        yield Finding("P046", fault, help_, place, Severity.WARNING)
