"""What a log of a discharge shows: capacity, energy, resistance from steps, spread of the cells, each with
its doubt."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dossier.battery_log import BatteryLog, Column
from dossier.compute.log_instruments import Instruments, Measured
from dossier.compute.log_orientation import IDLE, Oriented, orient
from dossier.compute.log_quality import (
    GAP,
    PackUnderTest,
    agreement_findings,
    clock_findings,
    gap_findings,
    unit_findings,
)
from dossier.compute.log_spread import Spread, rest_spread, widest_spread
from dossier.compute.log_steps import ResistanceStep, resistance_steps
from dossier.findings import Finding, in_order

EDGE = 0.1
"""Of the largest current: a greater change between two rows is an edge, and when it came is not known."""


@dataclass(frozen=True)
class DischargeTest:
    """The discharge in a log, of the pack, in SI."""

    first: int
    last: int
    charge: Measured
    energy: Measured
    time: float
    mean_current: float
    rest_voltage: float | None
    """Before the load, if the log begins there."""
    last_voltage: float
    """In the last row under load."""
    coldest: float | None
    hottest: float | None
    spread_at_rest: Spread | None
    """In the last row of rest before the load, else after it."""
    spread_under_load: Spread | None
    """The largest."""
    steps: tuple[ResistanceStep, ...]


@dataclass(frozen=True)
class LogAnalysis:
    """The test, if the log holds one, and everything that was found."""

    test: DischargeTest | None
    findings: tuple[Finding, ...]


def analyse(
    log: BatteryLog,
    pack: PackUnderTest,
    *,
    instruments: Instruments | None = None,
    discharge_is_positive: bool | None = None,
) -> LogAnalysis:
    """Look into a log of one discharge.

    Args:
        log: as read.
        pack: what was tested.
        instruments: their uncertainties; usual ones if left out.
        discharge_is_positive: the declared sign of the current.

    Returns:
        charge and energy by straight lines between the rows, first to last row under load and the rows beside
        them. An edge between two rows may lie anywhere between: it adds half of its area, divided by the root
        of three. Valid for one discharge, with or without rests; charging in between makes no test. Source:
        derived; JCGM 100, 4.3.7.
    """
    clock = tuple(clock_findings(log))
    if clock:
        return LogAnalysis(None, in_order(clock))
    oriented = orient(log, discharge_is_positive)
    if isinstance(oriented, Finding):
        return LogAnalysis(None, (oriented,))
    charged = _charged_between(oriented)
    if charged is not None:
        return LogAnalysis(None, in_order([*oriented.findings, charged]))
    test = _test(oriented, instruments or Instruments())
    return LogAnalysis(test, in_order([
        *oriented.findings,
        *gap_findings(oriented),
        *unit_findings(oriented, pack, test.charge.value),
        *agreement_findings(oriented, test.charge.value),
    ]))  # fmt: skip


def _charged_between(oriented: Oriented) -> Finding | None:
    log = oriented.log
    inside = log.current[oriented.first : oriented.last + 1]
    back = np.flatnonzero(inside < -IDLE * np.abs(log.current).max())
    if not len(back):
        return None
    fault = "the battery is charged between two parts of the discharge"
    return Finding(
        "L007", fault, "keep the log of one discharge in one file", log.place(oriented.first + int(back[0]))
    )


def _test(oriented: Oriented, instruments: Instruments) -> DischargeTest:
    log, first, last = oriented.log, oriented.first, oriented.last
    begin, end = max(first - 1, 0), min(last + 1, len(log) - 1)
    # the rows around the load count only if the load came on and went off there, not before or after a night
    usual = float(np.median(np.diff(log.time[first : last + 1]))) if last > first else 0.0
    begin = begin if log.time[first] - log.time[begin] <= GAP * usual else first
    end = end if log.time[end] - log.time[last] <= GAP * usual else last
    part = slice(begin, end + 1)
    time, current, power = log.time[part], log.current[part], (log.current * log.voltage)[part]
    under_load = slice(first, last + 1)
    warm = log.temperature[part] if log.temperature is not None else None
    gain = np.hypot(instruments.current_gain, instruments.clock)
    span = float(time[-1] - time[0])
    charge = _integral(current, time, float(gain), instruments.current_offset * span)
    offset = instruments.current_offset * span * float(np.mean(log.voltage[under_load]))
    return DischargeTest(
        first, last,
        charge=charge,
        energy=_integral(power, time, float(np.hypot(gain, instruments.voltage_gain)), offset),
        time=span,
        mean_current=charge.value / span if span else 0.0,
        rest_voltage=float(log.voltage[first - 1]) if first else None,
        last_voltage=float(log.voltage[last]),
        coldest=None if warm is None else float(warm.min()),
        hottest=None if warm is None else float(warm.max()),
        spread_at_rest=rest_spread(log, first, last),
        spread_under_load=widest_spread(log, first, last),
        steps=resistance_steps(log, instruments),
    )  # fmt: skip


def _integral(values: Column, time: Column, gain: float, offset: float) -> Measured:
    change, step = np.abs(np.diff(values)), np.diff(time)
    edges = change > EDGE * np.abs(values).max()
    doubt = (change * step / 2 / np.sqrt(3))[edges]
    value = float(np.trapezoid(values, time))
    return Measured(value, float(np.sqrt((gain * value) ** 2 + offset**2 + (doubt**2).sum())))
