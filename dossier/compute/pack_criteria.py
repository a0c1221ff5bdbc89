"""What a battery still has of what it was rated for: capacity, energy, resistance, the spread of its
cells."""

from __future__ import annotations

from dossier.compute.bounds import not_negative, positive
from dossier.figures import formula


@formula
def capacity_of_nominal(Q: float, N_p: float, Q_nom: float) -> float:
    r"""Capacity of a pack as a part of the nominal one.

    Formula: H = \frac{Q}{N_p \, Q_{nom}}
    Result: H
    Valid: at least one string; the nominal capacity is a number by definition, and has no uncertainty
    Source: definition
    """
    return not_negative(Q, "capacity", "C") / (
        positive(N_p, "number of strings") * positive(Q_nom, "nominal capacity", "C")
    )


@formula
def energy_of_nameplate(E: float, *, N_s: float, N_p: float, U_nom: float, Q_nom: float) -> float:
    r"""Energy that a test took as a part of the nameplate energy of the new pack.

    Formula: p_E = \frac{E}{N_s \, U_{nom} \, N_p \, Q_{nom}}
    Result: p_E
    Valid: at least one cell; it depends on rate, temperature and both ends of the test, so a limit on it
        stands beside a prescribed test
    Source: definition
    """
    cells = positive(N_s, "cells in series") * positive(N_p, "number of strings")
    of_a_cell = positive(U_nom, "nominal voltage", "V") * positive(Q_nom, "nominal capacity", "C")
    return not_negative(E, "energy", "J") / (cells * of_a_cell)


@formula
def growth_by_step(R: float, R_t: float, R_w: float) -> float:
    r"""Resistance of the cells by a step of the current, over that by the table of the new cell.

    Formula: G = \frac{R - R_w}{R_t - R_w}
    Result: G
    Valid: both resistances above that of the wiring, both after the same seconds, at one temperature and one
        state of charge
    Source: definition
    """
    return positive(R - R_w, "resistance of the cells by the step", "Ω") / positive(
        R_t - R_w, "resistance of the new cells by the table", "Ω"
    )


@formula
def apart(U_h: float, U_l: float) -> float:
    r"""Spread of the cells: the highest voltage less the lowest.

    Formula: \Delta U_c = U_h - U_l
    Result: dU_c
    Valid: always
    Source: definition
    """
    return U_h - U_l
