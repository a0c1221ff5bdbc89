"""A cell at rest: state of charge, rest voltage and stored energy from a table, on straight lines.

A table is a maker's or a measured curve of one cell: states of charge from low to high, and the rest voltage
at each. What 0 and 1 mean is
the table's affair and must be the same for the capacity that goes with it.
"""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute import lines
from dossier.figures import formula


@formula
def open_circuit_voltage(z: float, z_i: Sequence[float], U_i: Sequence[float]) -> float:
    r"""Rest voltage of a cell at a state of charge.

    Formula: U_{oc} = U_i + \frac{z - z_i}{z_{i+1} - z_i} \, (U_{i+1} - U_i)
    Result: U_oc
    Valid: inside the table, which must rise in charge and in voltage
    Source: derived, straight lines between the points of the cell's table
    """
    lines.check_rising(U_i, "rest voltage of the table")
    return lines.value_at(z, z_i, U_i, "state of charge")


@formula
def state_of_charge(U_oc: float, z_i: Sequence[float], U_i: Sequence[float]) -> float:
    r"""State of charge of a cell from its rest voltage.

    Formula: z = z_i + \frac{U_{oc} - U_i}{U_{i+1} - U_i} \, (z_{i+1} - z_i)
    Result: z
    Valid: inside the table, which must rise in charge and in voltage; the cell has rested without load
    Source: derived, inverse of the straight lines between the points of the cell's table
    """
    lines.check_rising(z_i, "state of charge of the table")
    return lines.value_at(U_oc, U_i, z_i, "rest voltage")


@formula
def cell_energy_between_charges(
    Q_cell: float, z_1: float, z_2: float, *, z_i: Sequence[float], U_i: Sequence[float]
) -> float:
    r"""Energy that a cell releases between two states of charge, without losses; negative when it is charged.

    Formula: E_{cell} = Q_{cell} \int_{z_2}^{z_1} U_{oc}(z) \, dz
    Result: E_cell
    Valid: both states inside the table, which must rise in charge and in voltage; small currents
    Source: derived, exact integral of the straight lines between the points of the cell's table
    """
    lines.check_rising(U_i, "rest voltage of the table")
    return Q_cell * lines.area_between(z_2, z_1, z_i, U_i, "state of charge")


@formula
def cell_energy_between_voltages(
    Q_cell: float, U_1: float, U_2: float, *, z_i: Sequence[float], U_i: Sequence[float]
) -> float:
    r"""Energy that a cell releases between two rest voltages, without losses; negative when it is charged.

    Formula: E_{cell} = Q_{cell} \int_{z(U_2)}^{z(U_1)} U_{oc}(z) \, dz
    Result: E_cell
    Valid: both voltages inside the table, which must rise in charge and in voltage; small currents
    Source: derived, exact integral of the straight lines between the points of the cell's table
    """
    z_1, z_2 = (state_of_charge(U, z_i, U_i) for U in (U_1, U_2))
    return cell_energy_between_charges(Q_cell, z_1, z_2, z_i=z_i, U_i=U_i)
