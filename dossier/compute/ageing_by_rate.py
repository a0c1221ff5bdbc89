"""Loss of capacity by use at a rate: two published models with a term of the rate.

They do not agree, and neither is of the builder's cell: one cell loses more the faster it is discharged; the
other loses most at one capacity an hour, and less again at two. See :mod:`dossier.compute.life_by_rate`.
"""

from __future__ import annotations

from math import exp, sqrt

from dossier.compute.bounds import not_negative
from dossier.figures import OutsideRange, formula

DAY = 86400.0
BLENDED_TEMPERATURES = (283.15, 319.15)
"""10 to 46 °C: the lowest and the highest of the four temperatures of the tests (source wang-2014)."""
BLENDED_RATES = (0.5, 6.5)
"""The slowest and the fastest test, in capacities an hour."""
HIGH_NICKEL_TEMPERATURES = (273.15, 298.15)
HIGH_NICKEL_RATES = (0.3, 2.0)
"""2 is the fastest discharge of the tests. The slowest is not told; 0.3 is the rate of their charge."""


def _inside(value: float, ends: tuple[float, float], what: str, unit: str) -> None:
    low, high = ends
    if not low <= value <= high:
        raise OutsideRange(
            f"the {what} is {value:.4g} {unit}, and the tests of this model go from {low:g} to {high:g}"
        )


def _celsius(T_b: float, ends: tuple[float, float]) -> None:
    low, high = (round(end - 273.15, 2) for end in ends)
    _inside(round(T_b - 273.15, 9), (low, high), "temperature of the battery", "°C")


@formula
def blended_calendar_loss(T_b: float, t: float) -> float:
    r"""Capacity that a stored cell with a blended positive electrode (NMC and manganese spinel) loses.

    Formula: \Delta H_{cal} = 148.76 \, e^{-24500\,\mathrm{J/mol} / (8.314\,\mathrm{J/(mol\,K)} \, T_b)}
        \sqrt{\frac{t}{1\,\mathrm{d}}}
    Result: dH_cal
    Valid: one cell of 1.5 Ah; 10 to 46 °C; the state of charge is not in it; a time of 0 or more
    Source: wang-2014, calendar part
    """
    _celsius(T_b, BLENDED_TEMPERATURES)
    return 148.76 * exp(-24500 / (8.314 * T_b)) * sqrt(not_negative(t, "time", "s") / DAY)


@formula
def blended_cycling_loss(T_b: float, C: float, z_d: float, N_c: float) -> float:
    r"""Capacity that a cell with a blended positive electrode loses by use at a rate.

    Formula: \Delta H_{cyc} = \left(8.612 \cdot 10^{-8} \, T_b^2 - 5.125 \cdot 10^{-5} \, T_b + 7.629 \cdot
        10^{-3}\right) e^{(2.347 - 6.72 \cdot 10^{-3} \, T_b) \, C} \cdot 3.0 \, N_c \, z_d
    Result: dH_cyc
    Valid: one cell of 1.5 Ah; 10 to 46 °C; 0.5 to 6.5 capacities an hour; a depth from 0 to 1, by the charge
        only; charge counted both ways, the stricter of two readings: the other gives half; the constants are
        rounded, by which the number is off by about a third near 25 °C, the effect of the rate by 5 %
    Source: wang-2014, cycle part
    """
    _celsius(T_b, BLENDED_TEMPERATURES)
    _inside(C, BLENDED_RATES, "rate", "capacities an hour")
    if not 0 <= z_d <= 1:
        raise OutsideRange(f"the depth of the window of charge is {z_d:.4g}, and must be from 0 to 1")
    per_ampere_hour = 8.612e-8 * T_b**2 - 5.125e-5 * T_b + 7.629e-3
    through = 3.0 * not_negative(N_c, "number of cycles") * z_d
    return per_ampere_hour * exp((2.347 - 6.72e-3 * T_b) * C) * through


@formula
def high_nickel_cycling_loss(T_b: float, C: float, N_c: float) -> float:
    r"""Capacity that a cell of NMC811 and graphite with silicon loses by full cycles, discharged at a rate.

    Formula: \Delta H_{cyc} = 0.18124 \, e^{-0.12378 \, C^3} \, e^{1.2446 \, (T_b / 308.15\,\mathrm{K})^3
        \sqrt{C}} \left(\frac{N_c}{10^4}\right)^{0.442}
    Result: dH_cyc
    Valid: one cell of 5 Ah; 0 to 25 °C; discharged at 0.3 to 2 capacities an hour, charged at 0.3; full
        cycles only, no other depth was tested; no bend at the end of life
    Source: bui-2021, cycle part of the fit
    """
    _celsius(T_b, HIGH_NICKEL_TEMPERATURES)
    _inside(C, HIGH_NICKEL_RATES, "rate", "capacities an hour")
    rate = 0.18124 * exp(-0.12378 * C**3) * exp(1.2446 * (T_b / 308.15) ** 3 * sqrt(C))
    return float(rate * (not_negative(N_c, "number of cycles") / 1e4) ** 0.442)
