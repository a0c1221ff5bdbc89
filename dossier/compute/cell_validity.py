"""Where the model of a cell stops to hold: judged before it answers, for discharges and for missions."""

from __future__ import annotations

import numpy as np

from dossier.compute.cell import COLD, Cell
from dossier.compute.curve import Array, Codes, Flags
from dossier.compute.discharge_outcome import NoAnswer, Reason

HOUR = 3600.0
ZERO = 273.15


def nominal_rate(cell: Cell, power: Array, health: Array) -> Array:
    """Return power over the nominal energy that is left, in 1/h: 1 empties it in an hour.

    An aged cell holds less, so the same power is a higher rate; a health above 1 is not counted.
    """
    return np.asarray(power * HOUR / (cell.nominal_energy * np.minimum(health, 1.0)))


def reasons(cell: Cell, temperature: Array, *, impossible: Flags, too_fast: Flags) -> Codes:
    """Return the first reason against an answer for each scenario, 0 where there is none.

    Args:
        cell: the cell with its limits.
        temperature: in K at the start.
        impossible: true where the cell cannot give the power.
        too_fast: true where a rate is beyond what the model is shown to hold for.
    """
    out = (temperature < cell.limits.coldest) | (temperature > cell.limits.hottest)
    found = np.full(temperature.shape, Reason.NONE, dtype=np.int64)
    against = {
        Reason.COLD: temperature < COLD,
        Reason.RATE: too_fast,
        Reason.POWER: impossible,
        Reason.TEMPERATURE: out,
    }
    for reason, true in against.items():  # the last word is that of the strongest reason
        found[true] = reason
    return found


def message(reason: Reason, cell: Cell, *, temperature: float, power: float, rate: str) -> str:
    """Put a reason into words. ``rate`` says which rate is too high, and how high; temperature in K, power in
    W."""
    degrees = temperature - ZERO
    if reason is Reason.TEMPERATURE:
        low, high = cell.limits.coldest - ZERO, cell.limits.hottest - ZERO
        return f"the cell is at {degrees:.1f} °C, and may be used from {low:.0f} to {high:.0f} °C"
    if reason is Reason.POWER:
        return f"a cell cannot give {power:.4g} W in this state: no voltage makes up for the resistance"
    if reason is Reason.COLD:
        return (
            f"the cell is at {degrees:.1f} °C; below 5 °C cells differ so much that only a band can be given"
        )
    return rate


def no_answer(reason: Reason, cell: Cell, *, temperature: float, power: float, rate: str) -> NoAnswer:
    """Make the answer that is none."""
    return NoAnswer(reason, message(reason, cell, temperature=temperature, power=power, rate=rate))
