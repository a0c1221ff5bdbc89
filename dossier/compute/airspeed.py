"""Airspeeds: calibrated, true, impact pressure; sound and viscosity of air."""

from __future__ import annotations

from math import expm1, log1p, sqrt

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_within, columns
from dossier.compute.atmosphere import (
    GAS_CONSTANT,
    SEA_LEVEL_DENSITY,
    SEA_LEVEL_PRESSURE,
    SEA_LEVEL_TEMPERATURE,
    Air,
)
from dossier.compute.bounds import not_negative, positive
from dossier.compute.curve import Array
from dossier.figures import OutsideRange, formula

FASTEST = 150.0
"""In m/s: beyond, the sheets here are not asked for."""
HEAT_RATIO = 1.4
SOUND = sqrt(HEAT_RATIO * GAS_CONSTANT * SEA_LEVEL_TEMPERATURE)
"""Speed of sound at sea level in the standard atmosphere, in m/s."""


@formula
def speed_of_sound(T: float) -> float:
    r"""Speed of sound in dry air.

    Formula: a = \sqrt{1.4 \cdot 287.05287\,\mathrm{J/(kg\,K)} \cdot T}
    Result: a
    Valid: a positive temperature
    Source: iso-2533
    """
    return sqrt(HEAT_RATIO * GAS_CONSTANT * positive(T, "temperature", "K"))


def viscosity(T: ArrayLike) -> Array:
    """Return the dynamic viscosity of air in Pa s at temperatures in K.

    Valid: 200 to 330 K. Source: iso-2533, Sutherland's law with 1.458e-6 kg/(m s K^0.5) and 110.4 K.

    Raises:
        OutsideRange: a temperature outside.
    """
    (kelvin,) = columns(T)
    all_within(kelvin, (200.0, 330.0), "temperature", "K")
    return np.asarray(1.458e-6 * kelvin**1.5 / (kelvin + 110.4))


@formula
def impact_pressure(v_CAS: float) -> float:
    r"""Pressure that an airspeed indicator turns into a calibrated airspeed.

    Formula: q_c = p_0 \left(\left(1 + \frac{v_{CAS}^2}{5 \, a_0^2}\right)^{7/2} - 1\right)
    Result: q_c
    Valid: 0 to 150 m/s
    Source: cas, solved for the pressure
    """
    return SEA_LEVEL_PRESSURE * expm1(3.5 * log1p((_speed(v_CAS) / SOUND) ** 2 / 5))


@formula
def calibrated_airspeed(q_c: float) -> float:
    r"""Calibrated airspeed from the impact pressure.

    Formula: v_{CAS} = a_0 \sqrt{5 \left(\left(\frac{q_c}{p_0} + 1\right)^{2/7} - 1\right)}
    Result: v_CAS
    Valid: an impact pressure of 0 or more, to 150 m/s
    Source: cas
    """
    ratio = not_negative(q_c, "impact pressure", "Pa") / SEA_LEVEL_PRESSURE
    return _speed(SOUND * sqrt(5 * expm1(2 / 7 * log1p(ratio))))


@formula
def true_airspeed(v_CAS: float, p: float, T: float) -> float:
    r"""True airspeed from the calibrated one, with compressibility.

    Formula: v_{TAS} = a \sqrt{5 \left(\left(\frac{q_c}{p} + 1\right)^{2/7} - 1\right)}
    Result: v_TAS
    Valid: 0 to 150 m/s calibrated; pressure and temperature of the air around
    Source: cas, with the pressure and the speed of sound of the air around
    """
    ratio = impact_pressure(v_CAS) / positive(p, "pressure", "Pa")
    return speed_of_sound(T) * sqrt(5 * expm1(2 / 7 * log1p(ratio)))


@formula
def calibrated_from_true(v_TAS: float, p: float, T: float) -> float:
    r"""Calibrated airspeed from the true one, with compressibility.

    Formula: v_{CAS} = a_0 \sqrt{5 \left(\left(\frac{p}{p_0}\left(\left(1 + \frac{v_{TAS}^2}{5 \, a^2}
        \right)^{7/2} - 1\right) + 1\right)^{2/7} - 1\right)}
    Result: v_CAS
    Valid: 0 to 150 m/s; pressure and temperature of the air around
    Source: cas, solved for the calibrated airspeed
    """
    ratio = expm1(3.5 * log1p((_speed(v_TAS) / speed_of_sound(T)) ** 2 / 5))
    return calibrated_airspeed(positive(p, "pressure", "Pa") * ratio)


@formula
def true_from_density(v_CAS: float, rho: float) -> float:
    r"""True airspeed from the calibrated one, without compressibility.

    Formula: v_{TAS} = v_{CAS} \sqrt{\frac{1.225\,\mathrm{kg/m^3}}{\rho}}
    Result: v_TAS
    Valid: below 60 m/s and 3000 m, where it is at most 0.2 % high
    Source: derived, equal dynamic pressure
    """
    return _speed(v_CAS) * sqrt(SEA_LEVEL_DENSITY / positive(rho, "density", "kg/m³"))


def true_airspeeds(calibrated: ArrayLike, around: Air) -> Array:
    """Return :func:`true_airspeed` in m/s of many cases; source and range as there."""
    (v,) = columns(calibrated)
    all_within(v, (0.0, FASTEST), "airspeed", "m/s")
    q = SEA_LEVEL_PRESSURE * np.expm1(3.5 * np.log1p((v / SOUND) ** 2 / 5))
    mach = np.sqrt(5 * np.expm1(2 / 7 * np.log1p(q / around.pressure)))
    return np.asarray(np.sqrt(HEAT_RATIO * GAS_CONSTANT * around.temperature) * mach)


def _speed(v: float) -> float:
    if not 0 <= v <= FASTEST:
        raise OutsideRange(f"the airspeed is {v:.6g} m/s, and must be from 0 to {FASTEST:g} m/s")
    return v
