"""Generic rest voltages by name, each with its source and how far others of its chemistry lie away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Annotated

from dossier.compute.curve import Curve, curve
from dossier.model.base import Part
from dossier.model.battery import Cell
from dossier.model.scalars import Key, Name, Number, OneOf, Text
from dossier.published_work import Citation
from dossier.sources import cite
from dossier.tables.columns import numbers, read_table


class RestVoltageTable(Part):
    """One table of the file; V, parts of one."""

    title: Text
    chemistry: Annotated[str, OneOf("lithium-nmc", "lithium-nca", "lithium-iron-phosphate")]
    source: Name
    locator: Text
    spread_voltage: Number
    spread_energy: Number
    compared_with: Text
    state_of_charge: list[Number]
    value: list[Number]


class RestVoltageTables(Part):
    """The file."""

    tables: dict[Key, RestVoltageTable]


@dataclass(frozen=True)
class GenericRestVoltages:
    """One table with what must be said wherever it is used."""

    name: str
    title: str
    chemistry: str
    source: Citation
    rest: Curve
    """In V over state of charge, of a new cell at 25 °C."""
    spread_voltage: float
    """In V: how far other open tables lie away at equal charge, from 10 to 95 %."""
    spread_energy: float
    """The same for the energy, as a part of it."""
    compared_with: str
    """Which other tables."""


@cache
def generic_rest_voltages() -> Mapping[str, GenericRestVoltages]:
    """Read the generic rest voltages, in order of their names.

    Raises:
        Rejected: the file is broken.
    """
    table = read_table(RestVoltageTables, "rest_voltages.yaml")
    return MappingProxyType({name: _generic(name, one) for name, one in sorted(table.tables.items())})


def _generic(name: str, one: RestVoltageTable) -> GenericRestVoltages:
    return GenericRestVoltages(
        name,
        str(one.title),
        str(one.chemistry),
        cite(f"{one.source}, {one.locator}"),
        curve(numbers(one.state_of_charge), numbers(one.value)),
        one.spread_voltage.value,
        one.spread_energy.value,
        str(one.compared_with),
    )


def generic_of(cell: Cell) -> GenericRestVoltages | None:
    """Return the generic table that a cell of a record names; None where it states its own."""
    name = cell.generic_open_circuit_voltage
    return generic_rest_voltages()[str(name)] if name else None


def rest_columns(cell: Cell) -> tuple[list[float], list[float]]:
    """Return states of charge and rest voltages in V of a cell, its own or generic, as they stand.

    Empty where the record gives neither; whether they rise is judged elsewhere.
    """
    generic = generic_of(cell)
    if generic:
        return list(generic.rest.x), list(generic.rest.y)
    points = cell.open_circuit_voltage or []
    return [p.state_of_charge.value for p in points], [p.voltage.value for p in points]
