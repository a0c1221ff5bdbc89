"""Sizes of copper wire by gauge or by area, with their currents and fuses."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.compute.wiring import CIRCULAR_MIL, Wire
from dossier.model.base import Part
from dossier.model.scalars import Count, Name, Number, Text
from dossier.published_work import Citation
from dossier.sources import cite
from dossier.tables.columns import numbers, read_table


class WireRow(Part):
    """One size; A and Ω per 1000 ft."""

    currents: list[Number]
    ohm_per_1000_ft: Number
    circular_mils: Number
    fuse: Number | None = None


class WireTable(Part):
    """The file."""

    source: Name
    locator: Text
    ratings: list[Count]
    """Rated temperatures in °C of the columns."""
    wires: dict[str, WireRow]


def wire_source() -> Citation:
    """Return where the sizes come from."""
    table = read_table(WireTable, "wires.yaml")
    return cite(f"{table.source}, {table.locator}")


@cache
def wires() -> Mapping[str, Wire]:
    """Read the sizes of wire by gauge, from thin to thick.

    Raises:
        Rejected: the file is broken.
    """
    table = read_table(WireTable, "wires.yaml")
    return MappingProxyType({gauge: _wire(gauge, row, table.ratings) for gauge, row in table.wires.items()})


def wire_of_area(area: float) -> Wire | None:
    """Return the thickest wire with no more copper than ``area``, in m²; None below the thinnest.

    A metric size lies between two gauges: the smaller one carries less and resists more.
    """
    fitting = [wire for wire in wires().values() if wire.area <= area]
    return fitting[-1] if fitting else None


def column_for(wire: Wire, rating: float) -> int | None:
    """Return the warmest column of the table, in °C, up to a rating in °C; None below the coolest."""
    return max((column for column in wire.ampacity if column <= rating + 1e-9), default=None)


def _wire(gauge: str, row: WireRow, ratings: list[int]) -> Wire:
    return Wire(
        gauge,
        MappingProxyType(dict(zip(ratings, numbers(row.currents), strict=True))),
        row.ohm_per_1000_ft.value,
        row.fuse.value if row.fuse else None,
        row.circular_mils.value * CIRCULAR_MIL,
    )
