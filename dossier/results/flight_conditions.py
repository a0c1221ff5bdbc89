"""Flight against height, temperature, speed and pilot: thin air, power for a speed, two sink curves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from dossier.compute.airspeed import true_airspeeds
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY, air, density_altitude
from dossier.compute.climb import climb_rates
from dossier.compute.flight_outcome import OBSTACLES, Answers, Obstacle
from dossier.compute.glide import best_glide, drag, least_sink
from dossier.compute.level import Drive, power_required, top_speed
from dossier.model.aircraft import Aircraft
from dossier.results.flight_figures import OptionFlight
from dossier.results.flight_polar import PolarInUse
from dossier.results.flight_tables import HEIGHTS, OFFSETS, Fastest, Value
from dossier.units import scale

POWER_POINTS = 7
"""Speeds of the table of power, for each pilot."""
CURVE_POINTS = 17
"""Of a sink curve."""
FURTHEST = 2.0
"""Times the speed of the best glide: where a table without a limit of speed ends."""


@dataclass(frozen=True)
class AirRow:
    """Air at one pressure height and temperature, and what a calibrated airspeed is there. SI."""

    height: float
    """Pressure altitude."""
    offset: float
    """In K from the standard temperature."""
    temperature: float
    density: float
    density_altitude: float
    true: tuple[float, ...]
    """True airspeed of each of the calibrated ones."""


@dataclass(frozen=True)
class AirTable:
    """Rows for the calibrated speeds of one battery with the heaviest pilot."""

    names: tuple[str, ...]
    """What each calibrated speed is."""
    calibrated: tuple[float, ...]
    """In m/s."""
    rows: tuple[AirRow, ...]


@dataclass(frozen=True)
class PowerRow:
    """Level flight at one calibrated speed, sea level, standard air. SI."""

    option: str
    pilot: float
    mass: float
    speed: float
    air: Value
    """Power that the drag takes."""
    shaft: Value
    pack: Value
    """From the terminals of the battery."""


@dataclass(frozen=True)
class PilotRow:
    """One battery, pilot and pressure height in standard air. Speeds are true. SI."""

    option: str
    pilot: float
    mass: float
    height: float
    rate: Value
    gradient: Value
    """Height for distance, in still air, at the speed of the best rate of climb."""
    climb_speed: Value
    top_speed: Value
    sink_speed: float
    sink: float
    glide_speed: float


@dataclass(frozen=True)
class SinkCurve:
    """Sink against calibrated speed at one mass, sea level, standard air. SI."""

    mass: float
    words: str
    points: tuple[tuple[float, float], ...]
    """Speed and sink."""


def pressure_heights(aircraft: Aircraft) -> tuple[float, ...]:
    """Return the pressure heights of all tables, in m."""
    unit, steps = HEIGHTS[aircraft.presentation.units == "us-first"]
    return tuple(step * scale("length", unit)[0] for step in steps)


def air_table(option: OptionFlight, aircraft: Aircraft, limit: Fastest | None) -> AirTable:
    """Turn the calibrated speeds of a flight into true ones."""
    named = [
        ("speed of the least sink", option.minimum_sink_speed.value),
        ("speed of the best glide", option.best_glide_speed.value),
    ]
    named += [(limit.name, limit.speed)] if limit else []
    speeds = tuple(speed for _, speed in named)
    return AirTable(tuple(name for name, _ in named), speeds, tuple(_air_rows(aircraft, speeds)))


def _air_rows(aircraft: Aircraft, speeds: tuple[float, ...]) -> Iterator[AirRow]:
    for height, offset in product(pressure_heights(aircraft), OFFSETS):
        around = air(height, offset)
        density = float(around.density)
        true = true_airspeeds(np.array(speeds), around)
        yield AirRow(
            height, offset, float(around.temperature), density, density_altitude(density),
            tuple(float(one) for one in true),
        )  # fmt: skip


def power_rows(
    option: OptionFlight, in_use: PolarInUse, aircraft: Aircraft, limit: Fastest | None
) -> Iterator[PowerRow]:
    """Power of level flight against speed, lightest and heaviest pilot; nothing without an efficiency."""
    if option.drive is None:
        return
    chain = aircraft.propulsion.efficiency
    drive = Drive(chain.controller.value, chain.motor.value, chain.propeller.value)
    for pilot, mass in _ends(option):
        speeds = np.linspace(*_reach(in_use, mass, limit), POWER_POINTS)
        found = power_required(in_use.polar, drive, speeds, mass, density=SEA_LEVEL_DENSITY)
        for case, speed in enumerate(speeds.tolist()):
            powers = (_one(found, column, case) for column in ("air", "shaft", "pack"))
            yield PowerRow(option.option, pilot, mass, speed, *powers)


def pilot_rows(option: OptionFlight, in_use: PolarInUse, aircraft: Aircraft) -> Iterator[PilotRow]:
    """Climb, top speed and glide of the lightest and the heaviest pilot over heights."""
    thrust = aircraft.propulsion.maximum_power.value * option.drive.value if option.drive else None
    at = pressure_heights(aircraft)
    density = air(np.array(at)).density
    for pilot, mass in _ends(option):
        slow, far = least_sink(in_use.polar, mass, density), best_glide(in_use.polar, mass, density)
        climbs = climb_rates(in_use.polar, thrust, mass, density) if thrust else None
        level = top_speed(in_use.polar, thrust, mass, density) if thrust else None
        for case, height in enumerate(at):
            rate, gradient, speed = (_one(climbs, column, case) for column in ("rate", "gradient", "speed"))
            yield PilotRow(
                option.option, pilot, mass, height, rate, gradient, speed,
                _one(level, "speed", case),
                float(slow.computed["speed"][case]),
                float(slow.computed["sink"][case]),
                float(far.computed["speed"][case]),
            )  # fmt: skip


def sink_curves(
    options: Sequence[OptionFlight], in_use: PolarInUse, limit: Fastest | None
) -> tuple[SinkCurve, ...]:
    """Draw the polar at the least and the greatest mass that is flown; none where no battery can be."""
    if not options:
        return ()
    ends = [(mass, pilot, option.name) for option in options for pilot, mass in _ends(option)]
    chosen = {mass: f"{name}, pilot of {pilot:.0f} kg" for mass, pilot, name in (min(ends), max(ends))}
    return tuple(_sink_curve(mass, words, in_use, limit) for mass, words in chosen.items())


def _sink_curve(mass: float, words: str, in_use: PolarInUse, limit: Fastest | None) -> SinkCurve:
    speeds = np.linspace(*_reach(in_use, mass, limit), CURVE_POINTS)
    sinks = drag(in_use.polar, mass, SEA_LEVEL_DENSITY).sink(speeds)
    return SinkCurve(mass, words, tuple(zip(speeds.tolist(), sinks.tolist(), strict=True)))


def _ends(option: OptionFlight) -> tuple[tuple[float, float], ...]:
    """Return pilot and mass in flight of the lightest and the heaviest pilot."""
    pilots = sorted({option.pilots[0], option.pilots[-1]})
    return tuple((pilot, pilot + option.empty) for pilot in pilots)


def _reach(in_use: PolarInUse, mass: float, limit: Fastest | None) -> tuple[float, float]:
    """Return the slowest and the fastest speed that are shown."""
    at = drag(in_use.polar, mass, SEA_LEVEL_DENSITY)
    slowest, furthest = float(at.slowest), FURTHEST * float(at.best_glide_speed)
    return slowest, min(furthest, limit.speed) if limit and limit.speed > slowest else max(furthest, slowest)


def _one(answer: Answers | None, column: str, case: int) -> Value:
    if answer is None:
        return "the efficiency of the drive is not known"
    found = answer.one(column, case)
    return OBSTACLES[found] if isinstance(found, Obstacle) else found
