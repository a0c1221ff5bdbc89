"""How far the cells of a battery are apart in a log."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dossier.battery_log import BatteryLog


@dataclass(frozen=True)
class Spread:
    """The cells furthest apart in one row."""

    row: int
    voltage: float
    """Highest less lowest, in V."""
    lowest: str
    highest: str


def _rest_row(log: BatteryLog, first: int, last: int) -> int | None:
    if first > 0:
        return first - 1
    return len(log) - 1 if last < len(log) - 1 else None


def _spread(log: BatteryLog, row: int | None) -> Spread | None:
    if row is None or len(log.cells) < 2:
        return None
    volts = {name: float(column[row]) for name, column in log.cells.items()}
    lowest, highest = min(volts, key=volts.__getitem__), max(volts, key=volts.__getitem__)
    return Spread(row, volts[highest] - volts[lowest], lowest, highest)


def widest_spread(log: BatteryLog, first: int, last: int) -> Spread | None:
    """Return the largest spread from one row to another, both counted; None without voltages of cells."""
    if len(log.cells) < 2:
        return None
    table = np.array(list(log.cells.values()))[:, first : last + 1]
    return _spread(log, first + int(np.argmax(np.ptp(table, axis=0))))


def rest_spread(log: BatteryLog, first: int, last: int) -> Spread | None:
    """Return the spread at rest: in the row before the load, else in the last row after it; None where
    neither is."""
    return _spread(log, _rest_row(log, first, last))
