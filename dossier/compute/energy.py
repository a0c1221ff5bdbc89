"""Power and energy in flight: sink, level flight, climb, phases, endurance.

All from the balance of energy in steady flight with small angles: what the propeller gives goes into height
and drag. The battery
keeps its mass, so masses are constant in flight.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import prod

from dossier.compute.bounds import efficiency, not_negative, positive, root, sum_of, where_holds
from dossier.figures import OutsideRange, constant, elementwise, formula

STANDARD_GRAVITY = 9.80665
"""In m/s²."""
GRAVITY = constant("standard gravity", "acceleration", STANDARD_GRAVITY, "cgpm-3, resolution 2")
"""The same as an input of a figure, with its source."""


@formula
def efficiency_chain(eta_i: Sequence[float]) -> float:
    r"""Efficiency of links one behind the other, from the battery to the thrust.

    Formula: \eta = \prod_i \eta_i
    Result: eta
    Valid: every link above 0 and up to 1; all taken at the same power
    Source: definition
    """
    return prod(efficiency(link) for link in eta_i)


@elementwise
def sink_at_mass(w_ref: float, m: float, m_ref: float) -> float:
    r"""Sink rate at another mass, at the same angle of attack.

    Formula: w = w_{ref} \sqrt{\frac{m}{m_{ref}}}
    Result: w
    Valid: positive masses; same angle of attack and same air density, small glide angles; the speed scales
        alike
    Source: derived, from lift and drag in proportion to the square of speed
    """
    return w_ref * root(positive(m, "mass", "kg") / positive(m_ref, "reference mass", "kg"))


@elementwise
def level_power(m: float, w: float, g: float, eta: float) -> float:
    r"""Electric power that keeps height: the power lost in a glide, through the efficiency of the drive.

    Formula: P = \frac{m \, g \, w}{\eta}
    Result: P
    Valid: an efficiency above 0 and up to 1; sink rate at the speed and mass of the level flight, equipment
        not counted
    Source: derived, balance of energy in steady flight
    """
    return m * g * w / efficiency(eta)


@formula
def implied_efficiency(m: float, w: float, g: float, P: float) -> float:
    r"""Efficiency from battery to thrust that a power, a mass and a sink or climb-plus-sink rate imply.

    Formula: \eta = \frac{m \, g \, w}{P}
    Result: eta
    Valid: a positive power; a result above 1 shows that the numbers cannot belong together
    Source: derived, balance of energy in steady flight
    """
    return m * g * w / positive(P, "power", "W")


@elementwise
def climb_rate(P: float, eta: float, w: float, *, m: float, g: float) -> float:
    r"""Rate of climb from electric power, efficiency, mass and sink rate.

    Formula: v_c = \frac{\eta \, P}{m \, g} - w
    Result: v_c
    Valid: the aircraft climbs; sink rate at the speed and mass of the climb, an efficiency above 0 and up to
        1
    Source: sfsu-220, excess power over weight
    """
    rate = efficiency(eta) * P / (positive(m, "mass", "kg") * g) - w
    return where_holds(
        rate,
        rate > 0,
        lambda: OutsideRange(
            f"the aircraft does not climb: {P:.6g} W at an efficiency of {eta:.4g} "
            f"lift {m:.6g} kg by {rate + w:.4g} m/s, and it sinks {w:.4g} m/s",
            "the aircraft does not climb",
        ),
    )


@formula
def climb_power(m: float, g: float, v_c: float, w: float, *, eta: float) -> float:
    r"""Electric power for a rate of climb.

    Formula: P = \frac{m \, g \, (v_c + w)}{\eta}
    Result: P
    Valid: an efficiency above 0 and up to 1; sink rate at the speed and mass of the climb
    Source: sfsu-220, excess power over weight, solved for the power
    """
    return m * g * (v_c + w) / efficiency(eta)


@elementwise
def climb_time(h: float, v_c: float) -> float:
    r"""Time to gain a height at a constant rate of climb.

    Formula: t = \frac{h}{v_c}
    Result: t
    Valid: a height of 0 or more and a positive rate of climb that holds over the height
    Source: definition
    """
    return not_negative(h, "height to gain", "m") / positive(v_c, "rate of climb", "m/s")


@elementwise
def climb_energy(P: float, h: float, v_c: float) -> float:
    r"""Electric energy to gain a height at a constant power and rate of climb.

    Formula: E_c = P \, \frac{h}{v_c}
    Result: E_c
    Valid: a height of 0 or more and a positive rate of climb that holds over the height
    Source: definition
    """
    return P * climb_time(h, v_c)


@elementwise
def phase_energy(P: float, t: float) -> float:
    r"""Energy of a phase of flight at constant power, also of a reserve that is stated as a time.

    Formula: E_{ph} = P \, t
    Result: E_ph
    Valid: a time of 0 or more
    Source: definition
    """
    return P * not_negative(t, "time", "s")


@elementwise
def remaining_energy(E_u: float, E_i: Sequence[float]) -> float:
    r"""Energy left when the fixed phases are flown.

    Formula: E_r = E_u - \sum_i E_i
    Result: E_r
    Valid: the phases need no more than the usable energy
    Source: definition
    """
    needed = sum_of(E_i)
    return where_holds(
        E_u - needed,
        needed <= E_u,
        lambda: OutsideRange(
            f"the fixed phases need {needed:.6g} J, and only {E_u:.6g} J are usable",
            "the battery does not hold the fixed phases",
        ),
    )


@elementwise
def endurance(E_u: float, E_i: Sequence[float], P: float) -> float:
    r"""Time at a power with what the fixed phases leave. A reserve is one of them or left out of E_u.

    Formula: t_e = \frac{E_u - \sum_i E_i}{P}
    Result: t_e
    Valid: the phases need no more than the usable energy; a positive power; the usable energy is what the
        pack gives at that power
    Source: definition
    """
    return remaining_energy(E_u, E_i) / positive(P, "power", "W")
