"""Level flight of many cases: power at the air, the shaft and the pack, the top speed, the thriftiest speeds.

Efficiencies are those at the power in question. The loss in the battery is left to the model of the cell.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import prod

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_positive, columns
from dossier.compute.bounds import efficiency, larger, positive
from dossier.compute.curve import Array, Curve
from dossier.compute.flight_outcome import OBSTACLES, Answers, Obstacle, answers
from dossier.compute.glide import Polar, Polars, drag
from dossier.compute.polar import STALL_MARGIN
from dossier.figures import OutsideRange, elementwise, formula

HALVINGS = 80
"""Of an interval in a bisection: more than the digits of a float."""
GRID = 2000
"""Speeds that a tabulated efficiency is looked at."""


@dataclass(frozen=True)
class Drive:
    """Efficiencies from the battery's terminals to the thrust."""

    controller: float
    motor: float
    propeller: float

    def __post_init__(self) -> None:
        """Refuse an efficiency that is none.

        Raises:
            OutsideRange: not above 0 and at most 1.
        """
        for link in (self.controller, self.motor, self.propeller):
            efficiency(link)

    @property
    def whole(self) -> float:
        """From the terminals to the thrust."""
        return self.controller * self.motor * self.propeller


@formula
def shaft_power(m: float, w: float, g: float, eta_p: float) -> float:
    r"""Power at the shaft that keeps height.

    Formula: P_s = \frac{m \, g \, w}{\eta_p}
    Result: P_s
    Valid: an efficiency of the propeller above 0 and up to 1, at that speed and power
    Source: derived, balance of energy in steady flight
    """
    return m * g * w / efficiency(eta_p)


@formula
def full_shaft_power(P: float, eta_i: Sequence[float]) -> float:
    r"""Power at the shaft, from the power that the battery gives.

    Formula: P_s = P \prod_i \eta_i
    Result: P_s
    Valid: efficiencies of controller and motor above 0 and up to 1, at that power
    Source: derived, product of the links
    """
    return positive(P, "power", "W") * prod(efficiency(link) for link in eta_i)


@elementwise
def best_endurance_speed(v_bg: float, v_S: float) -> float:
    r"""Speed of the longest level flight, never nearer to the stall than the parabola holds.

    Formula: v_E = \max\left(3^{-1/4} \, v_{bg}, \; 1.1 \, v_S\right)
    Result: v_E
    Valid: an electric drive whose mass does not fall, one efficiency at all speeds; both speeds at the same
    mass, and both true or both calibrated
    Source: derived, least power of the parabola
    """
    return larger(
        3**-0.25 * positive(v_bg, "speed of the best glide", "m/s"),
        STALL_MARGIN * positive(v_S, "stalling speed", "m/s"),
    )


@elementwise
def best_range_speed(v_bg: float, v_S: float) -> float:
    r"""Speed of the longest way in still air, never nearer to the stall than the parabola holds.

    Formula: v_R = \max\left(v_{bg}, \; 1.1 \, v_S\right)
    Result: v_R
    Valid: an electric drive whose mass does not fall, one efficiency at all speeds, still air; both speeds at
    the same mass, and both true or both calibrated
    Source: derived, least drag of the parabola
    """
    return larger(
        positive(v_bg, "speed of the best glide", "m/s"),
        STALL_MARGIN * positive(v_S, "stalling speed", "m/s"),
    )


def power_required(
    polar: Polar, drive: Drive, speed: ArrayLike, mass: ArrayLike, *, density: ArrayLike
) -> Answers:
    """Return the power of level flight at true speeds in m/s, masses in kg and densities in kg/m³.

    Returns:
        columns ``air``, ``shaft`` and ``pack`` in W; ``Obstacle.STALLED`` where the wing cannot carry.

    Raises:
        OutsideRange: a value that is not positive.
    """
    v, m, rho = columns(speed, mass, density)
    all_positive(v, "speed", "m/s")
    at = drag(polar, m, rho)
    P = at.force(v) * v
    obstacle = np.where(v < at.stall, Obstacle.STALLED, Obstacle.NONE)
    shaft = P / drive.propeller
    return answers(
        {"air": P, "shaft": shaft, "pack": shaft / (drive.motor * drive.controller)}, obstacle=obstacle
    )


def top_speed(polar: Polar | Polars, thrust_power: ArrayLike, mass: ArrayLike, density: ArrayLike) -> Answers:
    """Return the fastest level flight, the largest root of A v⁴ - P v + B, by bisection.

    Args:
        polar: the wing.
        thrust_power: power behind the propeller in W, the same at all speeds.
        mass: in kg.
        density: in kg/m³.

    Returns:
        column ``speed`` in m/s, true; ``Obstacle.NO_LEVEL_FLIGHT`` where the power is too small at every
        speed, or enough only below the stall.

    Raises:
        OutsideRange: a value that is not positive.

    Source: derived, power of thrust equal to power of drag.
    """
    P, m, rho = columns(thrust_power, mass, density)
    all_positive(P, "power", "W")
    at = drag(polar, m, rho)

    def lacking(v: Array) -> Array:
        return np.asarray(at.square * v**4 - P * v + at.inverse)

    low = at.least_power_speed
    none = lacking(low) > 0
    v = bisect(lacking, low, np.maximum(low, (P / at.square) ** (1 / 3)))
    return answers(
        {"speed": v}, obstacle=np.where(none | (v < at.stall), Obstacle.NO_LEVEL_FLIGHT, Obstacle.NONE)
    )


@formula
def level_top_speed(
    P: float, eta: float, m: float, S: float, *, rho: float, C_D0: float, K: float, C_Lmax: float
) -> float:  # fmt: skip
    r"""Fastest level flight: the power of the thrust is that of the drag.

    Formula: v_H = \max\{v : A \, v^4 - \eta \, P \, v + B = 0\}, \quad A = \frac{\rho \, S \, C_{D0}}{2},
        \quad B = \frac{2 \, K \, (m \, g)^2}{\rho \, S}, \quad g = 9.80665\,\mathrm{m/s^2}
    Result: v_H
    Valid: the largest root, above the stalling speed; one efficiency at all speeds; true
        speed at that density
    Source: derived, power of thrust equal to power of drag
    """
    wing = Polar(C_D0, K, S, C_Lmax)
    found = top_speed(wing, efficiency(eta) * positive(P, "power", "W"), m, rho).one("speed")
    if isinstance(found, Obstacle):
        raise OutsideRange(OBSTACLES[found])
    return found


@formula
def drag_power(m: float, w: float, g: float) -> float:
    r"""Power that the drag takes in level flight: the power that is lost in a glide at the same speed.

    Formula: P = m \, g \, w
    Result: P
    Valid: small glide angles; sink rate at the speed and mass of the level flight
    Source: derived, balance of energy in steady flight
    """
    return positive(m, "mass", "kg") * g * w


def bisect(function: Callable[[Array], Array], low: Array, high: Array) -> Array:
    """Return where a function that is negative at ``low`` and positive at ``high`` is zero, case by case."""
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        below = function(middle) < 0
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.asarray((low + high) / 2)


@dataclass(frozen=True)
class Thrifty:
    """The speeds of a drive whose efficiency changes with speed: true speeds in m/s."""

    endurance_speed: float
    endurance_power: float
    """Power into the drive, in W."""
    range_speed: float
    range_power: float


def thriftiest(polar: Polar, chain: Curve, mass: float, density: float) -> Thrifty:
    """Return the speeds of the longest time and the longest way in still air, on a grid of 2000 speeds.

    Args:
        polar: the wing.
        chain: efficiency over true speed in m/s, from 1.1 times the stalling speed or below.
        mass: in kg.
        density: in kg/m³.

    Raises:
        OutsideRange: the table ends below 1.1 times the stalling speed, begins above it, or holds no
        efficiency.
    """
    at = drag(polar, mass, density)
    slowest = float(at.slowest)
    if not chain.x[0] <= slowest < chain.x[-1]:
        raise OutsideRange(
            f"the table of efficiency goes from {chain.x[0]:.4g} to {chain.x[-1]:.4g} m/s, "
            f"and must hold {slowest:.4g} m/s, 1.1 times the stalling speed"
        )
    for eta in chain.y:
        efficiency(eta)
    v = np.linspace(slowest, chain.x[-1], GRID)
    P = at.force(v) * v / chain.along(v)
    longest, farthest = int(np.argmin(P)), int(np.argmin(P / v))
    return Thrifty(float(v[longest]), float(P[longest]), float(v[farthest]), float(P[farthest]))
