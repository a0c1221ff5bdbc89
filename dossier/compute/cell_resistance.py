"""Resistance of a cell: from a maker's discharge curve, at a temperature, after years."""

from __future__ import annotations

from math import exp

import numpy as np

from dossier.compute.bounds import not_negative, positive
from dossier.compute.curve import Array, Curve, held_to
from dossier.figures import OutsideRange, formula

WARM = 298.15
"""25 °C in K, where resistances are stated."""
USUAL_CONSTANT = 3000.0
"""In K; five parameter sets lie between 2500 and 5000 K (source pybamm, stored as BAT-TEMP in the tests)."""
CONSTANT_BAND = (2500.0, 5000.0)
TEMPERATURES = (253.15, 333.15)
"""-20 to 60 °C, the range in which makers usually allow a discharge (read second-hand)."""


@formula
def resistance_from_discharge(U_oc: float, U_cell: float, I: float) -> float:  # noqa: E741 - the symbol of current
    r"""Quasi-steady resistance of a cell from a discharge at constant current.

    Formula: R_{cell} = \frac{U_{oc} - U_{cell}}{I}
    Result: R_cell
    Valid: both voltages at the same state of charge, 25 °C, a current near the one that is asked about; not
        the resistance that a sheet states for alternating current, which is about half of it
    Source: equivalent-circuit
    """
    return positive(U_oc - U_cell, "rest voltage above that under load", "V") / positive(I, "current", "A")


@formula
def resistance_at(R_25: float, b: float, T_b: float, G: float) -> float:
    r"""Resistance of a cell at a temperature and an age.

    Formula: R_{cell} = R_{25} \, G \, e^{b \left(\frac{1}{T_b} - \frac{1}{298.15\,\mathrm{K}}\right)}
    Result: R_cell
    Valid: -20 to 60 °C; below 5 °C cells differ so much that only a band is honest
    Source: pybamm, fit to five parameter sets
    """
    low, high = TEMPERATURES
    if not low <= T_b <= high:
        raise OutsideRange(
            f"the battery is at {T_b - 273.15:.1f} °C, and the law of resistance holds from -20 to 60 °C"
        )
    return (
        not_negative(R_25, "resistance", "Ω")
        * positive(G, "growth of resistance")
        * exp(b * (1 / T_b - 1 / WARM))
    )


def resistance_factor(b: Array, T_b: Array, G: Array) -> Array:
    """Return :func:`resistance_at` over the resistance at 25 °C for many scenarios, without units.

    Valid and source: as for :func:`resistance_at`; the caller has judged the temperatures.
    """
    return np.asarray(G * np.exp(b * (1 / T_b - 1 / WARM)))


def resistance_curve(rest: Curve, discharge: Curve, *, current: float, capacity: float) -> Curve:
    """Make the table of resistance from a maker's discharge curve.

    Args:
        rest: rest voltage in V over state of charge.
        discharge: voltage under load in V over the charge taken in C, from full, at 25 °C.
        current: the constant current in A of that curve.
        capacity: charge in C between the ends of ``rest``.

    Returns:
        resistance in Ω over state of charge, at the points of the discharge curve; held from its first and
        last point to full and to empty.

    Raises:
        OutsideRange: the curve takes more than the capacity, or lies above the rest voltage.
    """
    taken = [charge / positive(capacity, "capacity", "C") for charge in discharge.x]
    if taken[-1] > 1:
        raise OutsideRange(
            f"the discharge curve takes {discharge.x[-1]:.6g} C from a cell of {capacity:.6g} C"
        )
    points = [
        (1 - part, resistance_from_discharge(rest.at(1 - part, "state of charge"), voltage, current))
        for part, voltage in zip(reversed(taken), reversed(discharge.y), strict=True)
    ]
    measured = Curve(tuple(z for z, _ in points), tuple(R for _, R in points))
    return held_to(measured, rest.x[0], rest.x[-1])
