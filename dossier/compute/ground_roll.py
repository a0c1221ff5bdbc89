"""Take-off run: the floor that no aircraft undercuts, and an estimate from an ideal disc.

Neither is a take-off distance. The climb to a height over an obstacle, wet or long grass, a tired pack and an
unpractised pilot all come on top.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sin
from typing import cast

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_positive, columns
from dossier.compute.bounds import positive, where_holds
from dossier.compute.curve import Array, Flags
from dossier.compute.energy import STANDARD_GRAVITY
from dossier.compute.flight_outcome import OBSTACLES, Answers, Obstacle, answers
from dossier.compute.glide import Polar
from dossier.compute.propeller import disc
from dossier.figures import OutsideRange, elementwise, formula
from dossier.steps import Points, point_columns

POINTS, WEIGHTS = np.polynomial.legendre.leggauss(24)
"""On -1 to 1."""


@formula
def ground_roll_floor(m: float, T_s: float, v_LO: float, mu_r: float, *, g: float) -> float:
    r"""Shortest run to a lift-off speed: all of the static thrust to the end, no drag, no wind, level ground.

    Formula: d = \frac{v_{LO}^2}{2 \, g \left(\frac{T_0}{m \, g} - \mu_r\right)}
    Result: d
    Valid: a static thrust above the rolling friction, which is 0.02 on a hard surface to 0.1 in tall grass
    Source: derived, constant acceleration
    """
    if not 0 <= mu_r < 1:
        raise OutsideRange(f"the rolling friction is {mu_r:.6g}, and must be from 0 to below 1")
    excess = T_s / (positive(m, "mass", "kg") * g) - mu_r
    if not excess > 0:
        held = mu_r * m * g
        raise OutsideRange(
            f"the static thrust of {T_s:.6g} N does not overcome rolling friction of {held:.6g} N"
        )
    return positive(v_LO, "lift-off speed", "m/s") ** 2 / (2 * g * excess)


@dataclass(frozen=True)
class Runner:
    """An aircraft on its wheels."""

    polar: Polar
    rolling_lift: float
    """Lift coefficient while it rolls."""
    diameter: float
    """Of the propeller, in m."""
    quality: float
    """Part of the shaft power that reaches an ideal disc of that diameter."""


@dataclass(frozen=True)
class Field:
    """The ground and the air over it."""

    friction: float
    """0.02 on a hard surface to 0.1 in moderately tall grass, 0.3 when very soft (source roll-friction)."""
    slope: float = 0.0
    """In rad, uphill positive."""
    headwind: float = 0.0
    """In m/s."""
    density: float = 1.225
    """In kg/m³."""


def ground_roll(
    runner: Runner, field: Field, shaft_power: ArrayLike, mass: ArrayLike, *, lift_off: ArrayLike
) -> Answers:
    """Return the run to a true lift-off speed, as the integral of speed over the ground over acceleration.

    Args:
        runner: polar, lift while rolling, propeller.
        field: friction, slope, headwind, density.
        shaft_power: in W: at the lowest state of charge that is allowed for take-off.
        mass: in kg.
        lift_off: true airspeed in m/s.

    Returns:
        columns ``distance`` in m, ``time`` in s, ``static_thrust`` in N; ``Obstacle.STALLED`` where the wing
        cannot carry at lift-off, ``Obstacle.NO_LIFT_OFF`` where the acceleration ends before.

    Raises:
        OutsideRange: a value outside its range; a headwind of the lift-off speed or more.

    Source: derived, with the thrust of momentum-theory.
    """
    P, m, v_LO = columns(shaft_power, mass, lift_off)
    all_positive(v_LO - field.headwind, "lift-off speed over the ground", "m/s")
    half = (v_LO - field.headwind) / 2
    v = (field.headwind + half)[..., None] + half[..., None] * np.append(POINTS, (-1.0, 1.0))
    a = _acceleration(runner, field, P[..., None], m[..., None], np.maximum(v, 0.0))
    rising = np.asarray((a > 0).all(axis=-1))
    inner = np.where(rising[..., None], a, 1.0)[..., :-2]
    ground = v[..., :-2] - field.headwind
    stalled = (
        2 * m * STANDARD_GRAVITY > field.density * runner.polar.area * runner.polar.lift_maximum * v_LO**2
    )
    return answers(
        {
            "distance": half * (WEIGHTS * ground / inner).sum(axis=-1),
            "time": half * (WEIGHTS / inner).sum(axis=-1),
            "static_thrust": disc(P, runner.diameter, 0.0, field.density, quality=runner.quality).computed[
                "thrust"
            ],
        },
        obstacle=np.select([stalled, ~rising], [Obstacle.STALLED, Obstacle.NO_LIFT_OFF], Obstacle.NONE),
    )


@elementwise
def lift_off_speed(v_S: float, f_LO: float) -> float:
    r"""Speed at which the wheels leave the ground.

    Formula: v_{LO} = f_{LO} \, v_S
    Result: v_LO
    Valid: a factor of 1 or more; both speeds at the same mass, and both true or both calibrated
    Source: definition
    """
    factor = where_holds(
        f_LO, f_LO >= 1, lambda: OutsideRange(f"the lift-off factor is {f_LO:.6g}, and must be 1 or more")
    )
    return factor * positive(v_S, "stalling speed", "m/s")


@elementwise
def take_off_run(
    m: float,
    P_s: float,
    v_LO: float,
    mu_r: float,
    *,
    S: float,
    C_D0: float,
    K: float,
    C_Lg: float,
    D_p: float,
    k_p: float,
    rho: float,
) -> float:
    r"""Run to the lift-off speed on level ground without wind.

    The thrust is that of an ideal disc for a part of the shaft power; :func:`ground_roll` in one case.

    Formula: d = \int_0^{v_{LO}} \frac{m \, v \, dv}{F(v) - \frac{\rho}{2} v^2 S (C_{D0} + K C_{Lg}^2)
        - \mu_r \left(m g - \frac{\rho}{2} v^2 S C_{Lg}\right)}, \quad F(v) \, (v + v_i) = k_p P_s
    Result: d
    Valid: the wing carries at the lift-off speed; the acceleration lasts to it; no ground effect
    Source: derived, with the thrust of momentum-theory
    """
    parts = (m, P_s, v_LO, mu_r, S, C_D0, K, C_Lg, D_p, k_p, rho)
    cases = np.broadcast_arrays(*(np.asarray(one, float) for one in parts))
    valid = np.logical_and.reduce([case > 0 for case in cases]) & (cases[9] <= 1) & (cases[3] < 1)
    safe = [np.where(valid, case, 0.5)[..., None] for case in cases]
    distance, lasts = _distance(*safe)
    holds = valid & lasts
    if any(isinstance(one, np.ndarray) for one in parts):
        return cast(float, np.where(holds, distance, np.nan))
    if not valid:
        raise OutsideRange(
            "a mass, power, speed, coefficient or measure of the run is not above 0, or a share above 1"
        )
    if not lasts:
        raise OutsideRange(OBSTACLES[Obstacle.NO_LIFT_OFF])
    return float(distance)


def points_of_run(
    m: float, P_s: float, v_LO: float, mu_r: float, *, S: float, C_D0: float, K: float, C_Lg: float,
    D_p: float, k_p: float, rho: float,
) -> Points:  # fmt: skip
    """Return the points at which :func:`take_off_run` is evaluated; SI.

    Raises:
        OutsideRange: as there.
    """
    parts = (S, C_D0, K, C_Lg, D_p, k_p, rho)
    take_off_run(m, P_s, v_LO, mu_r, **dict(zip(_REST, parts, strict=True)))
    columns = [np.asarray(one, float)[..., None] for one in (m, P_s, v_LO, mu_r, *parts)]
    v, thrust, drag, friction = (each[:-2] for each in _along(*columns))
    acceleration = (thrust - drag - friction) / m
    width = v_LO / 2 * WEIGHTS
    titles = (
        ("speed", "v", "speed", v),
        ("speed that it stands for", r"\Delta v", "speed", width),
        ("thrust", "F", "force", thrust),
        ("drag", "D", "force", drag),
        ("rolling friction", "R", "force", friction),
        ("acceleration", r"a = (F - D - R) / m", "acceleration", acceleration),
        ("way", r"\Delta d = v \Delta v / a", "length", v * width / acceleration),
    )
    return Points(
        "The points of the integral",
        point_columns(titles),
        "Sum of the ways",
    )


_REST = ("S", "C_D0", "K", "C_Lg", "D_p", "k_p", "rho")


def _along(m: Array, P_s: Array, v_LO: Array, mu_r: Array, *rest: Array) -> tuple[Array, ...]:
    """Return speeds, thrust, drag and rolling friction at the points and at both ends; one row a case."""
    S, C_D0, K, C_Lg, D_p, k_p, rho = rest
    half = v_LO / 2
    v = half + half * np.append(POINTS, (-1.0, 1.0))
    area = rho * v**2 * S / 2
    thrust = disc(P_s, D_p, np.maximum(v, 0.0), rho, quality=k_p).computed["thrust"]
    on_wheels = np.maximum(m * STANDARD_GRAVITY - area * C_Lg, 0.0)
    return v, thrust, area * (C_D0 + K * C_Lg**2), mu_r * on_wheels


def _distance(m: Array, P_s: Array, v_LO: Array, mu_r: Array, *rest: Array) -> tuple[Array, Flags]:
    """Return the integral and whether the acceleration lasts to the lift-off speed; one row a case."""
    v, thrust, drag, friction = _along(m, P_s, v_LO, mu_r, *rest)
    a = np.asarray((thrust - drag - friction) / m)
    lasts: Flags = np.asarray((a > 0).all(axis=-1))
    inner = np.where(lasts[..., None], a, 1.0)[..., :-2]
    return v_LO[..., 0] / 2 * (WEIGHTS * v[..., :-2] / inner).sum(axis=-1), lasts


def _acceleration(runner: Runner, field: Field, P: Array, m: Array, v: Array) -> Array:
    polar, C_L = runner.polar, runner.rolling_lift
    thrust = disc(P, runner.diameter, v, field.density, quality=runner.quality).computed["thrust"]
    area = field.density * v**2 * polar.area / 2
    weight = all_positive(m, "mass", "kg") * STANDARD_GRAVITY
    on_wheels = np.maximum(weight - area * C_L, 0.0)
    drag = area * (polar.zero_lift_drag + polar.induced * C_L**2)
    return np.asarray((thrust - drag - field.friction * on_wheels - weight * sin(field.slope)) / m)
