"""What the log of a cure comes to, and whether it can be trusted: gaps, a clock that steps, units that
are off, a sensor that stands still."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from dossier import units
from dossier.cure_log import Column, CureRun
from dossier.findings import Finding, Place, Severity

GAP = 5.0
"""Times the usual distance of rows: a longer one is a gap, in which nothing is counted (source practice)."""
LEAST_WINDOW = 600.0
"""In s: the rate of heating is a mean over at least this long, or a last digit would be a rate (source
practice)."""
STILL_ROWS = 20
STILL_SHARE = 0.5
"""A sensor that does not move over so many rows, and so much of its log, may be stuck (source practice)."""
ROOM = (233.15, 523.15)
"""In K: beyond it no workshop and no oven for a resin of this trade lies (source practice)."""


@dataclass(frozen=True)
class CureFigures:
    """What a log comes to, in SI."""

    time: float
    """How long it was at the lowest temperature or above, gaps left out."""
    lowest: float | None
    """The lowest value between the first and the last row that is so warm; None if no row is."""
    highest: float
    """Of the whole log."""
    heating: float
    """The fastest rise, as a mean over :data:`LEAST_WINDOW` or the whole log."""


def cure_figures(run: CureRun, lowest: float) -> CureFigures:
    """Evaluate a log whose clock runs forward.

    Between two rows the temperature is taken for a straight line, so that a row on either side of the limit
    counts by its part. Source: common practice, no source.

    Args:
        run: the log, two rows or more.
        lowest: in K, the temperature from which on time counts.
    """
    warm = np.flatnonzero(run.temperature >= lowest)
    return CureFigures(
        time_above(run, lowest),
        float(run.temperature[warm[0] : warm[-1] + 1].min()) if len(warm) else None,
        float(run.temperature.max()),
        fastest_rise(run),
    )


def time_above(run: CureRun, lowest: float) -> float:
    """Return the time in s at a temperature or above, without what lies in a gap."""
    steps = np.diff(run.time)
    before, after = run.temperature[:-1], run.temperature[1:]
    low, high = np.minimum(before, after), np.maximum(before, after)
    span = np.where(high > low, high - low, 1.0)
    share = np.where(low >= lowest, 1.0, np.clip((high - lowest) / span, 0.0, 1.0))
    return float(np.sum(np.where(_gaps(steps), 0.0, steps * share)))


def fastest_rise(run: CureRun) -> float:
    """Return the fastest rise in K/s as a mean over ten minutes or a little more; zero if it only falls."""
    ends = np.searchsorted(run.time, run.time + LEAST_WINDOW)
    starts = np.flatnonzero(ends < len(run.time))
    if not len(starts):
        starts, ends = np.array([0]), np.array([len(run.time) - 1])
    last = ends[starts]
    rates = (run.temperature[last] - run.temperature[starts]) / (run.time[last] - run.time[starts])
    return max(0.0, float(rates.max()))


def _gaps(steps: Column) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    return np.asarray(steps > GAP * float(np.median(steps)))


def cure_clock_findings(run: CureRun) -> Iterator[Finding]:
    """Tell each row whose time does not follow the one before; such a log is refused."""
    for row in np.flatnonzero(np.diff(run.time) <= 0):
        before, after = run.time[row], run.time[row + 1]
        word = "stands still" if after == before else "goes back"
        yield Finding(
            "L003",
            f"the clock {word}: {after:g} s follows {before:g} s",
            "leave out the rows of the restart, or take the log of one cure",
            run.place(int(row) + 1),
        )


def cure_doubts(run: CureRun, lowest: float, highest: float) -> Iterator[Finding]:
    """Tell gaps, values that fit another unit, and a sensor that stands still.

    Args:
        run: the log.
        lowest: in K, of the cure that is due.
        highest: in K, of the same.
    """
    steps = np.diff(run.time)
    usual = float(np.median(steps))
    for row in np.flatnonzero(_gaps(steps)):
        fault = f"no row for {steps[row]:g} s, where rows usually are {usual:g} s apart; it is not counted"
        yield _doubt("L004", fault, "show by another log that the temperature held", run.place(int(row) + 1))
    yield from _unit(run, lowest, highest)
    yield from _still(run)


def _unit(run: CureRun, lowest: float, highest: float) -> Iterator[Finding]:
    low, high = float(run.temperature.min()), float(run.temperature.max())
    factor, offset = units.scale("temperature", run.unit)
    number = (high - offset) / factor
    fits = [
        other
        for other in ("°C", "°F", "K")
        if other != run.unit and lowest <= _in_si(number, other) <= highest
    ]
    if not (ROOM[0] <= low and high <= ROOM[1]) or (high < lowest and fits):
        guess = f" to {fits[0]}" if fits else ""
        yield _doubt(
            "L005",
            f"the log reaches {number:.4g} {run.unit}, which is no temperature of this cure",
            f"correct the unit in the heading{guess}, or show that the mould was so",
            run.place(0),
        )


def _in_si(number: float, unit: str) -> float:
    factor, offset = units.scale("temperature", unit)
    return number * factor + offset


def _still(run: CureRun) -> Iterator[Finding]:
    """Find the longest run of rows with one value."""
    moves = np.flatnonzero(np.diff(run.temperature) != 0)
    borders = np.concatenate(([-1], moves, [len(run.temperature) - 1]))
    longest = int(np.argmax(np.diff(borders)))
    first, rows = int(borders[longest]) + 1, int(np.diff(borders)[longest])
    if rows >= STILL_ROWS and rows > STILL_SHARE * len(run.temperature):
        yield _doubt(
            "L013",
            f"the temperature stands still over {rows} of {len(run.temperature)} rows",
            "look whether the sensor was plugged in, and show it by another one or with a digit more",
            run.place(first),
        )


def _doubt(code: str, fault: str, remedy: str, place: Place) -> Finding:
    return Finding(code, fault, remedy, place, Severity.WARNING)
