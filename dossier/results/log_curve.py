"""Voltage and energy over the state of charge, as the log of a test has them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dossier.battery_log import Column
from dossier.compute.log_analysis import DischargeTest
from dossier.compute.log_quality import GAP
from dossier.figures import Figure, Input
from dossier.results.logged_test import LoggedTest


@dataclass(frozen=True, eq=False)
class LogCurve:
    """One discharge of the whole battery, in SI; rows in the order of the log, under load."""

    charge: Column
    """State of charge, falling."""
    voltage: Column
    current: Column
    energy: Column
    """Taken since the first row."""
    temperature: float | None
    """Mean, in K; None where the log holds none."""
    start_uncertainty: float
    """Standard uncertainty of the state of charge at the start."""
    share_uncertainty: float
    """Of the charge taken, as a part of the capacity: relative, standard."""

    def at(self, charge: float, column: Column) -> float:
        """Take a value between two rows on a straight line; the charge lies inside the curve."""
        return float(np.interp(charge, self.charge[::-1], column[::-1]))

    @property
    def ends(self) -> tuple[float, float]:
        """The lowest and the highest state of charge under load."""
        return float(self.charge[-1]), float(self.charge[0])


def log_curve(one: LoggedTest, test: DischargeTest, start: Input, whole: Figure) -> LogCurve:
    """Read the curve off the log.

    Args:
        one: the test with its log.
        test: the discharge in it.
        start: state of charge before it.
        whole: the capacity that the log gives.
    """
    log, part = one.log, slice(test.first, test.last + 1)
    time, voltage, current = log.time[part], log.voltage[part], np.abs(log.current[part])
    steps = np.diff(time)
    taken = np.concatenate([[0.0], np.cumsum((current[1:] + current[:-1]) / 2 * steps)])
    power = voltage * current
    energy = np.concatenate([[0.0], np.cumsum((power[1:] + power[:-1]) / 2 * steps)])
    # charge taken between the row at rest and the first under load: the current came on somewhere between
    before = test.charge.value - float(taken[-1]) - _after(one, test)
    warm = None if log.temperature is None else float(np.mean(log.temperature[part]))
    relative = test.charge.standard_uncertainty / test.charge.value
    return LogCurve(
        start.value - (before + taken) / whole.value,
        voltage,
        current,
        energy,
        warm,
        start.standard_uncertainty,
        relative,
    )


def _after(one: LoggedTest, test: DischargeTest) -> float:
    """Return the charge of the edge after the last row under load, half of a rectangle."""
    log, last = one.log, test.last
    if last + 1 >= len(log):
        return 0.0
    step = float(log.time[last + 1] - log.time[last])
    usual = float(np.median(np.diff(log.time[test.first : last + 1])))
    from_edge = abs(float(log.current[last]) + float(log.current[last + 1])) / 2 * step
    return from_edge if step <= GAP * usual else 0.0
