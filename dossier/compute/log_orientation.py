"""The sign of the current in a log, and the stretch of the log that is a discharge."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dossier.battery_log import BatteryLog
from dossier.findings import Finding, Severity

IDLE = 0.02
"""Of the largest current: what is below counts as rest (source practice)."""


@dataclass(frozen=True, eq=False)
class Oriented:
    """A log whose discharge current is positive, with what was found on the way."""

    log: BatteryLog
    first: int
    """Row of the first discharge current."""
    last: int
    findings: tuple[Finding, ...]


def orient(log: BatteryLog, discharge_is_positive: bool | None = None) -> Oriented | Finding:
    """Turn the current so that discharge is positive, and find the discharge.

    Args:
        log: as read.
        discharge_is_positive: as the record declares it; left out, it is taken from the fall of the voltage.

    Returns:
        the turned log, or the finding that there is no discharge in it. A declared sign that the voltage
        contradicts is a warning; a sign that is not declared is a note.
    """
    largest = float(np.abs(log.current).max())
    falls = _sign_of_falling_voltage(log, IDLE * largest)
    if largest == 0 or (falls == 0 and discharge_is_positive is None):
        remedy = "take the log of the discharge, and let it begin before the load comes on"
        return Finding(
            "L001", "the log shows no discharge: the voltage falls under no current", remedy, log.place(0)
        )
    sign = falls if discharge_is_positive is None else 1 if discharge_is_positive else -1
    turned = replace(log, current=sign * log.current)
    drawing = np.flatnonzero(turned.current > IDLE * largest)
    if not len(drawing):
        fault = "the log shows no discharge: no current has the sign that is declared for it"
        return Finding("L001", fault, "correct the declared sign of the current", log.place(0))
    return Oriented(
        turned, int(drawing[0]), int(drawing[-1]), tuple(_sign_findings(log, falls, discharge_is_positive))
    )


def _sign_of_falling_voltage(log: BatteryLog, idle: float) -> int:
    """Return the sign of the current under which the voltage falls, weighed by charge; 0 if it falls under
    none."""
    step = np.diff(log.voltage)
    current = (log.current[1:] + log.current[:-1]) / 2
    steady = np.sign(log.current[1:]) == np.sign(
        log.current[:-1]
    )  # a load coming on is judged by its sag below
    loaded = np.abs(current) > idle
    drift = float((step * np.sign(current))[steady & loaded].sum())
    sag = float((step * np.sign(np.diff(log.current)))[np.abs(np.diff(log.current)) > idle].sum())
    return -int(np.sign(drift + sag))


def _sign_findings(log: BatteryLog, falls: int, declared: bool | None) -> list[Finding]:
    if declared is None:
        word = "positive" if falls > 0 else "negative"
        fault = (
            f"the sign of the current is not declared; {word} is taken for discharge, since the voltage falls"
        )
        remedy = f"declare in the record that a discharge current is {word}"
        return [Finding("L002", fault, remedy, log.place(0), Severity.NOTE)]
    if falls and (falls > 0) != declared:
        fault = "the voltage rises under what is declared a discharge current"
        return [
            Finding("L002", fault, "correct the declared sign of the current", log.place(0), Severity.WARNING)
        ]
    return []
