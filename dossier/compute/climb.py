"""Climb of many cases: rate over mass, height and temperature; time and energy to a height as an integral."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, log

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_positive, columns
from dossier.compute.atmosphere import LAPSE, SEA_LEVEL_TEMPERATURE, air
from dossier.compute.bounds import efficiency, not_negative, positive
from dossier.compute.curve import Array
from dossier.compute.flight_outcome import OBSTACLES, Answers, Obstacle, answers
from dossier.compute.glide import Polar, Polars, drag
from dossier.figures import OutsideRange, elementwise, formula
from dossier.steps import Points, point_columns

POINTS, WEIGHTS = np.polynomial.legendre.leggauss(16)
"""On -1 to 1: over 1600 m they agree with an adaptive quadrature to 1e-9."""


@formula
def climb_angle(v_c: float, v: float) -> float:
    r"""Angle of climb, from rate of climb and true airspeed.

    Formula: \gamma = \arcsin\frac{v_c}{v}
    Result: gamma
    Valid: a speed above the rate of climb; still air
    Source: sfsu-220
    """
    if not abs(v_c) <= positive(v, "speed", "m/s"):
        raise OutsideRange(f"the rate of climb, {v_c:.6g} m/s, is above the speed of {v:.6g} m/s")
    return asin(v_c / v)


@elementwise
def climb_gradient(v_c: float, v_GS: float) -> float:
    r"""Height gained for distance over the ground.

    Formula: \tau = \frac{v_c}{v_{GS}}
    Result: tau
    Valid: a positive speed over the ground
    Source: faa-h-8083-25c, climb requirements
    """
    return v_c / positive(v_GS, "speed over the ground", "m/s")


@formula
def climb_time_to_ceiling(h: float, h_c: float, v_c: float) -> float:
    r"""Time to a height, with a rate of climb that falls straight to 0 at the absolute ceiling.

    Formula: t = \frac{h_c}{v_c} \ln\frac{h_c}{h_c - h}
    Result: t
    Valid: heights from 0 to below the ceiling, both above the place where the rate of climb is v_c
    Source: ceiling-handout, example 1
    """
    if not 0 <= h < h_c:
        raise OutsideRange(
            f"the height to gain is {h:.6g} m, and must be from 0 to below the ceiling of {h_c:.6g} m"
        )
    return h_c / positive(v_c, "rate of climb", "m/s") * log(h_c / (h_c - h))


def climb_rates(
    polar: Polar | Polars, thrust_power: ArrayLike, mass: ArrayLike, density: ArrayLike
) -> Answers:
    """Return the best rate of climb, at the speed of least sink: thrust power is the same at all speeds.

    Args:
        polar: the wing.
        thrust_power: power behind the propeller in W.
        mass: in kg.
        density: in kg/m³.

    Returns:
        columns ``rate`` and true ``speed`` in m/s, ``gradient`` in still air; ``Obstacle.NO_CLIMB`` where the
        rate is not above 0; see the clamp.

    Raises:
        OutsideRange: a value that is not positive.

    Source: fossee-anderson, example 6.16: excess power over weight.
    """
    P, m, rho = columns(thrust_power, mass, density)
    all_positive(P, "power", "W")
    at = drag(polar, m, rho)
    v, clamp = at.kept(at.least_power_speed)
    rate = P / at.weight - at.sink(v)
    obstacle = np.where(rate > 0, Obstacle.NONE, Obstacle.NO_CLIMB)
    return answers({"rate": rate, "speed": v, "gradient": rate / v}, obstacle=obstacle, clamp=clamp)


@dataclass(frozen=True, eq=False)
class Heights:
    """From where to where a climb goes: pressure heights in m, and how warm the air is."""

    bottom: Array
    top: Array
    offset: Array
    """In K from the standard temperature, the same at all heights."""


def heights(bottom: ArrayLike, top: ArrayLike, offset: ArrayLike = 0.0) -> Heights:
    """Put the ends of climbs side by side.

    Raises:
        OutsideRange: an end below its start, or outside the atmosphere of this tool.
    """
    low, high, dT = columns(bottom, top, offset)
    if (high < low).any():
        raise OutsideRange(f"the climb ends at {high[high < low].flat[0]:.6g} m, below its start")
    air(low, dT), air(high, dT)
    return Heights(low, high, dT)


def climb_to(polar: Polar | Polars, power: ArrayLike, chain: float, mass: ArrayLike, way: Heights) -> Answers:
    """Return time and electric energy of a climb at constant power: integral of dh over the rate of climb.

    Args:
        polar: the wing.
        power: from the terminals of the pack, in W.
        chain: efficiency from the terminals to the thrust.
        mass: in kg.
        way: pressure heights; in warm air the true gain is larger by T / T_standard, and so is the time.

    Returns:
        columns ``time`` in s, ``energy`` in J, ``rate`` at the bottom and ``rate_at_top`` in m/s;
        ``Obstacle.NO_CLIMB`` where the rate is not above 0 at one end of the way or between.

    Raises:
        OutsideRange: as for :func:`climb_rates`; an efficiency that is none.

    Source: derived. At constant calibrated speed the true speed grows with height; what that costs is left
    out (v²/g dv/dh, 0.2 % of the rate at 20 m/s).
    """
    P, m, low, high, dT = columns(power, mass, way.bottom, way.top, way.offset)
    half = (high - low) / 2
    points = (low + half)[..., None] + half[..., None] * POINTS
    at = np.concatenate([low[..., None], points, high[..., None]], axis=-1)
    around = air(at, dT[..., None])
    climb = climb_rates(polar, efficiency(chain) * P[..., None], m[..., None], around.density)
    rate = climb.column("rate", otherwise=1.0)
    stretch = around.temperature / (SEA_LEVEL_TEMPERATURE - LAPSE * at)
    time = half * (WEIGHTS * (stretch / rate)[..., 1:-1]).sum(axis=-1)
    obstacle = np.where(climb.answered.all(axis=-1), Obstacle.NONE, Obstacle.NO_CLIMB)
    columns_of = {"time": time, "energy": P * time, "rate": rate[..., 0], "rate_at_top": rate[..., -1]}
    return answers(columns_of, obstacle=obstacle, clamp=climb.clamp.max(axis=-1))


@formula
def climb_time_to_height(
    P: float, eta: float, m: float, h_p: float, *, S: float, C_D0: float, K: float, C_Lmax: float
) -> float:  # fmt: skip
    r"""Time of a climb at constant power from sea level to a pressure height, in standard air.

    Formula: t = \int_0^{h_p} \frac{dh}{v_c(h)}, \quad v_c = \frac{\eta \, P}{m \, g} - \frac{A \, v^3 +
        B / v}{m \, g}, \quad v = \max\left(\left(\frac{B}{3 A}\right)^{1/4}, \; 1.1 \, v_S\right), \quad
        A = \frac{\rho(h) \, S \, C_{D0}}{2}, \quad B = \frac{2 \, K \, (m \, g)^2}{\rho(h) \, S},
        \quad g = 9.80665\,\mathrm{m/s^2}
    Result: t
    Valid: the aircraft climbs all the way; to 6000 m; one efficiency at all speeds
    Source: derived, integral over the rate of climb of excess power
    """
    made = climb_to(Polar(C_D0, K, S, C_Lmax), P, eta, m, heights(0.0, h_p)).one("time")
    if isinstance(made, Obstacle):
        raise OutsideRange(OBSTACLES[made])
    return made


def points_of_climb(
    P: float, eta: float, m: float, h_p: float, *, S: float, C_D0: float, K: float, C_Lmax: float
) -> Points:  # fmt: skip
    """Return the points at which :func:`climb_time_to_height` is evaluated; SI.

    Raises:
        OutsideRange: as there.
    """
    climb_time_to_height(P, eta, m, h_p, S=S, C_D0=C_D0, K=K, C_Lmax=C_Lmax)
    h = h_p / 2 * (1 + POINTS)
    width = h_p / 2 * WEIGHTS
    density = air(h).density
    climbs = climb_rates(Polar(C_D0, K, S, C_Lmax), efficiency(eta) * P, m, density)
    rate, speed = climbs.computed["rate"], climbs.computed["speed"]
    titles = (
        ("pressure height", "h", "length", h),
        ("height that it stands for", r"\Delta h", "length", width),
        ("density", r"\rho", "density", density),
        ("true speed", "v", "speed", speed),
        ("rate of climb", "v_c", "speed", rate),
        ("time", r"\Delta t = \Delta h / v_c", "time", width / rate),
    )
    return Points(
        "The points of the integral",
        point_columns(titles),
        "Sum of the times",
    )


@formula
def greatest_height(E: float, eta: float, m: float, *, v_c: float, w: float, g: float) -> float:
    r"""Height that an amount of energy can lift the aircraft at a constant rate of climb and sink rate.

    Formula: h = \frac{\eta \, E}{m \, g} \, \frac{v_c}{v_c + w}
    Result: h
    Valid: rate of climb above 0; the rate falls with height, so that the true height is lower
    Source: derived, balance of energy in steady flight
    """
    share = positive(v_c, "rate of climb", "m/s") / (v_c + not_negative(w, "sink rate", "m/s"))
    return efficiency(eta) * not_negative(E, "energy", "J") / (positive(m, "mass", "kg") * g) * share
