"""The standard atmosphere to 6 km: temperature, pressure, density, and the heights that they stand for.

Heights are geopotential heights of pressure, which is what an altimeter shows; :func:`geopotential_height`
leads there from a geometric height. The difference is 6 m at 6 km.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.array_bounds import all_within, columns
from dossier.compute.bounds import positive
from dossier.compute.curve import Array
from dossier.compute.energy import STANDARD_GRAVITY
from dossier.figures import OutsideRange, formula

SEA_LEVEL_TEMPERATURE = 288.15
"""In K."""
SEA_LEVEL_PRESSURE = 101325.0
"""In Pa."""
LAPSE = 0.0065
"""In K/m."""
GAS_CONSTANT = 287.05287
"""Of dry air, in J/(kg K)."""
EXPONENT = STANDARD_GRAVITY / (GAS_CONSTANT * LAPSE)
"""Of pressure over temperature: 5.25588."""
SEA_LEVEL_DENSITY = SEA_LEVEL_PRESSURE / (GAS_CONSTANT * SEA_LEVEL_TEMPERATURE)
"""1.225 kg/m³."""
EARTH_RADIUS = 6356766.0
"""In m, the radius that the standard takes."""
SCALE = SEA_LEVEL_TEMPERATURE / LAPSE
"""In m: the height at which a straight fall of temperature would end."""
HEIGHTS = (-1000.0, 6000.0)
"""In m, where this module answers."""
PRESSURES = (47181.0, 113930.0)
"""In Pa, the pressures at those heights."""
DENSITIES = (0.4127, 1.6)
"""In kg/m³, at a density altitude of 10 km and below any airfield: straight fall of temperature."""
OFFSETS = (-50.0, 50.0)
"""In K from the standard temperature."""
WATER_SHARE = 0.378
"""One less the molar mass of water over that of dry air."""


@formula
def geopotential_height(h_z: float) -> float:
    r"""Geopotential height, which pressure follows, from the geometric one.

    Formula: h_g = \frac{r \, h_z}{r + h_z}, \quad r = 6356766\,\mathrm{m}
    Result: h_g
    Valid: -1000 to 6100 m
    Source: iso-2533
    """
    if not HEIGHTS[0] <= h_z <= HEIGHTS[1] + 100:
        raise OutsideRange(f"the geometric height is {h_z:.6g} m, and must be from -1000 to 6100 m")
    return EARTH_RADIUS * h_z / (EARTH_RADIUS + h_z)


@formula
def standard_temperature(h_g: float) -> float:
    r"""Temperature of the standard atmosphere.

    Formula: T = 288.15\,\mathrm{K} - 0.0065\,\mathrm{K/m} \cdot h_g
    Result: T
    Valid: -1000 to 6000 m
    Source: iso-2533
    """
    return SEA_LEVEL_TEMPERATURE - LAPSE * _height(h_g)


@formula
def temperature_off_standard(h_p: float, dT_s: float) -> float:
    r"""Temperature of air that is warmer or colder than the standard.

    Formula: T = 288.15\,\mathrm{K} - 0.0065\,\mathrm{K/m} \cdot h_p + \Delta T_s
    Result: T
    Valid: -1000 to 6000 m, up to 50 K off the standard
    Source: iso-2533, with a difference that is the same at all heights
    """
    if not OFFSETS[0] <= dT_s <= OFFSETS[1]:
        raise OutsideRange(f"the air is {dT_s:.6g} K off the standard, and must be within 50 K of it")
    return SEA_LEVEL_TEMPERATURE - LAPSE * _height(h_p) + dT_s


@formula
def standard_pressure(h_g: float) -> float:
    r"""Pressure of the standard atmosphere.

    Formula: p = p_0 \left(1 - \frac{L \, h_g}{T_0}\right)^{5.25588}
    Result: p
    Valid: -1000 to 6000 m
    Source: iso-2533
    """
    return float(SEA_LEVEL_PRESSURE * (1 - _height(h_g) / SCALE) ** EXPONENT)


@formula
def air_density(p: float, T: float) -> float:
    r"""Density of dry air; of humid air with its virtual temperature.

    Formula: \rho = \frac{p}{287.05287\,\mathrm{J/(kg\,K)} \cdot T}
    Result: rho
    Valid: positive pressure and temperature
    Source: iso-2533
    """
    return positive(p, "pressure", "Pa") / (GAS_CONSTANT * positive(T, "temperature", "K"))


@formula
def vapour_pressure(T_d: float) -> float:
    r"""Pressure of water vapour, from the dew point.

    Formula: p_v = 611.2\,\mathrm{Pa} \cdot
        e^{\frac{17.62 \, (T_d - 273.15\,\mathrm{K})}{T_d - 30.03\,\mathrm{K}}}
    Result: p_v
    Valid: dew points from -45 to 60 °C, over water
    Source: wmo-8
    """
    if not 228.15 <= T_d <= 333.15:
        raise OutsideRange(f"the dew point is {T_d - 273.15:.1f} °C, and must be from -45 to 60 °C")
    return 611.2 * exp(17.62 * (T_d - 273.15) / (T_d - 30.03))


@formula
def virtual_temperature(T: float, p_v: float, p: float) -> float:
    r"""Temperature at which dry air would be as light as this humid air.

    Formula: T_v = \frac{T}{1 - 0.378 \, p_v / p}
    Result: T_v
    Valid: vapour pressure up to a tenth of the pressure
    Source: derived, from the molar masses of water and dry air
    """
    if not 0 <= p_v <= p / 10:
        raise OutsideRange(f"the vapour pressure is {p_v:.6g} Pa, and must be from 0 to {p / 10:.6g} Pa")
    return T / (1 - WATER_SHARE * p_v / p)


@formula
def pressure_altitude(p: float) -> float:
    r"""Height at which the standard atmosphere has this pressure.

    Formula: h_p = \frac{T_0}{L} \left(1 - \left(\frac{p}{p_0}\right)^{1/5.25588}\right)
    Result: h_p
    Valid: pressures from 47181 to 113930 Pa
    Source: iso-2533, solved for the height
    """
    low, high = PRESSURES
    if not low <= p <= high:
        raise OutsideRange(f"the pressure is {p:.6g} Pa, and must be from {low:.6g} to {high:.6g} Pa")
    return float(SCALE * (1 - (p / SEA_LEVEL_PRESSURE) ** (1 / EXPONENT)))


@formula
def pressure_altitude_from_qnh(h_z: float, p_QNH: float) -> float:
    r"""Pressure altitude of a field, from its elevation and the altimeter setting.

    Formula: h_p = h_z + \frac{T_0}{L} \left(1 - \left(\frac{p_{QNH}}{p_0}\right)^{1/5.25588}\right)
    Result: h_p
    Valid: elevations from -1000 to 6000 m, settings from 870 to 1090 hPa
    Source: iso-2533, an altimeter moved by the setting
    """
    if not 87000 <= p_QNH <= 109000:
        raise OutsideRange(
            f"the altimeter setting is {p_QNH / 100:.6g} hPa, and must be from 870 to 1090 hPa"
        )
    return _height(h_z) + pressure_altitude(p_QNH)


@formula
def density_altitude(rho: float) -> float:
    r"""Height at which the standard atmosphere has this density.

    Formula: h_\rho = \frac{T_0}{L} \left(1 - \left(\frac{\rho}{\rho_0}\right)^{1/4.25588}\right)
    Result: h_rho
    Valid: densities from 0.4127 to 1.6 kg/m³; humid air counts with its own density
    Source: iso-2533, solved for the height
    """
    low, high = DENSITIES
    if not low <= rho <= high:
        raise OutsideRange(f"the density is {rho:.6g} kg/m³, and must be from {low:.6g} to {high:.6g} kg/m³")
    return float(SCALE * (1 - (rho / SEA_LEVEL_DENSITY) ** (1 / (EXPONENT - 1))))


def _height(h: float) -> float:
    low, high = HEIGHTS
    if not low <= h <= high:
        raise OutsideRange(f"the height is {h:.6g} m, and must be from {low:.6g} to {high:.6g} m")
    return h


@dataclass(frozen=True, eq=False)
class Air:
    """Air of many cases: one row a case."""

    temperature: Array
    """In K."""
    pressure: Array
    """In Pa."""
    density: Array
    """In kg/m³."""


def air(height: ArrayLike, offset: ArrayLike = 0.0) -> Air:
    """Return dry air at pressure heights, warmer or colder than the standard.

    Args:
        height: pressure height in m, -1000 to 6000.
        offset: in K from the standard temperature, -50 to 50.

    Raises:
        OutsideRange: a height or an offset outside its range.

    Source: iso-2533; same numbers as :func:`standard_pressure` and :func:`air_density`.
    """
    h, dT = columns(height, offset)
    all_within(h, HEIGHTS, "height", "m")
    all_within(dT, OFFSETS, "offset from the standard temperature", "K")
    p = SEA_LEVEL_PRESSURE * (1 - h / SCALE) ** EXPONENT
    T = SEA_LEVEL_TEMPERATURE - LAPSE * h + dT
    return Air(T, np.asarray(p), np.asarray(p / (GAS_CONSTANT * T)))
