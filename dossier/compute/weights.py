"""Weighing and balance: net masses, moments, centre of gravity.

Arms are positive behind the datum, and positive to the right on the lateral axis. A removed item has a
negative mass. With
signs kept, one formula serves every gear and every datum, an equipment change, a shifted item and a loading.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, radians, tan

from dossier.compute.bounds import positive, sum_of, where_holds
from dossier.figures import OutsideRange, elementwise, formula

LARGEST_LEVELLING_ANGLE = radians(5)
"""Beyond it the arms, measured along the tilted aircraft, would have to be corrected as well."""


@elementwise
def net_mass(m_scale: float, m_tare: float) -> float:
    r"""Net mass on a support.

    Formula: m_{net} = m_{scale} - m_{tare}
    Result: m_net
    Valid: the tare is not larger than the reading
    Source: faa-h-8083-30b, figure 6-28
    """
    return where_holds(
        m_scale - m_tare,
        m_tare <= m_scale,
        lambda: OutsideRange(
            f"the tare of {m_tare:.6g} kg is larger than the reading of {m_scale:.6g} kg",
            "the tare is larger than the reading",
        ),
    )


@elementwise
def total_mass(m_i: Sequence[float]) -> float:
    r"""Total of masses; what is removed counts negative.

    Formula: m = \sum_i m_i
    Result: m
    Valid: always
    Source: faa-h-8083-30b, figure 6-7
    """
    return sum_of(m_i)


@elementwise
def moment(m: float, x: float) -> float:
    r"""Moment of a mass about the datum.

    Formula: M = m \, x
    Result: M
    Valid: always; mass and arm keep their signs
    Source: faa-h-8083-30b, figures 6-2 and 6-3
    """
    return m * x


@formula
def total_moment(m_i: Sequence[float], x_i: Sequence[float]) -> float:
    r"""Sum of the moments about the datum.

    Formula: M = \sum_i m_i x_i
    Result: M
    Valid: as many arms as masses
    Source: faa-h-8083-30b, figure 6-7
    """
    return fsum(m * x for m, x in zip(m_i, x_i, strict=True))


@formula
def arm_of_moment(M: float, m: float) -> float:
    r"""Arm at which a mass has a moment.

    Formula: x = \frac{M}{m}
    Result: x
    Valid: the mass is not zero
    Source: faa-h-8083-30b, figure 6-7
    """
    if m == 0:
        raise OutsideRange("a mass of 0 kg has no arm")
    return M / m


@elementwise
def centre_of_gravity(m_i: Sequence[float], x_i: Sequence[float]) -> float:
    r"""Arm of the centre of gravity, longitudinal or lateral.

    Formula: x_{CG} = \frac{\sum_i m_i x_i}{\sum_i m_i}
    Result: x_CG
    Valid: the total mass is positive; as many arms as masses
    Source: faa-h-8083-30b, figure 6-7
    """
    total = sum_of(m_i)
    moments = sum_of(m * x for m, x in zip(m_i, x_i, strict=True))
    return moments / where_holds(
        total,
        total > 0,
        lambda: OutsideRange(
            f"the masses add up to {total:.6g} kg, and must add up to a positive total",
            "the masses add up to nothing",
        ),
    )


@elementwise
def chord_fraction(x_CG: float, x_LEMAC: float, c_MAC: float) -> float:
    r"""Place of the centre of gravity as a fraction of the mean aerodynamic chord.

    Formula: p_{MAC} = \frac{x_{CG} - x_{LEMAC}}{c_{MAC}}
    Result: p_MAC
    Valid: the chord is positive
    Source: faa-h-8083-30b, figure 6-54
    """
    return (x_CG - x_LEMAC) / positive(c_MAC, "mean aerodynamic chord", "m")


@formula
def arm_at_chord_fraction(p_MAC: float, x_LEMAC: float, c_MAC: float) -> float:
    r"""Arm of a place given as a fraction of the mean aerodynamic chord.

    Formula: x = x_{LEMAC} + p_{MAC} \, c_{MAC}
    Result: x
    Valid: the chord is positive
    Source: faa-h-8083-30b, page 6-31
    """
    return x_LEMAC + p_MAC * positive(c_MAC, "mean aerodynamic chord", "m")


@formula
def levelling_error(h_CG: float, alpha: float) -> float:
    r"""Apparent shift of the centre of gravity when the aircraft is weighed out of level.

    Formula: \Delta x = h_{CG} \tan\alpha
    Result: dx_level
    Valid: up to 5 degrees out of level; positive (aft) with the nose up
    Source: derived, from the moments about the support line
    """
    if abs(alpha) > LARGEST_LEVELLING_ANGLE:
        raise OutsideRange(f"the aircraft is {alpha:.4g} rad out of level, and 0.0873 (5 deg) is the most")
    return h_CG * tan(alpha)


@elementwise
def levelled_arm(x: float, dx_level: float) -> float:
    r"""Arm of the centre of gravity, freed of the shift from weighing out of level.

    Formula: x_{CG} = x - \Delta x
    Result: x_CG
    Valid: always
    Source: derived, from the moments about the support line
    """
    return x - dx_level
