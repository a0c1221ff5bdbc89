"""Stall: speed, lift coefficient, area that a limit of speed asks for, manoeuvring speed.

Rules ask for calibrated speeds, so the density is that at sea level in the standard atmosphere: 1.225 kg/m³.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_positive, columns
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY
from dossier.compute.bounds import positive, root
from dossier.compute.curve import Array
from dossier.compute.energy import STANDARD_GRAVITY
from dossier.figures import elementwise, formula


@elementwise
def stall_speed(m: float, S: float, C_Lmax: float, *, g: float, n: float = 1.0) -> float:
    r"""Calibrated stalling speed at a load factor.

    Formula: v_S = \sqrt{\frac{2 \, n \, m \, g}{\rho_0 \, S \, C_{Lmax}}}
    Result: v_S
    Valid: a lift coefficient of the whole aircraft in the configuration, power off; no change with scale
    Source: fossee-anderson, definition of the lift coefficient
    """
    area = positive(S, "wing area", "m²") * positive(C_Lmax, "maximum lift coefficient")
    load = positive(n, "load factor") * positive(m, "mass", "kg") * g
    return root(2 * load / (SEA_LEVEL_DENSITY * area))


@formula
def lift_coefficient(m: float, S: float, v_CAS: float, *, g: float) -> float:
    r"""Lift coefficient in level flight; at the stalling speed it is the greatest one.

    Formula: C_L = \frac{2 \, m \, g}{\rho_0 \, S \, v_{CAS}^2}
    Result: C_L
    Valid: calibrated speed, unaccelerated flight, small angles
    Source: definition
    """
    speed = positive(v_CAS, "speed", "m/s")
    return 2 * positive(m, "mass", "kg") * g / (SEA_LEVEL_DENSITY * positive(S, "wing area", "m²") * speed**2)


@formula
def required_area(m: float, v_S: float, C_Lmax: float, *, g: float) -> float:
    r"""Least wing area that keeps a limit of calibrated stalling speed.

    Formula: S = \frac{2 \, m \, g}{\rho_0 \, C_{Lmax} \, v_S^2}
    Result: S
    Valid: as for the stalling speed
    Source: derived, stalling speed solved for the area
    """
    pressure = SEA_LEVEL_DENSITY * positive(v_S, "stalling speed", "m/s") ** 2 / 2
    return positive(m, "mass", "kg") * g / (pressure * positive(C_Lmax, "maximum lift coefficient"))


@formula
def greatest_wing_loading(v_S: float, C_Lmax: float, *, g: float) -> float:
    r"""Greatest wing loading that keeps a limit of calibrated stalling speed.

    Formula: \sigma = \frac{\rho_0 \, C_{Lmax} \, v_S^2}{2 \, g}
    Result: sigma
    Valid: as for the stalling speed
    Source: derived, stalling speed solved for the wing loading
    """
    speed = positive(v_S, "stalling speed", "m/s")
    return SEA_LEVEL_DENSITY * positive(C_Lmax, "maximum lift coefficient") * speed**2 / (2 * g)


@formula
def manoeuvring_speed(v_S: float, n: float) -> float:
    r"""Speed up to which full deflection of a control stalls the wing before it passes the load factor.

    Formula: v_A = v_S \sqrt{n}
    Result: v_A
    Valid: stalling speed and load factor at the same mass and configuration
    Source: derived, from lift in proportion to the square of speed
    """
    return positive(v_S, "stalling speed", "m/s") * sqrt(positive(n, "load factor"))


def stall_speeds(mass: ArrayLike, area: float, lift_maximum: float) -> Array:
    """Return :func:`stall_speed` at load factor 1 in m/s of many masses in kg; area in m².

    Raises:
        OutsideRange: a value that is not positive.
    """
    (m,) = columns(mass)
    all_positive(m, "mass", "kg")
    lifting = positive(area, "wing area", "m²") * positive(lift_maximum, "maximum lift coefficient")
    wing = SEA_LEVEL_DENSITY * lifting
    return np.asarray(np.sqrt(2 * m * STANDARD_GRAVITY / wing))
