"""Tables of flight against height, temperature, speed and pilot. An obstacle stands in words."""

from __future__ import annotations

from dossier.compose.grid import Grid, columns, grid, numbers, row
from dossier.compose.performance_tables import cell_of, option_name, warmer_by
from dossier.compose.printer import Printer
from dossier.compose.worked_rows import with_rows
from dossier.results.flight import Performance
from dossier.results.flight_tables import OFFSETS


def power_by_speed(at: Printer, made: Performance) -> Grid | None:
    """Power of level flight against speed."""
    if not made.powers:
        return None
    rows = [
        row(
            option_name(at, one.option),
            at.first(one.pilot, "mass"),
            at.first(one.speed, "speed"),
            *(cell_of(at, power, "power") for power in (one.air, one.shaft, one.pack)),
        )
        for one in made.powers
    ]
    heads = "Battery | # Pilot | # Calibrated speed | # Against drag | # At the shaft | # From the battery"
    caption = "Power of level flight against speed, sea level, standard air, computed"
    return with_rows(at, grid(caption, heads, rows), "power")


def climb_by_pilot(at: Printer, made: Performance) -> Grid | None:
    """Climb and top speed of the lightest and the heaviest pilot over heights."""
    if not made.climbs:
        return None
    rows = [
        row(
            option_name(at, one.option),
            at.first(one.pilot, "mass"),
            at.first(one.height, "height"),
            cell_of(at, one.rate, "vertical_speed"),
            cell_of(at, one.gradient, "ratio"),
            cell_of(at, one.climb_speed, "speed"),
            cell_of(at, one.top_speed, "speed"),
        )
        for one in made.pilots
    ]
    heads = (
        "Battery | # Pilot | # Pressure height | # Rate of climb | # Gradient | # True speed of it | "
        "# Top level speed, true"
    )
    caption = "Climb and top speed, lightest and heaviest pilot, full power, standard air, computed"
    return with_rows(at, grid(caption, heads, rows), "pilot_climb")


def glide_by_pilot(at: Printer, made: Performance) -> Grid:
    """Glide of the lightest and the heaviest pilot over heights: true speeds rise, the ratio stays."""
    rows = [
        row(
            option_name(at, one.option),
            at.first(one.pilot, "mass"),
            at.first(one.height, "height"),
            at.first(one.sink, "vertical_speed"),
            at.first(one.sink_speed, "speed"),
            at.first(one.glide_speed, "speed"),
        )
        for one in made.pilots
    ]
    heads = (
        "Battery | # Pilot | # Pressure height | # Least sink | # True speed of it | "
        "# True speed of the best glide"
    )
    caption = "Gliding over heights, motor off, standard air, computed"
    return with_rows(at, grid(caption, heads, rows), "pilot_glide")


def air_grid(at: Printer, made: Performance) -> Grid | None:
    """Density altitude, and true airspeed beside calibrated, by height and temperature."""
    table = made.air
    if table is None:
        return None
    heads = (
        *columns("# Pressure height | # Temperature | # Against standard | # Density | # Density altitude"),
        *numbers(
            f"True, at {at.first(speed, 'speed')} calibrated ({name})"
            for name, speed in zip(table.names, table.calibrated, strict=True)
        ),
    )
    rows = [
        row(
            at.first(one.height, "height"),
            at.first(one.temperature, "temperature"),
            warmer_by(at, one.offset) if one.offset else "standard",
            at.first(one.density, "density"),
            at.first(one.density_altitude, "height"),
            *(at.first(speed, "speed") for speed in one.true),
        )
        for one in table.rows
    ]
    caption = "Density altitude and true airspeed, heaviest pilot, computed"
    return with_rows(at, grid(caption, heads, rows), "air")


def run_table(at: Printer, made: Performance) -> Grid | None:
    """The estimated take-off run by height and temperature."""
    if made.take_off is None:
        return None
    heads = (
        *columns("Battery | # Pressure height"),
        *numbers(f"Standard {warmer_by(at, offset)}" if offset else "Standard air" for offset in OFFSETS),
    )
    rows = [
        row(
            option_name(at, one.option),
            at.first(one.height, "height"),
            *(cell_of(at, value, "height") for value in one.runs),
        )
        for run in made.take_off.runs
        for one in run.rows
    ]
    caption = "Take-off run, an estimate for guidance, heaviest pilot, no wind, level ground, computed"
    return with_rows(at, grid(caption, heads, rows), "run")
