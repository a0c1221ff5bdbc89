"""State of charge after an energy was given, and the state of charge that keeps one: the areas below the rest
voltage, read backwards."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import fsum, sqrt

from dossier.compute import lines
from dossier.compute.bounds import efficiency, not_negative, positive
from dossier.compute.open_circuit import state_of_charge
from dossier.figures import OutsideRange, formula


@formula
def charge_after(
    U_1: float, E_i: Sequence[float], *, eta_b: float, N: float, Q_cell: float, z_i: Sequence[float],
    U_i: Sequence[float],
) -> float:  # fmt: skip
    r"""State of charge after energies were given at the terminals, from a rest voltage at the start.

    Formula: z_2 = W^{-1}\left(W(z(U_1)) - \frac{\sum_i E_i}{\eta_b \, N \, Q_{cell}}\right), \quad
        W(z) = \int_0^z U_{oc}(x) \, dx
    Result: z_2
    Valid: the start inside the table, and no more energy than there is between it and the end of the table;
        one efficiency of the battery for all of it
    Source: derived, exact inverse of the area below the straight lines of the cell's table
    """
    volt = fsum(not_negative(one, "energy given", "J") for one in E_i) / _given_at_rest(eta_b, N, Q_cell)
    return moved(state_of_charge(U_1, z_i, U_i), -volt, z_i=z_i, U_i=U_i)


@formula
def charge_kept(
    U_2: float, r: float, E: float, E_i: Sequence[float], *, eta_b: float, N: float, Q_cell: float,
    z_i: Sequence[float], U_i: Sequence[float],
) -> float:  # fmt: skip
    r"""State of charge that keeps a reserve and the energies of later phases above a rest voltage.

    Formula: z_2 = W^{-1}\left(W(z(U_2)) + \frac{1}{N \, Q_{cell}} \left(r \, E + \frac{\sum_i
        E_i}{\eta_b}\right)\right), \quad W(z) = \int_0^z U_{oc}(x) \, dx
    Result: z_2
    Valid: the rest voltage inside the table, and no more kept than there is between it and full; one
        efficiency of the battery for all of it
    Source: derived, exact inverse of the area below the straight lines of the cell's table
    """
    later = fsum(not_negative(one, "energy kept", "J") for one in E_i) / _given_at_rest(eta_b, N, Q_cell)
    share = not_negative(r * E, "reserve", "J") / _given_at_rest(1.0, N, Q_cell)
    return moved(state_of_charge(U_2, z_i, U_i), share + later, z_i=z_i, U_i=U_i)


def _given_at_rest(eta_b: float, N: float, Q_cell: float) -> float:
    return efficiency(eta_b) * positive(N, "number of cells") * positive(Q_cell, "capacity of a cell", "C")


def moved(z: float, volt: float, *, z_i: Sequence[float], U_i: Sequence[float]) -> float:
    """Return the state of charge from which the area to ``z`` below the rest voltages is ``volt``, in V.

    Raises:
        OutsideRange: the table of rest voltages ends before.
    """
    below = lines.area_between(z_i[0], z, z_i, U_i, "state of charge")
    left = below + volt
    if left < 0:
        raise OutsideRange(f"more is given than the battery holds: {-volt:.4g} of {below:.4g} V times charge")
    for (z_0, U_0), (z_9, U_9) in pairwise(zip(z_i, U_i, strict=True)):
        area = (z_9 - z_0) * (U_0 + U_9) / 2
        if left <= area:
            slope = (U_9 - U_0) / (z_9 - z_0)
            return z_0 + 2 * left / (U_0 + sqrt(U_0**2 + 2 * slope * left))
        left -= area
    raise OutsideRange(f"more is kept than the battery holds when full, by {left:.4g} V times charge")
