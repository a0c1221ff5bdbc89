"""Tables of the page of performance. An obstacle stands in words, never a number."""

from __future__ import annotations

from dossier.compose.flight_comparison import not_reached
from dossier.compose.grid import Cell, Grid, columns, grid, numbers, row
from dossier.compose.printer import Printer
from dossier.compose.worked_rows import with_rows
from dossier.display import sampled_words
from dossier.results.flight import Performance
from dossier.results.flight_tables import OFFSETS, ClimbRow, Value
from dossier.sampling import Sampled

FULL_POWER_TIME = "full_power_time"
"""Name of the limit of time at full power, where a type has one."""
MOTOR_SPEED = "maximum_motor_speed"
"""Name of the limit of speed with the motor running, where a type has one."""


def glide_table(at: Printer, made: Performance) -> Grid:
    """Glides against battery and pilot."""
    rows = [
        row(
            option_name(at, one.option),
            at.first(one.pilot, "mass"),
            at.first(one.mass, "mass"),
            at.first(one.stall, "speed"),
            Cell(at.first(one.sink_speed, "speed"), note=one.sink_clamp),
            at.first(one.sink, "vertical_speed"),
            Cell(at.first(one.glide_speed, "speed"), note=one.glide_clamp),
            at.first(one.glide_ratio, "glide_ratio"),
        )
        for one in made.glides
    ]
    heads = (
        "Battery | # Pilot | # Mass | # Stall, estimate | Speed of least sink | # Least sink | "
        "Speed of best glide | # Glide ratio"
    )
    caption = "Gliding, motor off, sea level, standard air, computed"
    return with_rows(at, grid(caption, heads, rows), "gliding")


def climb_table(at: Printer, made: Performance) -> Grid | None:
    """Rate of climb against height and temperature."""
    if not made.climbs:
        return None
    heads = (
        *columns("Battery | # Pressure height"),
        *numbers(f"Standard {warmer_by(at, offset)}" if offset else "Standard air" for offset in OFFSETS),
    )
    rows = [
        row(
            option_name(at, one.option),
            at.first(one.height, "height"),
            *(cell_of(at, rate, "vertical_speed") for rate in one.rates),
        )
        for one in made.climbs
    ]
    caption = "Rate of climb at full power, heaviest pilot, computed"
    return with_rows(at, grid(caption, heads, rows), "climb")


def height_table(at: Printer, made: Performance) -> Grid | None:
    """Time and energy to a height, and the top speed there."""
    if not made.climbs:
        return None
    rows = [
        row(
            option_name(at, one.option),
            at.first(one.height, "height"),
            _time(at, one) if one.height else Cell("start"),
            _energy(at, one) if one.height else Cell("start"),
            _top(at, made, one),
        )
        for one in made.climbs
    ]
    heads = (
        "Battery | # Pressure height | Time from sea level | Energy from the battery | Top level speed, true"
    )
    caption = "Climb to a height and top speed there, full power, heaviest pilot, computed"
    return with_rows(at, grid(caption, heads, rows), "height")


def wind_table(at: Printer, made: Performance) -> Grid | None:
    """The speed that leads farthest in wind and sinking air."""
    if not made.winds:
        return None
    rows = [
        row(
            _wind(at, one.head),
            at.first(one.down, "vertical_speed") if one.down else "still",
            Cell(_text(at, one.speed, "speed"), note=one.clamp),
            cell_of(at, one.ratio, "glide_ratio"),
            cell_of(at, one.unchanged, "glide_ratio"),
        )
        for one in made.winds
    ]
    first = made.winds[0]
    caption = (
        f"Reach in wind, motor off, {option_name(at, first.option)}, {at.first(first.mass, 'mass')}, computed"
    )
    heads = "# Wind | # Air sinks | # Best speed to fly | # Distance for height | # At the still-air speed"
    return with_rows(at, grid(caption, heads, rows), "reach")


def option_name(at: Printer, option: str) -> str:
    """Return the name of a battery, as its file has it."""
    return str(at.dossier.project.battery.options[option].name)


def _text(at: Printer, value: Value, style: str) -> str:
    return value if isinstance(value, str) else at.first(value, style)


def cell_of(at: Printer, value: Value, style: str) -> Cell:
    """Print a value, or what stands against it."""
    return Cell(_text(at, value, style))


def _time(at: Printer, one: ClimbRow) -> Cell:
    """Where the type limits the time at full power, a longer climb says so beside its number."""
    limit = at.dossier.project.aircraft.limits.get(FULL_POWER_TIME)
    longer = (
        limit is not None
        and limit.value.kind == "time"
        and not isinstance(one.time, str)
        and one.time > limit.value.value
    )
    too_long = f"longer than {limit.name} in one go" if limit and longer else ""
    return _drawn(at, one.time, one.draws.time, "time", too_long)


def _energy(at: Printer, one: ClimbRow) -> Cell:
    if isinstance(one.energy, str) or one.usable is None or one.energy <= one.usable:
        return _drawn(at, one.energy, one.draws.energy, "energy")
    return Cell(
        "more than the battery has",
        note=f"{at.first(one.energy, 'energy')} for {at.first(one.usable, 'energy')} usable",
    )


def _top(at: Printer, made: Performance, one: ClimbRow) -> Cell:
    """Say first what the aircraft did not reach, then which limits of speed lie below what it does reach."""
    slower = not_reached(made)
    remarks = [f"not reached: {at.first(slower, 'speed')} measured"] if slower else []
    if not isinstance(one.top_speed, str):
        speed = min(one.top_speed, slower or one.top_speed)
        motor = at.dossier.project.aircraft.limits.get(MOTOR_SPEED)
        if motor is not None and motor.value.kind == "speed" and speed > motor.value.value:
            remarks.append(f"above {motor.name}")
        if made.fastest and speed > made.fastest.speed:
            remarks.append(f"above {made.fastest.name}")
    return _drawn(at, one.top_speed, one.draws.top_speed, "speed", "; ".join(remarks))


def _drawn(at: Printer, value: Value, sampled: Sampled, style: str, remark: str = "") -> Cell:
    """Print a value and under it what draws of all errors say, where any of them says otherwise."""
    if sampled.quantiles is None or sampled.quantiles[0] == sampled.quantiles[2]:
        return Cell(_text(at, value, style), note=remark)  # no draw has an answer, or none is uncertain
    words = sampled_words(sampled, style, at.dossier.preference, coarse=True)
    return Cell(_text(at, value, style), note="; ".join(part for part in (words, remark) if part))


def _wind(at: Printer, head: float) -> str:
    if not head:
        return "none"
    return f"{at.first(abs(head), 'speed')} {'head' if head > 0 else 'tail'}"


def warmer_by(at: Printer, offset: float) -> str:
    """Print a difference of temperature in the reader's degrees."""
    degrees, unit = (offset * 1.8, "°F") if at.dossier.preference.us_first else (offset, "°C")
    return f"{'+' if offset > 0 else '−'} {abs(degrees):.0f} {unit}"
