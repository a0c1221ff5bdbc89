"""The gauge card: what a voltmeter shows at rest and under load against what is left, and the error of the
wrong column."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dossier.compute.bounds import positive
from dossier.compute.cell import Cell
from dossier.compute.cell_circuit import working_voltage
from dossier.compute.curve import Array, Curve, Flags
from dossier.compute.discharge import discharge
from dossier.compute.discharge_outcome import NoAnswer, Reason
from dossier.compute.pack_share import PackShape
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange

NEAR = 1e-9
"""Closer states of charge are the same."""


@dataclass(frozen=True)
class Age:
    """Of the cells on the card."""

    health: float = 1.0
    growth: float = 1.0


@dataclass(frozen=True)
class GaugeRow:
    """One state of charge; of the pack, in SI."""

    charge: float
    rest_voltage: float
    loaded_voltage: float
    energy_left: float
    """At the terminals at this power, to the limit of voltage under load."""
    time_left: float
    if_taken_as_rested: float | None
    """Error in s of the time left when the loaded reading is looked up in the column of rest: negative, it
    frightens. None where the column does not reach so far down."""
    if_taken_as_loaded: float | None
    """Error in s when a reading at rest, such as after a glide, is looked up in the loaded column: positive,
    it is the dangerous one. None where the column does not reach so far up."""


@dataclass(frozen=True)
class GaugeCard:
    """The card for one power."""

    power: float
    rows: tuple[GaugeRow, ...]
    """From full to empty."""


def gauge_card(
    cell: Cell,
    shape: PackShape,
    *,
    power: float,
    charges: Sequence[float],
    temperature: float = 298.15,
    age: Age | None = None,
) -> GaugeCard | NoAnswer:
    """Make the card of a pack at a constant power.

    Args:
        cell: the cell, in SI.
        shape: of the pack.
        power: in W of the pack, at which the pilot looks.
        charges: the states of charge of the rows.
        temperature: of the cells, in K.
        age: of the cells; new if left out.

    Returns:
        the card, or why there is none. Valid as :mod:`dossier.compute.discharge` is; the loaded voltage is
        that of a load that has lasted for minutes, after a short one the gauge stands higher.

    Raises:
        OutsideRange: the voltage under load does not rise with the charge, so that a reading has two
        meanings.
    """
    aged = age or Age()
    even = np.linspace(cell.rest.x[0], cell.rest.x[-1], 401)
    # the same point twice would not rise
    apart = np.abs(even[:, None] - np.asarray(charges)).min(axis=1) > NEAR
    grid = np.union1d(even[apart], charges)
    cases = scenarios(
        power / shape.cells, start=grid, floor=cell.rest.x[0], temperature=temperature, growth=aged.growth,
        health=aged.health, wiring=shape.wiring_at_cell,
    )  # fmt: skip
    runs = discharge(cell, cases)
    last = runs[len(grid) - 1]
    if isinstance(last, NoAnswer):
        return last
    rest, loaded = cell.rest.along(grid), runs.computed["first_voltage"]
    time = np.where(runs.reason == Reason.NONE, runs.computed["time"], 0.0)  # below the limit nothing is left
    usable = time > 0
    if not (np.diff(loaded[usable]) > 0).all():
        raise OutsideRange(
            "the voltage under load does not rise with the state of charge, "
            "and a reading would have two meanings"
        )
    if not usable.any():
        raise OutsideRange("no state of charge gives this power within the limits of voltage and current")
    table = _Columns(rest, loaded, time, usable)
    rows = (
        _row(shape, power, table, int(np.searchsorted(grid, one)), one)
        for one in sorted(charges, reverse=True)
    )
    return GaugeCard(power, tuple(rows))


@dataclass(frozen=True, eq=False)
class _Columns:
    rest: Array
    loaded: Array
    time: Array
    usable: Flags


def _row(shape: PackShape, power: float, table: _Columns, k: int, charge: float) -> GaugeRow:
    rest, loaded, left = float(table.rest[k]), float(table.loaded[k]), float(table.time[k])
    on_rest = _looked_up(loaded, table.rest, table.time)
    on_loaded = _looked_up(rest, table.loaded[table.usable], table.time[table.usable])
    return GaugeRow(
        charge, shape.series * rest, shape.series * loaded, power * left, left,
        None if on_rest is None else on_rest - left, None if on_loaded is None else on_loaded - left,
    )  # fmt: skip


def _looked_up(reading: float, column: Array, time: Array) -> float | None:
    return float(np.interp(reading, column, time)) if column[0] <= reading <= column[-1] else None


def spread_of_charge(rest: Curve, charge: float, spread: float) -> float:
    """Return the spread of the states of charge that a spread of rest voltages shows.

    Args:
        rest: rest voltage in V over state of charge, rising.
        charge: the mean state of charge.
        spread: highest less lowest rest voltage, in V.

    Valid: the cells have rested; both ends of the spread lie inside the table. On a flat part of the curve a
    small spread of voltage hides a large one of charge. Source: derived, from the table of the cell.

    Raises:
        OutsideRange: an end of the spread lies outside the table.
    """
    turned = Curve(rest.y, rest.x)
    middle = rest.at(charge, "state of charge")
    low, high = (turned.at(middle + side * spread / 2, "rest voltage") for side in (-1, 1))
    return high - low


def change_over(rest: Curve, charge: float, width: float) -> float:
    """Return by how much the rest voltage in V changes over a width of charge around a state of charge.

    Where the table ends before, the slope of what is left of the width counts. Source: derived, from the
    table of the cell.

    Raises:
        OutsideRange: the state of charge lies outside the table, or the width is not positive.
    """
    half = positive(width, "width of charge") / 2
    rest.at(charge, "state of charge")
    low, high = max(charge - half, rest.x[0]), min(charge + half, rest.x[-1])
    fall = rest.at(high, "state of charge") - rest.at(low, "state of charge")
    return fall / (high - low) * width


def loaded_voltage(cell: Cell, shape: PackShape, power: float, charge: float) -> float:
    """Return the voltage in V of a new pack at 25 °C under a power in W that has lasted for minutes.

    Raises:
        OutsideRange: the charge is outside the table.
    """
    U = cell.rest.at(charge, "state of charge")
    R = cell.resistance.at(charge, "state of charge") + shape.wiring_at_cell
    return shape.series * float(
        working_voltage(np.asarray(U), np.asarray(R), np.asarray(power / shape.cells))
    )
