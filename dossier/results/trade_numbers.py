"""What one serial has to say to the rules of thumb of the trade: a number from its figures, or what is
missing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from dossier.compute.life_by_rate import MODELS, at_rate, mean_rate
from dossier.figures import Figure
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.results.energy import Energy
from dossier.results.part_filled import PartFilled
from dossier.results.years import HARD, BatteryYears, Years

HOURS = 1600.0 * 3600.0
"""Of 800 cycles of two hours."""
YEAR = 365 * 86400.0
SERIES = 18
NO_FLIGHT = "no flight of the profile can be computed"
NO_USE = "the type states no use (use: in aircraft.yaml)"
NO_YEARS = (
    "no years of this battery are estimated: it needs a use of the type and a model of ageing of the cell"
)


@dataclass(frozen=True)
class TradeNumber:
    """A number in SI, or the ends of a range; with ``missing`` there is none."""

    key: str
    low: float = 0.0
    high: float = 0.0
    words: str = ""
    figure: str = ""
    missing: str = ""


@dataclass(frozen=True)
class Serial:
    """What the numbers are taken from. ``option`` is the battery that they are about."""

    option: str
    aircraft: Aircraft
    battery: Battery
    figures: Mapping[str, Figure]
    energy: Energy | None
    filled: PartFilled
    years: BatteryYears


def trade_numbers(of: Serial) -> tuple[TradeNumber, ...]:
    """Give a number, or what is missing, for each rule of thumb."""
    return (
        *_marks(of),
        _flight(of),
        _sustain(of),
        _half(of),
        TradeNumber(
            "petrol", missing="nothing in the record holds petrol: only the formula stands beside it"
        ),
        _cycles_by_rate(of),
        _hours(of),
        _remaining(of),
    )


def _marks(of: Serial) -> Iterator[TradeNumber]:
    series = of.battery.options[of.option].series
    for key, short, words in (
        ("full_of_18", "full_voltage", "full"),
        ("half_of_18", "half_voltage", "at half"),
        ("empty_of_18", "empty_voltage", "where flying stops"),
    ):
        figure = of.figures.get(f"{short}.{of.option}")
        if figure is None:
            yield TradeNumber(key, missing="the rest voltage of this battery is not known")
        else:
            volts = figure.value / series * SERIES
            said = f"18 of its cells at rest, {words}: it has {series} in series"
            yield TradeNumber(key, volts, volts, said, figure.name)
    yield TradeNumber(
        "series_of_marks",
        missing=f"this battery has {series} in series, and its marks stand in the lines below",
    )


def _flight(of: Serial) -> TradeNumber:
    key, flights = "flight_of_quotient", of.energy.flights if of.energy else ()
    flight = next((one for one in flights if one.endurance.name == f"endurance.{of.option}"), None)
    stored = of.figures.get(f"nameplate_energy.{of.option}")
    if flight is None or stored is None:
        return TradeNumber(key, missing=NO_FLIGHT)
    flown = sum(
        row.duration for row in flight.rows if not row.kept and not row.is_open and row.kind != "ground"
    )
    share = (flown + flight.without_reserve.value) * flight.cruise.value / stored.value
    words = "time in the air, reserve used up, heaviest pilot, over nameplate energy by level power"
    return TradeNumber(key, share, share, words, flight.without_reserve.name)


def _sustain(of: Serial) -> TradeNumber:
    figure = of.figures.get(f"level_power.{of.option}")
    if figure is None:
        return TradeNumber("sustain_share", missing=NO_FLIGHT)
    share = figure.value / of.aircraft.propulsion.maximum_power.value
    words = "power that keeps height with the heaviest pilot, over that of full throttle"
    return TradeNumber("sustain_share", share, share, words, figure.name)


def _half(of: Serial) -> TradeNumber:
    half = of.filled.half
    if half is None:
        return TradeNumber("half_pack", missing=of.filled.why or "the largest battery has one string")
    largest = of.filled.fillings[0]
    said = f"{half.name} with {half.strings} of {half.of} strings, "
    by_model, by_energy = half.share_modelled(largest), half.share_by_energy(largest)
    if by_model is not None:
        return TradeNumber("half_pack", by_model, by_model, f"{said}by the discharge model")
    if by_energy is not None:
        words = f"{said}by the energy; by the discharge model there is no answer: {half.why or largest.why}"
        return TradeNumber("half_pack", by_energy, by_energy, words)
    return TradeNumber("half_pack", missing=f"{said}cannot fly the profile: {half.why}")


def _cycles_by_rate(of: Serial) -> TradeNumber:
    years = _years_of(of)
    own = next((row for row in years.rates.rows if row.time is None), None) if years and years.rates else None
    if own is None:
        return TradeNumber("cycles_by_rate", missing=NO_YEARS)
    hard = at_rate(mean_rate(1.0, HARD)).cycles
    times = [
        slow / fast
        for model, slow, fast in zip(MODELS, own.cycles, hard, strict=True)
        if model.key != "no_rate" and slow is not None and fast is not None
    ]
    if not times:
        return TradeNumber(
            "cycles_by_rate",
            missing="no model with a term of the rate was tested at the rate of the stated use",
        )
    words = f"cycles at the mean rate of the stated use, {own.rate:.2f} 1/h, over those in 20 minutes"
    return TradeNumber("cycles_by_rate", min(times), max(times), words)


def _hours(of: Serial) -> TradeNumber:
    if of.aircraft.use is None:
        return TradeNumber("cycles_in_years", missing=NO_USE)
    flown = of.aircraft.use.hours_per_year
    years = HOURS / flown.value * YEAR
    return TradeNumber("cycles_in_years", years, years, f"1600 hours at the stated {flown.text} a year")


def _years_of(of: Serial) -> Years | None:
    return next((one for one in of.years.years if one.option == of.option), None)


def _remaining(of: Serial) -> TradeNumber:
    years = _years_of(of)
    row = next((one for one in years.rows if one.year == 7.0), None) if years else None
    if row is None:
        return TradeNumber("remaining", missing=NO_YEARS)
    open_below = "" if row.worst is not None else "; the lower end lies below 70 %, where no model speaks"
    words = f"published models after 7 years of the stated use{open_below}"
    return TradeNumber("remaining", row.worst or 0.0, row.best or 0.0, words)
