"""Glide reach of many cases in wind and moving air: the best speed to fly and how far it leads."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_positive, columns
from dossier.compute.curve import Array
from dossier.compute.flight_outcome import OBSTACLES, Answers, Clamp, Obstacle, answers
from dossier.compute.glide import Drag, Polar, drag
from dossier.compute.level import bisect
from dossier.figures import OutsideRange, formula


@dataclass(frozen=True, eq=False)
class Wind:
    """What the air does, in m/s."""

    head: Array
    """Against the flight; a tailwind is negative."""
    down: Array
    """Sinking; rising air is negative."""


def wind(head: ArrayLike = 0.0, down: ArrayLike = 0.0) -> Wind:
    """Put winds side by side.

    Raises:
        OutsideRange: a value is no finite number.
    """
    return Wind(*columns(head, down))


def best_to_fly(
    polar: Polar, mass: ArrayLike, density: ArrayLike, moving: Wind, *, fastest: ArrayLike
) -> Answers:
    """Return the speed that leads farthest over the ground, between 1.1 times the stall and ``fastest``.

    Args:
        polar: the wing.
        mass: in kg.
        density: in kg/m³.
        moving: wind and air motion.
        fastest: true speed in m/s that is not to be passed, such as V_NE or the limit in rough air.

    Returns:
        columns true ``speed`` and own ``sink`` in m/s, ``ratio`` of distance to height over the ground;
        ``Obstacle.NO_ADVANCE`` or ``NO_DESCENT``; see the clamp.

    Raises:
        OutsideRange: a value that is not positive.

    Source: derived, least slope of a tangent to the polar: (v - u)(3 A v⁴ - B) = A v⁵ + B v + s W v².
    """
    m, rho, u, s, v_max = columns(mass, density, moving.head, moving.down, fastest)
    all_positive(v_max, "fastest speed", "m/s")
    at = drag(polar, m, rho)
    tangent = Tangent(at, u, s)
    slowest = np.maximum(at.slowest, u)
    beyond = 2 * (at.best_glide_speed + abs(u) + (abs(s) * at.weight / at.square) ** (1 / 3))
    raised = tangent(at.slowest) > 0
    free = np.where(raised, at.slowest, bisect(tangent, slowest, np.maximum(slowest, beyond)))
    v = np.minimum(free, np.maximum(v_max, at.slowest))
    clamp = np.select([v < free, raised], [Clamp.FASTEST, Clamp.STALL_MARGIN], Clamp.NONE)
    floats = at.sink(np.maximum(at.least_power_speed, at.slowest)) + s <= 0
    obstacle = np.select(
        [v_max < at.slowest, v <= u, floats],
        [Obstacle.STALLED, Obstacle.NO_ADVANCE, Obstacle.NO_DESCENT],
        Obstacle.NONE,
    )
    w = at.sink(v)
    slope = np.where(obstacle == Obstacle.NONE, w + s, 1.0)
    return answers({"speed": v, "sink": w, "ratio": (v - u) / slope}, obstacle=obstacle, clamp=clamp)


@dataclass(frozen=True, eq=False)
class Tangent:
    """Slope of the polar less that of the line from the wind to it: negative below the best speed."""

    at: Drag
    head: Array
    down: Array

    def __call__(self, v: Array) -> Array:
        """Evaluate at true speeds in m/s."""
        A, B = self.at.square, self.at.inverse
        rise = (v - self.head) * (3 * A * v**4 - B)
        return np.asarray(rise - A * v**5 - B * v - self.down * self.at.weight * v**2)


def reach(polar: Polar, speed: ArrayLike, mass: ArrayLike, density: ArrayLike, *, moving: Wind) -> Answers:
    """Return how far a glide leads at true speeds in m/s that are flown, whether best or not.

    Returns:
        columns ``ratio`` of distance over the ground to height, own ``sink`` in m/s; ``Obstacle.STALLED``,
        ``NO_ADVANCE`` or ``NO_DESCENT``. The distance from a height is height times ``ratio``; room for the
        circuit and the flare is to be taken off by the pilot.

    Raises:
        OutsideRange: a value that is not positive.
    """
    v, m, rho, u, s = columns(speed, mass, density, moving.head, moving.down)
    all_positive(v, "speed", "m/s")
    at = drag(polar, m, rho)
    w = at.sink(v)
    obstacle = np.select(
        [v < at.stall, v <= u, w + s <= 0],
        [Obstacle.STALLED, Obstacle.NO_ADVANCE, Obstacle.NO_DESCENT],
        Obstacle.NONE,
    )
    slope = np.where(obstacle == Obstacle.NONE, w + s, 1.0)
    return answers({"ratio": (v - u) / slope, "sink": w}, obstacle=obstacle)


@formula
def speed_to_fly(
    m: float, S: float, rho: float, v_w: float, *, v_a: float, v_max: float, C_D0: float, K: float,
    C_Lmax: float,
) -> float:  # fmt: skip
    r"""Speed that leads farthest over the ground in wind and sinking air.

    Formula: v = \mathrm{argmax}_{1.1 v_S \le v \le v_{max}} \frac{v - v_w}{w(v) + v_a}, \quad
        w(v) = \frac{A \, v^3 + B / v}{m \, g}, \quad A = \frac{\rho \, S \, C_{D0}}{2}, \quad
        B = \frac{2 \, K \, (m \, g)^2}{\rho \, S}, \quad g = 9.80665\,\mathrm{m/s^2}
    Result: v
    Valid: no motor; the end of the range where the equation has no root within it
    Source: derived, least slope of a tangent to the polar
    """
    wing = Polar(C_D0, K, S, C_Lmax)
    found = best_to_fly(wing, m, rho, wind(v_w, v_a), fastest=v_max).one("speed")
    if isinstance(found, Obstacle):
        raise OutsideRange(OBSTACLES[found])
    return found


@formula
def reach_in_wind(v: float, w: float, v_w: float, v_a: float) -> float:
    r"""Distance over the ground for height lost.

    Formula: \epsilon = \frac{v - v_w}{w + v_a}
    Result: l_d
    Valid: a speed above the headwind; the aircraft descends
    Source: derived, speed over the ground over speed of the descent
    """
    if not v > v_w or not w + v_a > 0:
        raise OutsideRange(
            f"at {v:.6g} m/s against {v_w:.6g} m/s, sinking {w + v_a:.6g} m/s, a reach has no number"
        )
    return (v - v_w) / (w + v_a)
