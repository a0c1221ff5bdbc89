"""The state of charge that a power needs: below it the voltage under load, the current or the circuit itself
refuses it.

A go-around is flown from what the cruise leaves. Energy kept for it does not help if the cells, low and cold,
cannot give its power; so the cruise has to end earlier.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dossier.compute.bounds import efficiency, not_negative, positive
from dossier.compute.cell import Cell, CellLimits
from dossier.compute.cell_circuit import end_of_charge
from dossier.compute.charge_left import moved
from dossier.compute.curve import Array, Curve, Flags
from dossier.compute.discharge_outcome import Limit
from dossier.compute.scenarios import Scenarios, scenarios
from dossier.figures import OutsideRange, formula


def power_floors(cell: Cell, cases: Scenarios) -> tuple[Array, Flags]:
    """Return the least state of charge at which each scenario's power is given, and whether it is given at
    all at its ``start``.

    The whole quasi-steady resistance is reckoned with, also for a short phase: on the side of caution.
    """
    needed, limit = end_of_charge(cell, cases)
    refused = (needed >= cases.start) & (limit != Limit.FLOOR) & (limit != Limit.EMPTY)
    return needed, np.asarray(~refused)


@formula
def charge_for_power(
    P_cell: float, U_min: float, I_lim: float, *, T_b: float, G: float, R_x: float, b: float,
    z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""State of charge from which up a cell gives a power.

    Formula: z_P = \min\left\{z : U_{oc} - \frac{P_{cell}}{W} R_{cell} \ge W \text{ from } z
        \text{ up}\right\}, \quad W = \max\left(U_{min}, \frac{P_{cell}}{I_{lim}}\right)
    Result: z_P
    Valid: a power that the full cell gives; the whole quasi-steady resistance, also for a short phase; at
        constant temperature
    Source: equivalent-circuit
    """
    cell = Cell(
        Curve(tuple(z_i), tuple(U_i)), Curve(tuple(z_i), tuple(R_i)), 1.0, 1.0, 1.0, CellLimits(U_min, I_lim),
        "power", constant=b,
    )  # fmt: skip
    case = scenarios([P_cell], start=[z_i[-1]], floor=[z_i[0]], temperature=[T_b], growth=[G], wiring=[R_x])
    needed, given = power_floors(cell, case)
    if not given[0]:
        raise OutsideRange(
            f"a full cell at {T_b - 273.15:.0f} °C does not give {P_cell:.4g} W within "
            f"{U_min:.4g} V and {I_lim:.4g} A"
        )
    return float(needed[0])


@formula
def charge_kept_for_power(
    z_2: float, z_k: Sequence[float], E_i: Sequence[float], *, eta_b: float, N: float, Q_cell: float,
    z_i: Sequence[float], U_i: Sequence[float],
) -> float:  # fmt: skip
    r"""State of charge that keeps later phases in energy and in power.

    Formula: z_P = \max\left(z_2,\; \max_k W^{-1}\left(W(z_k) + \frac{\sum_{i \le k} E_i}{\eta_b \, N \,
        Q_{cell}}\right)\right), \quad W(z) = \int_0^z U_{oc}(x) \, dx
    Result: z_P
    Valid: the later phases in the order in which they are flown, each giving its power to its end; no more
        kept than there is
    Source: derived, each later phase has to end where its power is still given
    """
    floor, volt = z_2, 0.0
    share = efficiency(eta_b) * positive(N, "number of cells") * positive(Q_cell, "capacity of a cell", "C")
    for needed, energy in zip(z_k, E_i, strict=True):
        volt += not_negative(energy, "energy kept", "J") / share
        floor = max(floor, moved(needed, volt, z_i=z_i, U_i=U_i))
    return floor
