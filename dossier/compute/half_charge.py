"""The middle mark of a voltage gauge."""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute.open_circuit import open_circuit_voltage, state_of_charge
from dossier.figures import formula


@formula
def half_charge_voltage(
    N_s: float, U_1: float, U_2: float, *, z_i: Sequence[float], U_i: Sequence[float]
) -> float:
    r"""Rest voltage of a pack with half of the charge left between its full and its empty mark.

    Formula: U = N_s \, U_{oc}\left(\frac{z(U_1) + z(U_2)}{2}\right)
    Result: U
    Valid: both marks inside the table of rest voltages; at rest, without load
    Source: derived, straight lines between the points of the cell's table
    """
    middle = (state_of_charge(U_1, z_i, U_i) + state_of_charge(U_2, z_i, U_i)) / 2
    return N_s * open_circuit_voltage(middle, z_i, U_i)
