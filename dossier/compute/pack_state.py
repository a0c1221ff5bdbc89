"""A pack as it is: its capacity by test or by age, what reaches its terminals, the room it takes."""

from __future__ import annotations

from dossier.compute.bounds import efficiency, positive
from dossier.figures import OutsideRange, formula

GROWTH_PER_LOSS = (0.5, 5.0)
"""Growth of resistance over the part of the capacity that is lost: from the slower of two published models to
the usual end of life, 80 % of the capacity or twice the resistance (source resistance-with-loss)."""


@formula
def cell_capacity(Q: float, N_p: float) -> float:
    r"""Mean capacity of a cell from the measured capacity of its pack.

    Formula: Q_{cell} = \frac{Q}{N_p}
    Result: Q_cell
    Valid: at least one string
    Source: ohm
    """
    return Q / positive(N_p, "number of strings")


@formula
def aged_capacity(Q_nom: float, H: float) -> float:
    r"""Capacity that is left of the nominal one.

    Formula: Q_{cell} = H \, Q_{nom}
    Result: Q_cell
    Valid: a health above 0 and up to 1.1
    Source: definition
    """
    if not 0 < H <= 1.1:
        raise OutsideRange(f"the health is {H:.4g}, and must be above 0 and at most 1.1")
    return H * Q_nom


@formula
def resistance_growth(Q_cell: float, Q_nom: float, k_G: float, G_1: float) -> float:
    r"""Resistance of a cell over that when new, from the capacity that it has lost.

    Formula: G = \max\left(G_1,\; 1 + k_G \left(1 - \frac{Q_{cell}}{Q_{nom}}\right)\right)
    Result: G
    Valid: k_G from 0.5 to 5, which holds what two published models give from a tenth of loss on, and the
        usual end of life; G_1 as last measured, 1 if it never was
    Source: resistance-with-loss
    """
    low, high = GROWTH_PER_LOSS
    if not low <= k_G <= high:
        raise OutsideRange(f"the growth for a part lost is {k_G:.4g}, and goes from {low:g} to {high:g}")
    lost = 1 - positive(Q_cell, "capacity of a cell", "C") / positive(Q_nom, "nominal capacity", "C")
    return max(positive(G_1, "growth of resistance"), 1 + k_G * lost)


@formula
def delivered_energy(E: float, eta_b: float) -> float:
    r"""Energy that reaches the terminals of what the cells release at rest.

    Formula: E_d = \eta_b \, E
    Result: E_d
    Valid: an efficiency above 0 and up to 1, taken at the mean power of the flight
    Source: definition
    """
    return efficiency(eta_b) * E


@formula
def box_volume(l_x: float, l_y: float, l_z: float) -> float:
    r"""Volume of a box from its outer dimensions.

    Formula: V = l_x \, l_y \, l_z
    Result: V
    Valid: positive dimensions
    Source: definition
    """
    return positive(l_x, "length", "m") * positive(l_y, "width", "m") * positive(l_z, "height", "m")
