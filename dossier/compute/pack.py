"""A pack of equal cells: voltages, capacity, energy, rate, mass and room.

A rate that is judged against a limit takes the voltage under load: with the nominal voltage it would come out
too small.
"""

from __future__ import annotations

from math import sqrt

from dossier.compute.bounds import efficiency, not_negative, positive
from dossier.figures import OutsideRange, formula

HOUR = 3600.0
"""Seconds in an hour: a rate of 1 empties the capacity in one."""


@formula
def pack_voltage(N_s: float, U_cell: float) -> float:
    r"""Voltage of cells in series, at rest or under load as the cell's is.

    Formula: U = N_s \, U_{cell}
    Result: U
    Valid: equal cells
    Source: ohm
    """
    return N_s * U_cell


@formula
def cell_voltage(U: float, N_s: float) -> float:
    r"""Mean voltage of a cell from the voltage of the pack.

    Formula: U_{cell} = \frac{U}{N_s}
    Result: U_cell
    Valid: equal cells, at least one in series
    Source: ohm
    """
    return U / positive(N_s, "number of cells in series")


@formula
def pack_capacity(N_p: float, Q_cell: float) -> float:
    r"""Capacity of cells in parallel.

    Formula: Q = N_p \, Q_{cell}
    Result: Q
    Valid: equal cells
    Source: ohm
    """
    return N_p * Q_cell


@formula
def cell_count(N_s: float, N_p: float) -> float:
    r"""Number of cells in a pack.

    Formula: N = N_s \, N_p
    Result: N
    Valid: every string has the same number of cells
    Source: definition
    """
    return N_s * N_p


@formula
def pack_resistance(N_s: float, N_p: float, R_cell: float) -> float:
    r"""Internal resistance of a pack from that of a cell, connections left out.

    Formula: R = \frac{N_s}{N_p} \, R_{cell}
    Result: R
    Valid: equal cells, at least one string
    Source: ohm
    """
    return N_s * R_cell / positive(N_p, "number of strings")


@formula
def nameplate_energy(U_nom: float, Q: float) -> float:
    r"""Nameplate energy: what a label states, not what a flight can use.

    Formula: E_{nom} = U_{nom} \, Q
    Result: E_nom
    Valid: nominal voltage and rated capacity of the same pack or cell
    Source: definition
    """
    return U_nom * Q


@formula
def pack_energy(N: float, E_cell: float) -> float:
    r"""Energy of a pack from that of a cell.

    Formula: E = N \, E_{cell}
    Result: E
    Valid: equal cells in equal states
    Source: definition
    """
    return N * E_cell


@formula
def usable_energy(E: float, r: float) -> float:
    r"""Energy left for use when a fraction is kept as a reserve.

    Formula: E_u = E \, (1 - r)
    Result: E_u
    Valid: a reserve from 0 to 1
    Source: definition
    """
    if not 0 <= r <= 1:
        raise OutsideRange(f"the reserve is {r:.6g} of the energy, and must be between 0 and 1")
    return E * (1 - r)


@formula
def loaded_voltage(U_0: float, R: float, P: float) -> float:
    r"""Voltage of a pack under a power, from its voltage at rest and one resistance.

    Formula: U = \frac{U_0 + \sqrt{U_0^2 - 4 P R}}{2}
    Result: U
    Valid: up to the largest power that the resistance lets through, U_0^2 / 4R; the resistance is that of the
        phase's length
    Source: ohm, solved for constant power
    """
    inner = U_0 * U_0 - 4 * P * R
    if inner < 0:
        most = U_0 * U_0 / 4 / R
        raise OutsideRange(
            f"{P:.6g} W are asked of the pack, and at {U_0:.6g} V and {R:.6g} ohm it gives {most:.6g} W"
        )
    return (U_0 + sqrt(inner)) / 2


@formula
def current(P: float, U: float) -> float:
    r"""Current at a power and the voltage under load.

    Formula: I = \frac{P}{U}
    Result: I
    Valid: a positive voltage, taken under the load
    Source: ohm
    """
    return P / positive(U, "voltage", "V")


@formula
def discharge_rate(P: float, U: float, Q: float) -> float:
    r"""Discharge rate (C-rate): the current in capacities per hour.

    Formula: C = \frac{P}{U \, Q} \cdot 3600\,\mathrm{s}
    Result: C
    Valid: a positive voltage, taken under the load and never the nominal one where a limit is judged; a
        positive capacity
    Source: definition
    """
    return P / positive(U, "voltage", "V") / positive(Q, "capacity", "C") * HOUR


@formula
def charging_time(E: float, P: float, eta: float, t_taper: float) -> float:
    r"""Time to refill an energy, with the time that the charger takes to taper off.

    Formula: t = \frac{E}{\eta \, P} + t_{taper}
    Result: t
    Valid: an energy and a taper of 0 or more, a positive power, an efficiency above 0 and up to 1
    Source: practice, constant power and then a fixed time of taper
    """
    bulk = not_negative(E, "energy to refill", "J") / (efficiency(eta) * positive(P, "charging power", "W"))
    return bulk + not_negative(t_taper, "time of taper", "s")


@formula
def specific_energy(E: float, m: float) -> float:
    r"""Energy for the mass that holds it.

    Formula: e_m = \frac{E}{m}
    Result: e_m
    Valid: a positive mass
    Source: definition
    """
    return E / positive(m, "mass", "kg")


@formula
def energy_density(E: float, V: float) -> float:
    r"""Energy for the volume that holds it.

    Formula: e_V = \frac{E}{V}
    Result: e_V
    Valid: a positive volume
    Source: definition
    """
    return E / positive(V, "volume", "m³")


@formula
def box_clearance(l_bay: float, l_pack: float, l_gap: float) -> float:
    r"""Room left along one axis of a bay with a gap on both sides; negative when the pack does not fit.

    Formula: \Delta l = l_{bay} - l_{pack} - 2 \, l_{gap}
    Result: dl
    Valid: square to the axis
    Source: definition
    """
    return l_bay - l_pack - 2 * l_gap
