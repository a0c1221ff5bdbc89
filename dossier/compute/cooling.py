"""Rough figures of heat: the air that carries it away, and the rise of temperature when it stays. **Estimates
only.**

Neither knows where the heat arises, how the air finds it, or the hottest cell: a thermometer in flight
decides.
"""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute.bounds import not_negative, positive
from dossier.figures import formula

AIR_SPECIFIC_HEAT = 1005.0
"""In J/(kg K), dry air (source heat-balance, memory)."""


@formula
def air_mass_flow(q: float, dT_a: float) -> float:
    r"""Stream of air that carries a heat away, an estimate.

    Formula: \dot{m} = \frac{q}{1005\,\mathrm{J/(kg\,K)} \; \Delta T_a}
    Result: m_dot
    Valid: steady, all heat goes into this air; an estimate
    Source: heat-balance
    """
    return not_negative(q, "heat", "W") / (AIR_SPECIFIC_HEAT * positive(dT_a, "warming of the air", "K"))


@formula
def air_volume_flow(q: float, dT_a: float, rho: float) -> float:
    r"""Stream of air as a volume, an estimate.

    Formula: \dot{V} = \frac{q}{1005\,\mathrm{J/(kg\,K)} \; \Delta T_a \; \rho}
    Result: V_dot
    Valid: as for the stream of air; thin air takes more of it
    Source: heat-balance
    """
    return air_mass_flow(q, dT_a) / positive(rho, "density of the air", "kg/m³")


@formula
def heat_of_phases(q_i: Sequence[float], t_i: Sequence[float]) -> float:
    r"""Heat that a battery makes in the phases of a flight.

    Formula: E_h = \sum_i q_i \, t_i
    Result: E_h
    Valid: what the cells and their wiring lose under load; heat of the reaction itself is not in it
    Source: heat-balance
    """
    pairs = zip(q_i, t_i, strict=True)
    return sum(not_negative(q, "heat", "W") * not_negative(t, "time", "s") for q, t in pairs)


@formula
def rise_of_cells(E_h: float, N: float, m_c: float, c_p: float) -> float:
    r"""Rise of the temperature of the cells when all heat stays in them, an estimate from above.

    Formula: \Delta T = \frac{E_h}{N \, m_c \, c_p}
    Result: dT
    Valid: all cells share the heat equally, nothing leaves; case and wiring take none
    Source: heat-balance
    """
    capacity = positive(N, "number of cells") * positive(m_c, "mass of a cell", "kg")
    return rise_without_cooling(E_h, 1.0, capacity * positive(c_p, "specific heat", "J/(kg K)"))


def rise_without_cooling(heat_rate: float, time: float, heat_capacity: float) -> float:
    """Return the rise of temperature in K when ``heat_rate`` in W stays for ``time`` in s in
    ``heat_capacity`` in J/K.

    dT = q t / C. Valid: the cells share the heat equally, nothing leaves; an estimate from above. Source:
    heat-balance.

    Raises:
        OutsideRange: a negative heat or time, or a heat capacity that is not positive.
    """
    heat = not_negative(heat_rate, "heat", "W") * not_negative(time, "time", "s")
    return heat / positive(heat_capacity, "heat capacity", "J/K")
