"""Whether a log can be trusted: gaps, a clock that steps, units that are off, counts that do not agree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from dossier.battery_log import BatteryLog
from dossier.compute.log_orientation import Oriented
from dossier.findings import Finding, Place, Severity

GAP = 5.0
"""Times the usual distance of rows under load: a longer one is a gap (source practice)."""
CELL_VOLTAGES = (2.0, 4.5)
"""In V, of a lithium cell in use and a little beyond."""
HEALTHS = (0.3, 1.3)
"""Capacity over nominal capacity that a test may show before a unit is suspected (source practice)."""
AGREEMENT = 0.02
"""Within which two counts of the same thing must agree (source practice)."""


@dataclass(frozen=True)
class PackUnderTest:
    """What was tested, in SI."""

    series: int
    nominal_charge: float
    """In C."""


def clock_findings(log: BatteryLog) -> Iterator[Finding]:
    """Tell each row whose time does not follow the one before; such a log is not integrated."""
    for row in np.flatnonzero(np.diff(log.time) <= 0):
        before, after = log.time[row], log.time[row + 1]
        word = "stands still" if after == before else "goes back"
        remedy = "leave out the rows of the restart, or take the log of one run"
        yield Finding(
            "L003", f"the clock {word}: {after:g} s follows {before:g} s", remedy, log.place(int(row) + 1)
        )


def gap_findings(oriented: Oriented) -> Iterator[Finding]:
    """Tell each gap under load, where the current in between is not known."""
    log = oriented.log
    rows = np.arange(oriented.first, oriented.last)
    steps = np.diff(log.time)[rows]
    if not len(steps):
        return
    usual = float(np.median(steps))
    for row, step in zip(rows, steps, strict=True):
        if step > GAP * usual:
            fault = f"no row for {step:g} s under load, where rows usually are {usual:g} s apart"
            yield _doubt(
                "L004",
                fault,
                "take the log again, or show that the load did not change",
                log.place(int(row) + 1),
            )


def unit_findings(oriented: Oriented, pack: PackUnderTest, charge: float) -> Iterator[Finding]:
    """Tell values that fit another unit than the one of the heading.

    Args:
        oriented: the log.
        pack: what was tested.
        charge: the charge in C that the log comes to.
    """
    log = oriented.log
    voltage = float(np.median(log.voltage)) / pack.series
    low, high = CELL_VOLTAGES
    if not low <= voltage <= high:
        yield _unit(
            log,
            f"the voltage is {voltage:.4g} V a cell with {pack.series} cells in series",
            _voltage_guess(voltage, pack.series),
        )
    ratio = charge / pack.nominal_charge
    if not HEALTHS[0] <= ratio <= HEALTHS[1]:
        yield _unit(log, f"the charge is {ratio:.3g} times the nominal one", _charge_guess(ratio))


def _unit(log: BatteryLog, fault: str, guess: str) -> Finding:
    remedy = f"correct the unit in the heading{guess}, or show that the battery is so"
    return _doubt("L005", fault, remedy, log.place(0))


def _doubt(code: str, fault: str, remedy: str, place: Place) -> Finding:
    return Finding(code, fault, remedy, place, Severity.WARNING)


def _voltage_guess(voltage: float, series: int) -> str:
    guesses = {
        " to mV": voltage / 1000,
        " to V": voltage * 1000,
        " or take the voltage of the pack, not of a cell": voltage * series,
    }
    return _first_that_fits(guesses, CELL_VOLTAGES)


def _charge_guess(ratio: float) -> str:
    guesses = {
        " of the current to mA": ratio / 1000,
        " of the time to min": ratio * 60,
        " of the time to h": ratio * 3600,
        " of the current to A": ratio * 1000,
    }
    return _first_that_fits(guesses, HEALTHS)


def _first_that_fits(guesses: dict[str, float], band: tuple[float, float]) -> str:
    return next((words for words, value in guesses.items() if band[0] <= value <= band[1]), "")


def agreement_findings(oriented: Oriented, charge: float) -> Iterator[Finding]:
    """Compare the integrated charge in C with the instrument's own count, and the cells with the pack."""
    log = oriented.log
    if log.charge is not None:
        counted = abs(float(log.charge[oriented.last] - log.charge[oriented.first]))
        own = charge_between(log, oriented.first, oriented.last)
        if abs(counted - own) > AGREEMENT * charge:
            fault = (
                f"the instrument counts {counted / 3600:.4g} Ah, and its current comes to {own / 3600:.4g} Ah"
            )
            remedy = "look for gaps, or for an instrument that is not set to zero"
            yield _doubt("L006", fault, remedy, log.place(oriented.last))
    if log.cells:
        total = np.sum(list(log.cells.values()), axis=0)
        off = np.abs(total - log.voltage) / log.voltage
        row = int(np.argmax(off))
        if off[row] > AGREEMENT:
            fault = f"the cells add up to {total[row]:.4g} V, and the pack has {log.voltage[row]:.4g} V"
            yield _doubt(
                "L006", fault, "name the voltages of all groups in series, each once", log.place(row)
            )


def charge_between(log: BatteryLog, first: int, last: int) -> float:
    """Return the charge in C between two rows, by straight lines between the rows."""
    return float(np.trapezoid(log.current[first : last + 1], log.time[first : last + 1]))
