"""Sizes of copper wire by gauge, with their currents and fuses."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.compute.wiring import FOOT, Wire
from dossier.model.base import Part
from dossier.model.scalars import Count, Name, Number, Text
from dossier.sources import Citation, cite
from dossier.tables.columns import numbers, read_table


class WireRow(Part):
    """One size; A and Ω per 1000 ft."""

    currents: list[Number]
    ohm_per_1000_ft: Number
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


def _wire(gauge: str, row: WireRow, ratings: list[int]) -> Wire:
    currents = MappingProxyType(dict(zip(ratings, numbers(row.currents), strict=True)))
    return Wire(
        gauge, currents, row.ohm_per_1000_ft.value / (1000 * FOOT), row.fuse.value if row.fuse else None
    )
