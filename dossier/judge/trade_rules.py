"""Rules of thumb of the trade, each common practice without a source: what is said, what the formulas of this
tool make of the same numbers, and within which band a serial bears it out. Data only; all in SI."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import inf

from dossier.compute.energy import endurance
from dossier.compute.life import Use, after
from dossier.compute.life_by_rate import MODELS, gentle_over_hard
from dossier.judge.identities_of_battery import (
    CELL_FULL,
    CELL_LOW,
    CELL_MIDDLE,
    Marks,
    series_count_claim,
)
from dossier.judge.identities_of_energy import PETROL_DENSITY
from dossier.judge.identity_bands import BANDS

Range = tuple[float, float]
HOUR, YEAR, KWH = 3600.0, 365 * 86400.0, 3.6e6
SERIES = 18
"""In series, of the pack whose marks are said."""
ENERGY, SUSTAIN, CLIMB, CLIMB_TIME = 6.7 * KWH, 3e3, 15e3, 120.0
"""Two minutes stand for a short climb (own)."""
POUND, US_GALLON = 0.45359237, 3.785411784e-3
CYCLES, CYCLE_TIME, FLOWN = 800.0, 2 * HOUR, 100 * HOUR
"""An ordinary owner flies less than 100 hours a year (common practice, no source)."""
HALF = 67.0
HALF_BAND = (SERIES * CELL_MIDDLE[0], 2 * HALF - SERIES * CELL_MIDDLE[0])
"""About what is said, down to the lowest of the cells that a half is looked for in."""
GENTLE, HARD = 0.5, 3.0
"""Capacities an hour of a discharge in two hours and in twenty minutes."""
MANY = 2.0
"""Times as many: what "many more" begins with (own)."""
ORDINARY = Use(50, 0.1, 0.95, 0.9, 293.15)
"""Fifty flights a year, kept charged at 20 °C: an owner who does not store it half full."""


@dataclass(frozen=True)
class TradeRule:
    """One of them."""

    key: str
    """Also the name of the serial's own number."""
    says: str
    said: Range
    """The number of the rule; both ends alike where it is one."""
    style: str
    band: Range
    """Within which a number bears the rule out."""
    basis: str
    """Of the band."""
    formula: Callable[[], Range]
    """The same numbers through the formulas of this tool."""
    how: str
    """What the formulas did."""


def _marks(cell: Range) -> Callable[[], Range]:
    return lambda: (SERIES * cell[0], SERIES * cell[1])


def _series() -> Range:
    counts = series_count_claim(Marks(full=76.0, middle=67.0, low=54.0)).candidates
    return float(min(counts)), float(max(counts))


def _whole_flight() -> Range:
    time = endurance(ENERGY, [CLIMB * CLIMB_TIME], SUSTAIN) + CLIMB_TIME
    return time * SUSTAIN / ENERGY, time * SUSTAIN / ENERGY


def _alike(value: float) -> Callable[[], Range]:
    return lambda: (value, value)


def _cycles_by_rate() -> Range:
    found = zip(MODELS, gentle_over_hard(GENTLE, HARD), strict=True)
    known = [times for model, times in found if times is not None and model.key != "no_rate"]
    return min(known), max(known)


def _remaining() -> Range:
    return capacity_left(7.0)[0], capacity_left(8.0)[1]


def capacity_left(years: float) -> Range:
    """Return the part of the capacity left by the models of ageing; below where they end, from nothing."""
    aged = after(ORDINARY, years)
    return aged.worst_health or 0.0, aged.best_health or 0.0


TRADE_RULES: tuple[TradeRule, ...] = (
    TradeRule(
        "series_of_marks", "Full at 76 V, half at 67 V, empty at 54 V: 18 in series", (18.0, 18.0), "count",
        (18.0, 18.0), "the count that all three marks allow", _series, "cells in series that the marks allow",
    ),
    TradeRule(
        "full_of_18", "18 in series read about 76 V when full", (76.0, 76.0), "voltage",
        _marks(CELL_FULL)(), "18 cells at rest of 4.05 to 4.25 V (own)", _marks(CELL_FULL), "18 such cells",
    ),
    TradeRule(
        "half_of_18", "and about 67 V at half", (HALF, HALF), "voltage",
        HALF_BAND, "as far above 67 V as 18 cells of 3.55 V lie below it (own)", _marks(CELL_MIDDLE),
        "18 cells at rest of 3.55 to 3.75 V (own)",
    ),
    TradeRule(
        "empty_of_18", "and 54 V when empty", (54.0, 54.0), "voltage",
        _marks(CELL_LOW)(), "18 cells of 2.5 to 3.3 V (own)", _marks(CELL_LOW), "18 such cells",
    ),
    TradeRule(
        "flight_of_quotient",
        "6.7 kWh at 3 kW give a little over two hours, a short climb at 15 kW included: nine tenths of the "
        "plain quotient and more",
        (2.0 * HOUR * SUSTAIN / ENERGY, 2.25 * HOUR * SUSTAIN / ENERGY), "ratio",
        (2.0 * HOUR * SUSTAIN / ENERGY, 2.25 * HOUR * SUSTAIN / ENERGY),
        "two hours to two and a quarter (own): time in the air over nameplate energy by level power",
        _whole_flight,
        "a climb of two minutes, then level flight on the rest",
    ),
    TradeRule(
        "sustain_share", "Sustaining takes about a fifth of take-off power", (0.2, 0.2), "ratio",
        BANDS["sustain_share"].sound, "about a fifth: an eighth to a third (own)", _alike(SUSTAIN / CLIMB),
        "3 kW over 15 kW",
    ),
    TradeRule(
        "half_pack", "A half-filled box gives about half the endurance", (0.5, 0.5), "ratio",
        BANDS["half_pack"].sound, "own: runs of the discharge model, and a little more where it is lighter",
        _alike((0.5 * ENERGY - CLIMB * CLIMB_TIME) / (ENERGY - CLIMB * CLIMB_TIME)),
        "6.7 kWh and half of them, two minutes at 15 kW taken from both",
    ),
    TradeRule(
        "petrol", "Five US gallons of petrol weigh about 30 lb", (30 * POUND, 30 * POUND), "mass",
        (0.9 * 30 * POUND, 1.1 * 30 * POUND), "a tenth either way", _alike(5 * US_GALLON * PETROL_DENSITY),
        "0.72 kg/L, which was read",
    ),
    TradeRule(
        "cycles_by_rate", "Discharged over two hours a pack lives many more cycles than in minutes",
        (MANY, inf), "rate", (MANY, inf), "twice as many and more (own)", _cycles_by_rate,
        "two hours over twenty minutes, models with a term of the rate that were tested at both",
    ),
    TradeRule(
        "cycles_in_years", "800 cycles of two hours outlast 7 to 8 years", (8 * YEAR, inf), "years",
        (8 * YEAR, inf), "longer than 8 years", _alike(CYCLES * CYCLE_TIME / FLOWN * YEAR),
        "1600 hours at 100 hours a year",
    ),
    TradeRule(
        "remaining", "After 7 to 8 years 50 to 60 % of the capacity may remain", (0.5, 0.6), "ratio",
        (0.5, 0.6), "as said", _remaining,
        "published models, 50 flights a year, kept at 90 % and 20 °C; they end at 70 %",
    ),
)  # fmt: skip
