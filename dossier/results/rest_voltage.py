"""The rest voltages of a cell as inputs of figures: its own, or those of a generic table, which is told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compute.curve import Curve
from dossier.figures import Input, given
from dossier.findings import Finding, Severity
from dossier.model.battery import Cell
from dossier.tables.rest_voltages import generic_of, rest_columns

VALIDITY = "a new cell at 25 °C, of no make; measure your own"
"""What every generic table holds for, in words."""


@dataclass(frozen=True)
class RestPoint:
    """One point: a state of charge and the rest voltage there."""

    charge: Input
    voltage: Input
    text: str
    """The state of charge as it is written."""


def rest_points(cell: Cell) -> tuple[RestPoint, ...]:
    """List the points from empty to full, each with its place in the record or with its source."""
    generic = generic_of(cell)
    if generic is None:
        return tuple(
            RestPoint(
                given(point.state_of_charge, f"state of charge, point {number}"),
                given(point.voltage, f"rest voltage, point {number}"),
                point.state_of_charge.text,
            )
            for number, point in enumerate(cell.open_circuit_voltage or [], 1)
        )
    pairs = zip(generic.rest.x, generic.rest.y, strict=True)
    return tuple(
        RestPoint(
            Input(f"state of charge, point {number}", "ratio", charge, generic.source),
            Input(f"rest voltage, point {number}", "voltage", voltage, generic.source),
            f"{100 * charge:g} %",
        )
        for number, (charge, voltage) in enumerate(pairs, 1)
    )


def rest_curve(cell: Cell) -> Curve:
    """Return rest voltage in V over state of charge.

    Raises:
        OutsideRange: the columns make no curve.
    """
    charges, voltages = rest_columns(cell)
    return Curve(tuple(charges), tuple(voltages))


def generic_words(cell: Cell) -> str:
    """Say which generic table a cell borrows and how far others lie away; empty where it has its own."""
    generic = generic_of(cell)
    if generic is None:
        return ""
    return (
        f"{generic.title}: {generic.source}. For {VALIDITY}. Others, {generic.compared_with}, lie up to "
        f"{generic.spread_voltage:g} V away at equal charge and up to {100 * generic.spread_energy:.1f} % in "
        "energy; that is not in the ±"
    )


def generic_findings(cell: Cell) -> Iterator[Finding]:
    """Warn where energy, endurance and the gauge rest on a cell that is not this one."""
    generic = generic_of(cell)
    if generic:
        yield Finding(
            "D006",
            f"no rest voltage of the cell {cell.name} was measured: the generic table {generic.name} stands "
            f"in for it, and others of its kind lie up to {generic.spread_voltage:g} V and "
            f"{100 * generic.spread_energy:.1f} % of the energy away",
            "measure open_circuit_voltage: of your own cell, in steps with an hour of rest after each",
            cell.place_of_key("generic_open_circuit_voltage"), Severity.WARNING,
        )  # fmt: skip
