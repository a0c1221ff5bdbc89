"""The years of a battery in a stated use: capacity with its band, resistance, run time, and which limit comes
first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from dossier.compute import ageing
from dossier.compute.ageing_by_rate import blended_calendar_loss, blended_cycling_loss
from dossier.compute.bounds import positive
from dossier.compute.cell import Cell
from dossier.compute.discharge import Discharges, discharge
from dossier.compute.pack_state import GROWTH_PER_LOSS
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange, formula

YEAR = 365 * ageing.DAY
"""As the published examples count it."""
CALENDAR_BAND = (0.74, 4.15)
"""Loss in storage of four NMC models over that of the one used here (source blast-lite): 2.3 to 9.9 % against
2.4 % after a year at 25 °C and half charge, 5.9 to 32.6 % against 8.0 % after five."""
CYCLING_BAND = (0.115, 1.0)
"""Loss by use, likewise: 1.5 to 12.6 % against 13.1 % after 300 cycles from 10 to 90 %: the model used is the
strictest."""
CELL_IN_USE = 298.15
"""25 °C, at which the second model is asked for the loss by use: that of the first has no temperature."""
LARGEST_LOSS = 0.30
"""Where tests of life end, and all models with them (source practice)."""
LONGEST = 40
"""Years; a limit that is not reached by then is not told."""


@dataclass(frozen=True)
class Use:
    """How the battery is used, year after year."""

    cycles: float
    """A year, through the window."""
    low: float
    high: float
    """The window of charge that a flight uses."""
    storage_charge: float
    storage_temperature: float
    """In K, the mean over the year."""
    rate: float | None = None
    """Mean of the discharge, in capacities an hour; None: not known, and the second model is left out."""


@dataclass(frozen=True)
class AgedYear:
    """The battery after some years. A health of None is below :data:`LARGEST_LOSS`, where no model speaks."""

    year: float
    health: float | None
    worst_health: float | None
    best_health: float | None
    growth: float
    """Of resistance, by the model."""
    worst_growth: float
    """At the upper end of the published range, for the worst health or, beyond the models, for their last."""
    best_growth: float
    """At the lower end, for the best health."""
    second_health: float | None = None
    """By the second model, with a term of the rate; None where it is not asked, or below the largest loss."""


@formula
def health_left(dH_cal: float, dH_cyc: float) -> float:
    r"""Capacity that is left after losses in storage and by use.

    Formula: H = 1 - \Delta H_{cal} - \Delta H_{cyc}
    Result: H
    Valid: a loss of up to 0.3, where tests of life end
    Source: schmalstieg-2014, sum of both parts
    """
    return _not_below(1 - dH_cal - dH_cyc)


@formula
def health_by_spread(dH_cal: float, dH_cyc: float, k_cal: float, k_cyc: float) -> float:
    r"""Capacity that is left by another of the published models: its losses over those of the one used here.

    Formula: H = 1 - k_{cal} \, \Delta H_{cal} - k_{cyc} \, \Delta H_{cyc}
    Result: H
    Valid: a loss of up to 0.3, where tests of life end
    Source: blast-lite, spread of four models of NMC cells
    """
    return _not_below(1 - k_cal * dH_cal - k_cyc * dH_cyc)


@formula
def growth_in_years(dG_cal: float, dG_cyc: float) -> float:
    r"""Resistance of that when new, after growth in storage and by use.

    Formula: G = 1 + \Delta G_{cal} + \Delta G_{cyc}
    Result: G
    Valid: as for its parts
    Source: schmalstieg-2014, sum of both parts
    """
    return 1 + dG_cal + dG_cyc


def _not_below(health: float) -> float:
    if health < 1 - LARGEST_LOSS:
        raise OutsideRange(f"the health would be {health:.4g}, and no model speaks below 0.7")
    return health


def after(use: Use, year: float) -> AgedYear:
    """Return the state after a number of years.

    Raises:
        OutsideRange: the use is outside the model, or the years are negative.
    """
    calendar, cycling = losses(use, year)
    stored, window = ageing.storage_voltage(use.storage_charge), ageing.window_voltage(use.low, use.high)
    growth = (
        1
        + ageing.calendar_growth(stored, use.storage_temperature, year * YEAR)
        + ageing.cycling_growth(window, use.high - use.low, use.cycles * year)
    )
    second = second_loss(use, year)
    best, worst = _extremes(calendar, cycling, second)
    least, most = _grown(best, worst)
    return AgedYear(
        year, _health(calendar + cycling), _health(worst), _health(best),
        growth, max(most, growth), min(least, growth),
        None if second is None else _health(second),
    )  # fmt: skip


def _extremes(calendar: float, cycling: float, second: float | None) -> tuple[float, float]:
    """Return the smallest and the largest loss of the models: the band of the first, and the second."""
    best, worst = (CALENDAR_BAND[side] * calendar + CYCLING_BAND[side] * cycling for side in (0, 1))
    return (best, worst) if second is None else (min(best, second), max(worst, second))


def _grown(best: float, worst: float) -> tuple[float, float]:
    """Return the ends of the growth of resistance that belong to the smallest and the largest loss."""
    low, high = GROWTH_PER_LOSS
    return 1 + low * min(best, LARGEST_LOSS), 1 + high * min(worst, LARGEST_LOSS)


def losses(use: Use, year: float) -> tuple[float, float]:
    """Return the capacity lost in storage and by use, each of the capacity when new.

    Raises:
        OutsideRange: as for :func:`after`.
    """
    stored = ageing.storage_voltage(use.storage_charge)
    calendar = ageing.calendar_loss(stored, use.storage_temperature, year * YEAR)
    return calendar, ageing.cycling_loss(
        ageing.window_voltage(use.low, use.high), use.high - use.low, use.cycles * year
    )


def second_loss(use: Use, year: float) -> float | None:
    """Return the loss of the second model, in storage and by use at the rate; None where it is not asked.

    Raises:
        OutsideRange: the years are negative, or the window of the use is not inside 0 to 1.
    """
    if why_not_second(use):
        return None
    assert use.rate is not None
    stored = blended_calendar_loss(use.storage_temperature, year * YEAR)
    return stored + blended_cycling_loss(CELL_IN_USE, use.rate, use.high - use.low, use.cycles * year)


def why_not_second(use: Use) -> str:
    """Say why the second model is not asked; empty where it is."""
    if use.rate is None:
        return "the rate of the discharge is not known"
    try:
        blended_calendar_loss(use.storage_temperature, 0.0)
        blended_cycling_loss(CELL_IN_USE, use.rate, 0.0, 0.0)
    except OutsideRange as error:
        return str(error)
    return ""


def _health(loss: float) -> float | None:
    return 1 - loss if loss <= LARGEST_LOSS else None


def run_times(cell: Cell, power: float, years: Sequence[AgedYear], *, wiring: float = 0.0) -> Discharges:
    """Discharge a cell at a power in W after each of the years, at 25 °C.

    Raises:
        OutsideRange: a year is beyond the model of ageing.
    """
    health = [year.health for year in years]
    if None in health:
        year = years[health.index(None)].year
        raise OutsideRange(
            f"after {year:g} years the loss is above {LARGEST_LOSS:.0%}, where no model speaks"
        )
    return discharge(
        cell,
        scenarios(
            power,
            health=np.array(health, float),
            growth=np.array([year.growth for year in years]),
            wiring=wiring,
        ),
    )


@dataclass(frozen=True)
class LifeLimits:
    """What ends the life; left out, it does not count."""

    health: float = 0.8
    growth: float | None = None
    cycles: float | None = None
    years: float | None = None


@dataclass(frozen=True)
class LifeEnd:
    """One end of life and the year in which it comes; ``earliest`` and ``latest`` where there is a band."""

    limit: str
    year: float
    earliest: float | None = None
    latest: float | None = None


def ends_of_life(use: Use, limits: LifeLimits) -> tuple[LifeEnd, ...]:
    """List the ends of life that come within :data:`LONGEST` years, the first first.

    Raises:
        OutsideRange: the use is outside the model, or the health at the end is below what it covers.
    """
    if not 1 - LARGEST_LOSS <= limits.health < 1:
        raise OutsideRange(
            f"a health of {limits.health:.3g} at the end of life is asked, and models go from 0.7 to below 1"
        )
    found = [_capacity_end(use, 1 - limits.health)]
    if limits.growth is not None:
        found.append(_resistance_end(use, limits.growth))
    if limits.cycles is not None:
        found.append(_end("cycles", limits.cycles / positive(use.cycles, "number of cycles a year")))
    if limits.years is not None:
        found.append(_end("years", limits.years))
    return tuple(sorted((end for end in found if end is not None), key=lambda end: (end.year, end.limit)))


def _end(limit: str, year: float | None) -> LifeEnd | None:
    return None if year is None or year > LONGEST else LifeEnd(limit, year)


def _resistance_end(use: Use, most: float) -> LifeEnd | None:
    likely = _year_of(lambda year: after(use, year).growth - most)
    earliest = _year_of(lambda year: after(use, year).worst_growth - most)
    latest = _year_of(lambda year: after(use, year).best_growth - most)
    return None if likely is None else LifeEnd("resistance", likely, earliest, latest)


def _capacity_end(use: Use, loss: float) -> LifeEnd | None:
    def likely(year: float) -> float:
        return sum(losses(use, year)) - loss

    def extreme(side: int) -> Callable[[float], float]:
        return lambda year: _extremes(*losses(use, year), second_loss(use, year))[side] - loss

    year = _year_of(likely)
    return None if year is None else LifeEnd("capacity", year, _year_of(extreme(1)), _year_of(extreme(0)))


def _year_of(excess: Callable[[float], float]) -> float | None:
    """Halve the years until the rising ``excess`` is 0; None if it stays below to the end."""
    low, high = 0.0, float(LONGEST)
    if excess(high) < 0:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if excess(middle) < 0 else (low, middle)
    return high
