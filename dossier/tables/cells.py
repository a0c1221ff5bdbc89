"""Generic cells by name, for a type whose builder has no sheet yet. They are no cell that can be bought."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Annotated, cast

from dossier.compute.cell import Application, Cell, CellLimits
from dossier.compute.curve import curve
from dossier.model.base import Part
from dossier.model.scalars import Key, Name, Number, OneOf, Text
from dossier.published_work import Citation
from dossier.sources import cite
from dossier.tables.columns import Columns, numbers, read_table
from dossier.tables.rest_voltages import generic_rest_voltages


class CellTable(Part):
    """One cell of the file; V, Ω, Ah."""

    title: Text
    chemistry: Annotated[str, OneOf("lithium-nmc", "lithium-nca", "lithium-iron-phosphate")]
    application: Annotated[str, OneOf("energy", "power")]
    source: Name
    locator: Text
    capacity: Number
    nominal_voltage: Number
    nominal_capacity: Number
    lowest_voltage: Number
    rest_voltage: Name
    """A table of ``rest_voltages.yaml``."""
    resistance: Columns


class CellTables(Part):
    """The file."""

    cells: dict[Key, CellTable]


@dataclass(frozen=True)
class GenericCell:
    """A cell with its label and its source, both to be shown wherever it is used."""

    title: str
    chemistry: str
    source: Citation
    cell: Cell


@cache
def generic_cells() -> Mapping[str, GenericCell]:
    """Read the generic cells, in order of their names.

    Raises:
        Rejected: the file is broken.
        OutsideRange: a cell is none for the solvers.
    """
    table = read_table(CellTables, "cells.yaml")
    return MappingProxyType({name: _generic(one) for name, one in sorted(table.cells.items())})


def _generic(one: CellTable) -> GenericCell:
    rest = generic_rest_voltages()[str(one.rest_voltage)].rest
    resistance = curve(numbers(one.resistance.state_of_charge), numbers(one.resistance.value))
    capacity, nominal = (3600 * charge.value for charge in (one.capacity, one.nominal_capacity))
    application = cast(Application, str(one.application))
    limits = CellLimits(one.lowest_voltage.value)
    cell = Cell(rest, resistance, capacity, one.nominal_voltage.value, nominal, limits, application)
    return GenericCell(str(one.title), str(one.chemistry), cite(f"{one.source}, {one.locator}"), cell)
