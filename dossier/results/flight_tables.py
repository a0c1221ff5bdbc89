"""Tables of flight performance: against pilot, height, temperature and wind. An obstacle stands in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from dossier.compute.atmosphere import SEA_LEVEL_DENSITY, air
from dossier.compute.climb import climb_rates, climb_to, heights
from dossier.compute.flight_outcome import CLAMPS, OBSTACLES, Answers, Clamp, Obstacle
from dossier.compute.glide import best_glide, drag, least_sink
from dossier.compute.level import top_speed
from dossier.compute.reach import best_to_fly, reach, wind
from dossier.figures import given
from dossier.model.aircraft import Aircraft
from dossier.quantities import Quantity
from dossier.results.battery import PackResult
from dossier.results.flight_draws import ClimbDraws, Flying, climb_draws
from dossier.results.flight_figures import OptionFlight
from dossier.results.flight_polar import PolarInUse
from dossier.units import scale

FASTEST = ("rough_air_speed", "never_exceed_speed")
"""Names of limits that no advice on speed passes; the first that the type has."""
OFFSETS = (-15.0, 0.0, 15.0, 30.0)
"""In K from the standard temperature."""
HEIGHTS = {
    True: ("ft", (0.0, 2000.0, 4000.0, 6000.0, 8000.0)),
    False: ("m", (0.0, 500.0, 1000.0, 1500.0, 2000.0)),
}
"""US units first or not -> pressure altitudes of the table."""
WINDS = {
    "kt": (-10.0, 0.0, 5.0, 10.0, 15.0),
    "mph": (-10.0, 0.0, 5.0, 10.0, 15.0),
    "km/h": (-20.0, 0.0, 10.0, 20.0, 30.0),
}
"""Unit of the airspeed indicator -> headwinds of the table."""
SINKING = {True: ("ft/min", (0.0, 100.0, 200.0)), False: ("m/s", (0.0, 0.5, 1.0))}
"""US units first or not -> how fast the air sinks in the table."""

Value = float | str
"""A number in SI, or in words why there is none."""


@dataclass(frozen=True)
class Fastest:
    """A limit of speed, as it is used here: at sea level calibrated and true are the same."""

    name: str
    speed: float
    """In m/s."""
    quantity: Quantity
    basis: str


@dataclass(frozen=True)
class GlideRow:
    """One battery and pilot, motor off, sea level, standard air. Masses in kg, speeds in m/s."""

    option: str
    pilot: float
    mass: float
    stall: float
    sink_speed: float
    sink: float
    sink_clamp: str
    glide_speed: float
    glide_ratio: float
    glide_clamp: str


@dataclass(frozen=True)
class ClimbRow:
    """One battery and height with the heaviest pilot at full power. SI."""

    option: str
    height: float
    """Pressure altitude."""
    rates: tuple[Value, ...]
    """At this height, in air of each of :data:`OFFSETS`."""
    time: Value
    """From sea level in standard air."""
    energy: Value
    usable: float | None
    """Energy that the battery has for flying; None where it is not known."""
    top_speed: Value
    """True, at this height in standard air."""
    draws: ClimbDraws
    """What draws of all errors say of time, energy and top speed."""


@dataclass(frozen=True)
class WindRow:
    """One wind, motor off, sea level, standard air, the heaviest pilot. In m/s."""

    option: str
    mass: float
    """In kg."""
    head: float
    down: float
    speed: Value
    ratio: Value
    """Distance over the ground for height."""
    clamp: str
    unchanged: Value
    """The ratio at the speed of the best glide in still air."""


def fastest(aircraft: Aircraft) -> Fastest | None:
    """Find the limit that no advice on speed passes."""
    for name in FASTEST:
        limit = aircraft.limits.get(name)
        if limit and limit.value.kind == "speed" and limit.value.value > 0:
            return Fastest(str(limit.name), limit.value.value, limit.value, str(limit.basis or ""))
    return None


def glide_rows(option: OptionFlight, in_use: PolarInUse) -> Iterator[GlideRow]:
    """Glide with each of the three pilots."""
    masses = np.array(option.pilots) + option.empty
    slow = least_sink(in_use.polar, masses, SEA_LEVEL_DENSITY)
    far = best_glide(in_use.polar, masses, SEA_LEVEL_DENSITY)
    stalls = drag(in_use.polar, masses, SEA_LEVEL_DENSITY).stall
    for case, pilot in enumerate(option.pilots):
        yield GlideRow(
            option.option,
            pilot,
            float(masses[case]),
            float(stalls[case]),
            float(slow.computed["speed"][case]),
            float(slow.computed["sink"][case]),
            _clamp(slow, case),
            float(far.computed["speed"][case]),
            float(far.computed["ratio"][case]),
            _clamp(far, case),
        )


def _clamp(answer: Answers, case: int) -> str:
    """Say in words where an optimum was moved, and why; empty where it was not."""
    return CLAMPS.get(Clamp(int(answer.clamp[case])), "")


def _one(answer: Answers, column: str, case: int | tuple[int, ...]) -> Value:
    found = answer.one(column, case)
    return OBSTACLES[found] if isinstance(found, Obstacle) else found


def climb_rows(
    option: OptionFlight, in_use: PolarInUse, aircraft: Aircraft, packs: Sequence[PackResult]
) -> Iterator[ClimbRow]:
    """Climb with the heaviest pilot at full power; nothing where the efficiency of the drive is not known."""
    if option.drive is None:
        return
    unit, steps = HEIGHTS[aircraft.presentation.units == "us-first"]
    at = np.array(steps) * scale("length", unit)[0]
    full = given(aircraft.propulsion.maximum_power, "power at full throttle")
    power, mass, drive = full.value, option.mass.value, option.drive.value
    rates = climb_rates(in_use.polar, power * drive, mass, air(at[:, None], np.array(OFFSETS)).density)
    way = climb_to(in_use.polar, power, drive, mass, heights(0.0, at))
    level = top_speed(in_use.polar, power * drive, mass, air(at).density)
    drawn = climb_draws(in_use, Flying(full, option.drive, option.mass), at)
    usable = next(
        (
            pack.figures["usable_energy"].value
            for pack in packs
            if pack.option == option.option and "usable_energy" in pack.figures
        ),
        None,
    )
    for row, (height, draws) in enumerate(zip(at, drawn, strict=True)):
        yield ClimbRow(
            option.option,
            float(height),
            tuple(_one(rates, "rate", (row, column)) for column in range(len(OFFSETS))),
            _one(way, "time", row),
            _one(way, "energy", row),
            usable,
            _one(level, "speed", row),
            draws,
        )


def wind_rows(
    option: OptionFlight, in_use: PolarInUse, aircraft: Aircraft, limit: Fastest
) -> Iterator[WindRow]:
    """Glide in wind and sinking air at the speed that leads farthest, and at the one of still air."""
    unit = aircraft.presentation.airspeed
    vertical, sinking = SINKING[aircraft.presentation.units == "us-first"]
    factors = scale("speed", unit)[0], scale("speed", vertical)[0]
    cases = [(head * factors[0], down * factors[1]) for down, head in product(sinking, WINDS[unit])]
    moving = wind(*np.array(cases).T)
    mass = option.mass.value
    best = best_to_fly(in_use.polar, mass, SEA_LEVEL_DENSITY, moving, fastest=limit.speed)
    still = best_glide(in_use.polar, mass, SEA_LEVEL_DENSITY).computed["speed"]
    same = reach(in_use.polar, still, mass, SEA_LEVEL_DENSITY, moving=moving)
    for case, (head, down) in enumerate(cases):
        yield WindRow(
            option.option,
            mass,
            head,
            down,
            _one(best, "speed", case),
            _one(best, "ratio", case),
            _clamp(best, case),
            _one(same, "ratio", case),
        )
