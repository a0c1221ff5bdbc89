"""Conductors: current that the table allows, drop of voltage, temperature.

The tables of the circular are for aircraft electrical systems up to 200 V and bundles in warm air; for
traction currents they are the nearest published ones. A comparison with them is no approval: a licensed
electrician or the authority decides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum, pi, sqrt
from types import MappingProxyType

from dossier.compute.bounds import not_negative, positive
from dossier.figures import OutsideRange, formula

FOOT = 0.3048
CIRCULAR_MIL = pi / 4 * (25.4e-6) ** 2
"""In m²: the area of a circle of a thousandth of an inch (definition)."""
COPPER_OFFSET = 234.5
"""In K below 0 °C, where the straight line of the resistance of copper meets 0 (source ac-43-13-1b, example
in 11-66 f)."""
ZERO = 273.15
AROUND = 70 + ZERO
"""In K, the air around the bundle for which the table gives its currents (source ac-43-13-1b, table 11-9,
note 1)."""
MAIN_DROP = 0.02
"""Of the voltage, in main power wires from the battery (source faa-h-8083-31)."""
LOAD_DROPS: Mapping[float, float] = MappingProxyType({14.0: 0.5, 28.0: 1.0, 115.0: 4.0, 200.0: 7.0})
"""Voltage of a system in V -> drop in V that a load may have in lasting use (source ac-43-13-1b, table 11-7,
which repeats the values of table 11-6)."""
HIGHEST_VOLTAGE = 200.0
"""In V, where the circular ends."""


@dataclass(frozen=True)
class Wire:
    """One size of wire, as the circular lists it."""

    gauge: str
    ampacity: Mapping[int, float]
    """Rated temperature in °C -> current in A in a bundle."""
    ohm_per_1000_ft: float
    """At 20 °C."""
    fuse: float | None
    """In A, the fuse that the circular names for this size; None where it names none."""
    area: float
    """Of the copper, in m²."""


@formula
def carrying_capacity(I_w: float, N_w: float) -> float:
    r"""Current that a table allows wires side by side.

    Formula: I_{max} = N_w \, I_w
    Result: I_max
    Valid: equal wires of equal length that share the current equally; when one of them breaks, the others
        carry all
    Source: ac-43-13-1b, table 11-9
    """
    return positive(N_w, "number of wires side by side") * positive(I_w, "current of the table", "A")


@formula
def loop_resistance(l_w: float, R_k: float, N_w: float) -> float:
    r"""Resistance of a conductor there and back, at 20 °C.

    Formula: R_{20} = \frac{2 \, l_w}{304.8\,\mathrm{m}} \cdot \frac{R_{1000}}{N_w}
    Result: R_20
    Valid: the way back is a conductor of the same kind and length; lugs, plugs and contactors are not in it
    Source: ac-43-13-1b, tables 11-9 and 11-7
    """
    length = 2 * positive(l_w, "length of the wire", "m")
    return length / (1000 * FOOT) * R_k / positive(N_w, "number of wires side by side")


@formula
def conductor_temperature(T_a: float, T_R: float, I: float, I_max: float) -> float:  # noqa: E741 - the symbol of current
    r"""Estimate of the temperature of a conductor under a current.

    Formula: T_L = T_a + (T_R - T_a) \sqrt{\frac{I}{I_{max}}}
    Result: T_L
    Valid: a current from 0 up to that which brings it to its rating; a rating above the air around. The
        circular calls it quite conservative: it comes out too warm rather than too cold
    Source: ac-43-13-1b, 11-66 d(6), the root from its example in 11-66 f
    """
    positive(I_max, "current at the rating", "A")
    if not 0 <= I <= I_max:
        raise OutsideRange(
            f"the current is {I:.4g} A, and the estimate goes from 0 to the {I_max:.4g} A of the rating"
        )
    if T_a >= T_R:
        raise OutsideRange(f"the rating of {T_R - ZERO:.0f} °C is not above the air of {T_a - ZERO:.0f} °C")
    return T_a + (T_R - T_a) * sqrt(I / I_max)


@formula
def warm_resistance(R_20: float, T_L: float) -> float:
    r"""Resistance of a copper conductor when warm.

    Formula: R_L = R_{20} \, \frac{234.5 + T_L - 273.15}{254.5}
    Result: R_L
    Valid: copper, temperature in K, from -50 to 200 °C
    Source: ac-43-13-1b, 11-66 f
    """
    degrees = T_L - ZERO
    if not -50 <= degrees <= 200:
        raise OutsideRange(
            f"the conductor is at {degrees:.0f} °C, "
            "and the resistance of copper is a straight line from -50 to 200 °C"
        )
    return R_20 * (COPPER_OFFSET + degrees) / (COPPER_OFFSET + 20)


@formula
def voltage_drop(I: float, R_L: float) -> float:  # noqa: E741 - the symbol of current
    r"""Drop of voltage along a conductor, there and back.

    Formula: \Delta U = I \, R_L
    Result: dU
    Valid: direct current; the resistance of the whole way of the current
    Source: ac-43-13-1b, table 11-7
    """
    return I * R_L


@formula
def drop_in_a_row(dU_i: Sequence[float]) -> float:
    r"""Drop of voltage along conductors one behind the other.

    Formula: \Delta U = \sum_i \Delta U_i
    Result: dU
    Valid: the same current through all of them
    Source: ohm
    """
    return fsum(not_negative(one, "drop of voltage", "V") for one in dU_i)


@formula
def drop_share(dU: float, U: float) -> float:
    r"""Drop of voltage as a part of the voltage of the source.

    Formula: p_U = \frac{\Delta U}{U}
    Result: p_U
    Valid: a positive voltage, taken under the load
    Source: definition
    """
    return dU / positive(U, "voltage", "V")
