r"""The drag polar as two numbers, and what follows from it at one mass and density: sheets for the working.

    C_D = C_D0 + K C_L²      D = A v² + B / v²      A = rho S C_D0 / 2      B = 2 K (m g)² / (rho S)

Lift is taken equal to weight: at a glide ratio of 10 the speed of the best glide is then 0.2 % high and the
ratio exact. The parabola does not hold near the stall; nothing here is quoted below 1.1 times the stalling
speed.
"""

from __future__ import annotations

from math import atan, cos, pi, sqrt

from dossier.compute.bounds import larger, not_negative, positive, root
from dossier.figures import OutsideRange, elementwise, formula

STALL_MARGIN = 1.1
"""Lowest speed of an optimum over the stalling speed; our own choice, not a rule."""


@formula
def aspect_ratio(b_w: float, S: float) -> float:
    r"""Aspect ratio of the wing.

    Formula: A_R = \frac{b_w^2}{S}
    Result: A_R
    Valid: positive span and area, the area with the part inside the fuselage
    Source: definition
    """
    return positive(b_w, "span", "m") ** 2 / positive(S, "wing area", "m²")


@formula
def induced_drag_factor(e: float, A_R: float) -> float:
    r"""Factor of the square of lift coefficient in the drag coefficient.

    Formula: K = \frac{1}{\pi \, e \, A_R}
    Result: K
    Valid: an Oswald factor above 0 and up to 1
    Source: fossee-anderson, example 6.12
    """
    if not 0 < e <= 1:
        raise OutsideRange(f"the Oswald factor is {e:.6g}, and must be above 0 and at most 1")
    return 1 / (pi * e * positive(A_R, "aspect ratio"))


@elementwise
def best_glide_ratio(C_D0: float, K: float) -> float:
    r"""Best ratio of lift to drag, which is the best glide ratio in still air.

    Formula: \epsilon = \frac{1}{2 \sqrt{C_{D0} \, K}}
    Result: l_d
    Valid: the parabola holds at the speed of the best glide
    Source: fossee-anderson, example 6.14
    """
    return 1 / (2 * root(positive(C_D0, "zero-lift drag coefficient") * positive(K, "induced drag factor")))


@formula
def greatest_endurance_factor(C_D0: float, K: float) -> float:
    r"""Greatest value of C_L^1.5 / C_D, which decides over the least sink.

    Formula: \kappa = \frac{1}{4 \, C_{D0}} \left(\frac{3 \, C_{D0}}{K}\right)^{3/4}
    Result: kappa
    Valid: the parabola holds at the speed of the least sink
    Source: fossee-anderson, example 6.14
    """
    zero_lift = positive(C_D0, "zero-lift drag coefficient")
    return float((3 * zero_lift / positive(K, "induced drag factor")) ** 0.75 / (4 * zero_lift))


@elementwise
def best_glide_speed(m: float, S: float, rho: float, *, C_D0: float, K: float, g: float) -> float:
    r"""Speed of the best glide: true; calibrated with the density at sea level.

    Formula: v_{bg} = \sqrt{\frac{2 \, m \, g}{\rho \, S} \sqrt{\frac{K}{C_{D0}}}}
    Result: v_bg
    Valid: small glide angles; still air
    Source: derived, least drag of the parabola
    """
    C_L = root(positive(C_D0, "zero-lift drag coefficient") / positive(K, "induced drag factor"))
    return root(_loading(m, S, rho, g) / C_L)


@elementwise
def minimum_sink_speed(v_bg: float, v_S: float) -> float:
    r"""Speed of the least sink, never nearer to the stall than the parabola holds.

    Formula: v_{ms} = \max\left(3^{-1/4} \, v_{bg}, \; 1.1 \, v_S\right)
    Result: v_ms
    Valid: both speeds at the same mass, and both true or both calibrated
    Source: derived, least power of the parabola
    """
    return larger(
        3**-0.25 * positive(v_bg, "speed of the best glide", "m/s"),
        STALL_MARGIN * positive(v_S, "stalling speed", "m/s"),
    )


@elementwise
def sink_rate(v: float, m: float, S: float, rho: float, *, C_D0: float, K: float, g: float) -> float:
    r"""Sink rate without power.

    Formula: w = \frac{\rho \, S \, C_{D0} \, v^3}{2 \, m \, g} + \frac{2 \, K \, m \, g}{\rho \, S \, v}
    Result: w
    Valid: small glide angles, speeds from 1.1 times the stalling speed; true speed at that density
    Source: derived, power of drag over weight
    """
    loading = _loading(m, S, rho, g)
    speed = positive(v, "speed", "m/s")
    return not_negative(C_D0, "zero-lift drag coefficient") * speed**3 / loading + K * loading / speed


@formula
def glide_speed(m: float, S: float, rho: float, C_L: float, *, gamma: float, g: float) -> float:
    r"""True speed of a glide at a lift coefficient and a glide angle that need not be small.

    Formula: v = \sqrt{\frac{2 \, m \, g \, \cos\gamma}{\rho \, S \, C_L}}
    Result: v
    Valid: glide angles from 0 to 60°
    Source: fossee-anderson, example 6.9
    """
    if not 0 <= gamma <= pi / 3:
        raise OutsideRange(f"the glide angle is {gamma * 180 / pi:.6g}°, and must be from 0 to 60°")
    from_load = _loading(m, S, rho, g) / positive(C_L, "lift coefficient")
    return sqrt(from_load * cos(gamma))


@formula
def glide_angle(l_d: float) -> float:
    r"""Angle of a glide below the horizon, from its ratio.

    Formula: \gamma = \arctan\frac{1}{\epsilon}
    Result: gamma
    Valid: a positive ratio; still air
    Source: fossee-anderson, example 6.7
    """
    return atan(1 / positive(l_d, "glide ratio"))


@formula
def glide_distance(h: float, l_d: float) -> float:
    r"""Distance of a glide from a height in still air, a flare not counted.

    Formula: d = h \, \epsilon
    Result: d
    Valid: a height of 0 or more; still air
    Source: fossee-anderson, example 6.7
    """
    return not_negative(h, "height", "m") * positive(l_d, "glide ratio")


def _loading(m: float, S: float, rho: float, g: float) -> float:
    """Return 2 m g / (rho S), in m²/s²."""
    return (
        2
        * positive(m, "mass", "kg")
        * g
        / (positive(rho, "density", "kg/m³") * positive(S, "wing area", "m²"))
    )
