"""Rough figures of heat: the air that carries it away, and the rise of temperature when it stays. **Estimates
only.**

Neither knows where the heat arises, how the air finds it, or the hottest cell: a thermometer in flight
decides.
"""

from __future__ import annotations

from dossier.compute.bounds import not_negative, positive

AIR_SPECIFIC_HEAT = 1005.0
"""In J/(kg K), dry air (source heat-balance, memory)."""


def air_mass_flow(heat_rate: float, warming: float) -> float:
    """Return the stream of air in kg/s that carries ``heat_rate`` in W away and is warmed by ``warming`` in
    K.

    m' = q / (c_p dT). Valid: steady, all heat goes into this air; an estimate. Source: heat-balance.

    Raises:
        OutsideRange: a negative heat, or a warming that is not positive.
    """
    return not_negative(heat_rate, "heat", "W") / (
        AIR_SPECIFIC_HEAT * positive(warming, "warming of the air", "K")
    )


def air_volume_flow(heat_rate: float, warming: float, density: float) -> float:
    """Return the same stream in m³/s at an air density in kg/m³.

    Raises:
        OutsideRange: as for :func:`air_mass_flow`, or a density that is not positive.
    """
    return air_mass_flow(heat_rate, warming) / positive(density, "density of the air", "kg/m³")


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
