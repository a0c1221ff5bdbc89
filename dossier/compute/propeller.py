"""The propeller as an ideal disc: a ceiling for thrust and efficiency, never the estimate."""

from __future__ import annotations

from math import pi

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_positive, all_within, columns
from dossier.compute.bounds import efficiency, positive
from dossier.compute.flight_outcome import Answers, answers
from dossier.compute.level import bisect
from dossier.figures import formula


@formula
def static_thrust(P_s: float, D_p: float, rho: float, k_p: float) -> float:
    r"""Thrust of a disc that stands still; with a figure of merit of 1 the most that any propeller gives.

    Formula: T_0 = \sqrt[3]{\frac{\pi}{2} \, \rho \, D_p^2 \, (k_p \, P_s)^2}
    Result: T_s
    Valid: momentum theory, free air; a figure of merit above 0 and up to 1
    Source: momentum-theory, static case
    """
    swept = pi / 2 * positive(rho, "density", "kg/m³") * positive(D_p, "diameter of the propeller", "m") ** 2
    return float((swept * (efficiency(k_p) * positive(P_s, "shaft power", "W")) ** 2) ** (1 / 3))


@formula
def disc_efficiency(P_s: float, D_p: float, v: float, rho: float) -> float:
    r"""Efficiency that no propeller of this diameter passes at this power and speed.

    Formula: \eta_d = \frac{v}{v + v_i}, \quad \frac{\pi}{2} \, \rho \, D_p^2 \, v_i \, (v + v_i)^2 = P_s
    Result: eta_d
    Valid: momentum theory, free air, a positive speed; no swirl, no friction
    Source: momentum-theory, moving case
    """
    return float(disc(P_s, D_p, positive(v, "speed", "m/s"), rho).computed["efficiency"])


def disc(
    shaft_power: ArrayLike,
    diameter: ArrayLike,
    speed: ArrayLike,
    density: ArrayLike,
    *,
    quality: ArrayLike = 1.0,
) -> Answers:
    """Return the thrust of a disc at true speeds.

    Args:
        shaft_power: in W.
        diameter: in m.
        speed: in m/s, 0 or more.
        density: in kg/m³.
        quality: part of the shaft power that reaches the disc; 1 gives the ceiling, about 0.75 a fair small
            propeller (own judgement).

    Returns:
        columns ``thrust`` in N, ``efficiency`` (thrust power over shaft power), ``inflow`` in m/s.

    Raises:
        OutsideRange: a value outside these ranges.

    Source: momentum-theory: T (v + v_i) = k P, T = 2 rho A_d v_i (v + v_i).
    """
    P, D, v, rho, k = columns(shaft_power, diameter, speed, density, quality)
    all_positive(P, "shaft power", "W")
    all_positive(D, "diameter of the propeller", "m")
    all_positive(rho, "density", "kg/m³")
    all_within(v, (0.0, np.inf), "speed", "m/s")
    all_within(k, (1e-3, 1.0), "quality", "")
    swept = pi / 2 * rho * D**2
    top = (k * P / swept) ** (1 / 3)
    inflow = bisect(
        lambda v_i: np.asarray(swept * v_i * (v + v_i) ** 2 - k * P), np.zeros_like(P), np.asarray(top)
    )
    thrust = k * P / (v + inflow)
    return answers({"thrust": thrust, "efficiency": thrust * v / P, "inflow": inflow})
