"""Claims of speeds, sinks and glide ratios, held against each other. All in SI, speeds calibrated."""

from __future__ import annotations

from math import hypot

import numpy as np

from dossier.compute.atmosphere import SEA_LEVEL_DENSITY
from dossier.compute.energy import STANDARD_GRAVITY
from dossier.compute.flight_outcome import Obstacle
from dossier.compute.glide import Polar, drag
from dossier.compute.ground_roll import ground_roll_floor
from dossier.compute.level import top_speed
from dossier.compute.performance import speed_at_mass
from dossier.compute.stall import manoeuvring_speed
from dossier.figures import OutsideRange
from dossier.judge.identity import Identity, compared, needing

SINK_OF_PARABOLA = 4 / (2 * 3**0.75)
"""Least sink over the sink at the best glide: 0.877383."""


def glide_point_claim(speed: float, *, sink: float, glide_ratio: float) -> Identity:
    """Hold the speed of one glide against sink and glide ratio of the same glide."""
    return compared("glide_point", speed, sink * hypot(1.0, glide_ratio))


def both_optima_claim(speed: float, *, least_sink: float, glide_ratio: float) -> Identity:
    """Hold the speed of the best glide against the least sink and the best glide ratio, which are two glides.

    Sink at the best glide is speed over ratio, and cannot be below the least sink: with any polar
    least sink times ratio over speed is at most 1.
    """
    path = least_sink * glide_ratio
    return needing("both_optima", speed, path / speed, lambda share: path / share)


def take_off_run_claim(
    run: float, *, mass: float, static_thrust: float, lift_off: float, friction: float
) -> Identity:
    """Hold a take-off run on level ground in still air against the floor of constant acceleration."""
    floor = ground_roll_floor(mass, static_thrust, lift_off, friction, g=STANDARD_GRAVITY)
    return needing("take_off_run", run, run / floor, lambda share: share * floor)


def two_masses_claim(speed: float, *, mass: float, other_speed: float, other_mass: float) -> Identity:
    """Hold a speed or a sink at one mass against that at another mass, in the same configuration."""
    return compared("two_masses", speed, speed_at_mass(other_speed, mass, other_mass))


def two_ratios_claim(glide_ratio: float, *, other_ratio: float) -> Identity:
    """Hold the best glide ratio at one mass against that at another: it is the same."""
    return compared("two_ratios", glide_ratio, other_ratio)


def level_speed_claim(speed: float, *, polar: Polar, mass: float, power: float) -> Identity:
    """Hold a top speed in level flight against polar, mass and power: which efficiency does it need?

    Raises:
        OutsideRange: the speed is below that of least power, or the power is too small for any speed.
    """
    at = drag(polar, mass, SEA_LEVEL_DENSITY)
    least = float(at.least_power_speed)
    if speed < least:
        raise OutsideRange(f"{speed:.4g} m/s is slower than {least:.4g} m/s, the speed of least power")
    needed = float(at.force(np.asarray(speed)) * speed) / power

    def fastest(eta: float) -> float:
        found = top_speed(polar, eta * power, mass, SEA_LEVEL_DENSITY).one("speed")
        if isinstance(found, Obstacle):
            raise OutsideRange(f"{power:.6g} W do not keep level flight at an efficiency of {eta:.3g}")
        return found

    return needing("level_speed", speed, needed, fastest)


def manoeuvring_speed_claim(speed: float, *, stall: float, load_factor: float) -> Identity:
    """Hold a manoeuvring speed against stalling speed and load factor."""
    return compared("manoeuvring_speed", speed, manoeuvring_speed(stall, load_factor))
