"""State of charge that a phase of constant power leaves, by the circuit of the cell, not by an efficiency."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

import numpy as np

from dossier.compute.bounds import not_negative, positive
from dossier.compute.cell_resistance import resistance_at
from dossier.figures import OutsideRange, formula

STEPS = 32
"""Of the method of Runge and Kutta. Their number is fixed, so that the result has a slope in every input."""


@formula
def charge_after_power(
    P_cell: float, t: float, z_1: float, *, T_b: float, Q_cell: float, G: float, R_x: float, b: float,
    z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""State of charge after a cell gave a constant power for a time.

    Formula: z_2 = z_1 - \frac{1}{Q_{cell}} \int_0^t I \, dt, \quad
        I = \frac{U_{oc}(z) - \sqrt{U_{oc}(z)^2 - 4 P_{cell} R_{cell}(z)}}{2 R_{cell}(z)}
    Result: z_2
    Valid: as run_time.time_at_power, and in phases of at most 240 s to the rates of a burst; the voltage
        does not fall to its limit, which is looked at phase by phase elsewhere; within 1e-7 of the integral
    Source: equivalent-circuit, solved in 32 equal steps of the fourth order
    """
    power, left = not_negative(P_cell, "power of a cell", "W"), not_negative(t, "time", "s")
    if not power or not left:
        return z_1
    warm = resistance_at(1.0, b, T_b, G)
    charge, step = positive(Q_cell, "capacity of a cell", "C"), left / STEPS
    x, U, R = np.asarray(z_i), np.asarray(U_i), np.asarray(R_i)

    def fall(z: float) -> float:
        if z < z_i[0]:
            raise OutsideRange("the phases before level flight take more charge than the battery holds")
        rest, ohm = float(np.interp(z, x, U)), float(np.interp(z, x, R)) * warm + R_x
        room = rest * rest - 4 * power * ohm
        if room < 0:
            raise OutsideRange(f"at a charge of {z:.3f} a cell cannot give {power:.4g} W")
        return -2 * power / (rest + sqrt(room)) / charge  # the smaller current, without a quotient by R

    z = z_1
    for _ in range(STEPS):
        k_1 = fall(z)
        k_2 = fall(z + step / 2 * k_1)
        k_3 = fall(z + step / 2 * k_2)
        z += step / 6 * (k_1 + 2 * k_2 + 2 * k_3 + fall(z + step * k_3))
    return z
