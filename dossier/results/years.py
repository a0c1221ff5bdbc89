"""The years of a battery in the stated use, as a range; what comes first; charging."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dossier.compute import charging
from dossier.compute.life import AgedYear, LifeEnd, LifeLimits, Use, after, ends_of_life, why_not_second
from dossier.compute.life_by_rate import MODELS, at_rate, gentle_over_hard, mean_rate
from dossier.figures import OutsideRange
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.aircraft import Use as StatedUse
from dossier.model.battery import Battery
from dossier.results.cell_model import CellModel
from dossier.results.discharge import Modelled
from dossier.results.flight_case import Condition, FlightCase
from dossier.results.level_flight import level_times

YEARS = (0.0, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0)
LIMITS = LifeLimits(health=0.8, growth=2.0)
"""Capacity at 80 %, resistance doubled: common practice, no source. The builder's own limit of capacity goes
before it."""
AGEING_CHEMISTRY = "lithium-nmc"
"""Of the models of ageing."""
GENTLE, HARD = 7200.0, 1200.0
"""Times in s in which a whole battery is discharged, whose cycles are compared: two hours and twenty minutes
(common practice, no source: over two hours it lives many more cycles than when discharged in minutes)."""
TIMES = (GENTLE, 3600.0, 1800.0, HARD)
MODEL_KEYS = tuple(model.key for model in MODELS)
"""Names of the models, in the order of the cycles of a :class:`RateRow`."""
LAST_CURRENT = 0.05
"""Current at which the charger stops, over the nominal capacity in an hour (common practice, no source)."""


@dataclass(frozen=True)
class YearRow:
    """One year. Health as parts of the nominal capacity; None: below what models speak of."""

    year: float
    likely: float | None
    worst: float | None
    best: float | None
    growth: float
    """Of resistance, likely."""
    worst_growth: float
    best_growth: float
    lasts: tuple[float | None, float | None]
    """Level flight in s with the heaviest pilot, the whole profile flown: worst and best."""
    second: float | None = None
    """Health by the second model; None where it is not asked, or below what models speak of."""


@dataclass(frozen=True)
class RateRow:
    """Full cycles to 80 % by use alone, at one rate."""

    time: float | None
    """In which the whole battery is discharged, in s; None: the mean of the stated use."""
    rate: float
    """In capacities an hour."""
    cycles: tuple[float | None, ...]
    """By each of :data:`dossier.compute.life_by_rate.MODELS`; None where it lies outside the tests."""


@dataclass(frozen=True)
class RateEffect:
    """What the rate of the discharge does to the number of cycles."""

    rows: tuple[RateRow, ...]
    """The slowest first."""
    times: tuple[float | None, ...]
    """Cycles at :data:`GENTLE` over those at :data:`HARD`, by each model; None where it has no answer."""
    left_out: str
    """Why the second model is not in the years; empty where it is."""


@dataclass(frozen=True)
class ChargingPlan:
    """From where a flight usually ends to where one begins, in s and J."""

    bulk_time: float
    taper_time: float
    energy: float
    end: float
    """State of charge at which the charger stops."""


@dataclass(frozen=True)
class Years:
    """The years of one battery from new, and its charging; words where there is no answer."""

    option: str
    rows: tuple[YearRow, ...]
    ends: tuple[LifeEnd, ...]
    charging: ChargingPlan | None
    words: tuple[str, ...]
    limits: LifeLimits = LIMITS
    pilot: float | None = None
    """Mass in kg of the heaviest pilot, with whom level flight is flown; None where no flight can be."""
    rates: RateEffect | None = None
    """None where no years are estimated."""


@dataclass(frozen=True)
class BatteryYears:
    """All batteries of one aircraft."""

    years: tuple[Years, ...] = ()
    findings: tuple[Finding, ...] = ()
    storage_is_usual: bool | None = None
    """Whether the stated state of charge in storage is in the usual band; None where no use is stated."""


def battery_years(modelled: Modelled, aircraft: Aircraft, battery: Battery) -> BatteryYears:
    """Estimate the years of each battery whose record states a use and a model of ageing."""
    stated = aircraft.use
    if stated is None:
        return BatteryYears()
    cases: dict[str, list[FlightCase]] = {}
    for case in modelled.cases:
        cases.setdefault(case.flight.option, []).append(case)
    made = tuple(
        _years(model, cases.get(model.result.option, []), stated, battery, _limits(aircraft))
        for model in modelled.models
    )
    low, high = charging.STORAGE
    usual = low <= stated.storage_charge.value <= high
    return BatteryYears(made, () if usual else (_storage(stated),), usual)


def _storage(stated: StatedUse) -> Finding:
    low, high = (f"{100 * end:.0f} %" for end in charging.STORAGE)
    fault = f"the battery is stored at {stated.storage_charge.text}, outside the usual {low} to {high}"
    return Finding(
        "D005",
        fault,
        "store it about half full; a full battery ages fastest",
        stated.storage_charge.place,
        Severity.NOTE,
    )


def _years(
    model: CellModel, cases: Sequence[FlightCase], stated: StatedUse, battery: Battery, limits: LifeLimits
) -> Years:
    heaviest = cases[-1] if cases else None
    words: list[str] = []
    rows: tuple[YearRow, ...] = ()
    ends: tuple[LifeEnd, ...] = ()
    rates: RateEffect | None = None
    if model.cell.ageing_model is None:
        words.append("The record names no model of ageing for this cell: no years are estimated.")
    elif model.cell.chemistry != AGEING_CHEMISTRY:
        words.append("The model of ageing that the record names is one of NMC cells: no years are estimated.")
    else:
        use = _use(stated)
        try:
            rows = _rows([after(use, year) for year in YEARS], heaviest)
            ends = ends_of_life(use, limits)
            rates = _rates(use)
        except OutsideRange as error:
            rows, ends, rates = (), (), None
            words.append(f"The years cannot be estimated: {error}.")
    plan = None
    try:
        plan = _charging(model, stated, battery)
    except OutsideRange as error:
        words.append(f"The time of charging cannot be computed: {error}.")
    pilot = heaviest.flight.pilot if heaviest else None
    return Years(model.result.option, rows, ends, plan, tuple(words), limits, pilot, rates)


def _use(stated: StatedUse) -> Use:
    """Return the use; its rate is the mean over the time in the air."""
    before, left = stated.charge_before_flight.value, stated.charge_after_flight.value
    try:
        rate = mean_rate((before - left) * stated.flights_per_year, stated.hours_per_year.value)
    except OutsideRange:
        rate = None
    return Use(
        float(stated.flights_per_year), left, before,
        stated.storage_charge.value, stated.storage_temperature.value, rate,
    )  # fmt: skip


def _rates(use: Use) -> RateEffect:
    rates: list[tuple[float | None, float]] = [(time, mean_rate(1.0, time)) for time in TIMES]
    if use.rate is not None:
        rates.append((None, use.rate))
    rows = (RateRow(time, rate, at_rate(rate).cycles) for time, rate in rates)
    gentle, hard = (mean_rate(1.0, time) for time in (GENTLE, HARD))
    return RateEffect(
        tuple(sorted(rows, key=lambda row: row.rate)), gentle_over_hard(gentle, hard), why_not_second(use)
    )


def _rows(aged: Sequence[AgedYear], case: FlightCase | None) -> tuple[YearRow, ...]:
    """Fly each year twice: the worst battery, where the models speak of it, and the best."""
    ends = [
        Condition(health, growth)
        for one in aged
        for health, growth in ((one.worst_health, one.worst_growth), (one.best_health, one.best_growth))
        if health is not None
    ]
    flown = dict(zip(ends, level_times(case, ends), strict=True)) if case else {}

    def lasts(health: float | None, growth: float) -> float | None:
        return None if health is None else flown.get(Condition(health, growth))

    return tuple(
        YearRow(
            one.year,
            one.health,
            one.worst_health,
            one.best_health,
            one.growth,
            one.worst_growth,
            one.best_growth,
            (lasts(one.worst_health, one.worst_growth), lasts(one.best_health, one.best_growth)),
            one.second_health,
        )
        for one in aged
    )


def _limits(aircraft: Aircraft) -> LifeLimits:
    """Return the ends of life, with the capacity at which the builder retires a battery."""
    name = aircraft.use.retirement_limit if aircraft.use else None
    return LIMITS if name is None else replace(LIMITS, health=aircraft.limits[name].value.value)


def _charging(model: CellModel, stated: StatedUse, battery: Battery) -> ChargingPlan:
    charger, cells = battery.charger, model.shape.cells
    how = charging.Charge(
        charger.power.value * charger.efficiency.value / cells,
        model.option.full_cell_voltage.value,
        LAST_CURRENT * model.circuit.capacity / charging.HOUR,
        stated.charge_after_flight.value,
    )
    done = charging.charge(model.circuit, how)
    return ChargingPlan(done.bulk_time, done.taper_time, done.energy * cells, done.end)
