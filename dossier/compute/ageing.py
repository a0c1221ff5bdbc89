"""Loss of capacity and growth of resistance of an NMC cell, in storage and by use: one published model in
closed form.

The model is of one cell of 2.15 Ah. Its voltages are those of that cell, so states of charge go in, and not
the voltages of the builder's own cell. Cells differ more than models do: see :mod:`dossier.compute.life` for
the band, and measure the capacity every year.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, sqrt

from dossier.compute import lines
from dossier.compute.bounds import not_negative
from dossier.compute.curve import Curve
from dossier.figures import OutsideRange, formula

DAY = 86400.0
THROUGHPUT = 4.3
"""Charge in Ah through the model's cell in a full cycle, both ways: twice 2.15 Ah."""
STORAGE = (278.15, 323.15)
"""5 to 50 °C. The tests went to 50 °C; below 35 °C the law of Arrhenius is extrapolated."""
MODEL_CELL = Curve(
    (0.0, 0.0631, 0.1175, 0.2082, 0.2989, 0.4078, 0.4985, 0.5892, 0.698, 0.8069, 0.9158, 1.0),
    (3.331, 3.4406, 3.5113, 3.5864, 3.6264, 3.6576, 3.6964, 3.7653, 3.8669, 3.9719, 4.0878, 4.162),
)
"""Rest voltage in V of the model's cell over its state of charge (source blast-lite, class for this cell;
twelve points)."""


def _storage_rate(slope: float, offset: float, energy: float, *, U_oc: float, T_b: float) -> float:
    low, high = STORAGE
    if not low <= T_b <= high:
        raise OutsideRange(
            f"the battery is stored at {T_b - 273.15:.1f} °C, and the model of ageing goes from 5 to 50 °C"
        )
    if not MODEL_CELL.y[0] <= U_oc <= MODEL_CELL.y[-1]:
        raise OutsideRange(
            f"the rest voltage of the model's cell goes from 3.331 to 4.162 V, and {U_oc:.4g} V is asked"
        )
    return float((slope * U_oc + offset) * exp(-energy / T_b))


@formula
def calendar_loss(U_oc: float, T_b: float, t: float) -> float:
    r"""Capacity that a stored NMC cell loses.

    Formula: \Delta H_{cal} = (7.543 \, U_{oc} - 23.75) \cdot 10^6 \, e^{-6976\,\mathrm{K} / T_b}
        \left(\frac{t}{1\,\mathrm{d}}\right)^{0.75}
    Result: dH_cal
    Valid: U_oc of the model's cell at the state of charge in storage, 3.331 to 4.162 V; 5 to 50 °C, below 35
        °C extrapolated; a constant state; a time of 0 or more
    Source: schmalstieg-2014, calendar part
    """
    return _storage_rate(7.543e6, -23.75e6, 6976, U_oc=U_oc, T_b=T_b) * _days(t)


@formula
def calendar_growth(U_oc: float, T_b: float, t: float) -> float:
    r"""Growth of resistance of a stored NMC cell.

    Formula: \Delta G_{cal} = (5.270 \, U_{oc} - 16.32) \cdot 10^5 \, e^{-5986\,\mathrm{K} / T_b}
        \left(\frac{t}{1\,\mathrm{d}}\right)^{0.75}
    Result: dG_cal
    Valid: U_oc of the model's cell at the state of charge in storage, 3.331 to 4.162 V; 5 to 50 °C, below 35
        °C extrapolated; a constant state; a time of 0 or more
    Source: schmalstieg-2014, calendar part
    """
    return _storage_rate(5.270e5, -16.32e5, 5986, U_oc=U_oc, T_b=T_b) * _days(t)


@formula
def cycling_loss(U_rms: float, z_d: float, N_c: float) -> float:
    r"""Capacity that an NMC cell loses by use.

    Formula: \Delta H_{cyc} = \left(7.348 \cdot 10^{-3} (U_{rms} - 3.667)^2 + 7.6 \cdot 10^{-4} + 4.081 \cdot
        10^{-3} z_d\right) \sqrt{4.3 \, N_c \, z_d}
    Result: dH_cyc
    Valid: tested at rate 1 and 35 °C, sensitive to neither; U_rms of the model's cell; a depth from 0 to 1;
        the bend at the end of life is not in it
    Source: schmalstieg-2014, cycle part
    """
    rate = 7.348e-3 * (U_rms - 3.667) ** 2 + 7.6e-4 + 4.081e-3 * _depth(z_d)
    return rate * sqrt(THROUGHPUT * not_negative(N_c, "number of cycles") * z_d)


@formula
def cycling_growth(U_rms: float, z_d: float, N_c: float) -> float:
    r"""Growth of resistance of an NMC cell by use.

    Formula: \Delta G_{cyc} = \left(2.153 \cdot 10^{-4} (U_{rms} - 3.725)^2 - 1.521 \cdot 10^{-5} + 2.798
        \cdot 10^{-4} z_d\right) 4.3 \, N_c \, z_d
    Result: dG_cyc
    Valid: tested at rate 1 and 35 °C, sensitive to neither; U_rms of the model's cell; a depth from 0 to 1,
        so shallow that the rate turns negative excluded
    Source: schmalstieg-2014, cycle part
    """
    rate = 2.153e-4 * (U_rms - 3.725) ** 2 - 1.521e-5 + 2.798e-4 * _depth(z_d)
    if rate < 0:
        raise OutsideRange(
            f"at a depth of {z_d:.4g} the model lets the resistance shrink with use, and says nothing there"
        )
    return rate * THROUGHPUT * not_negative(N_c, "number of cycles") * z_d


def _days(t: float) -> float:
    """Return the time in days to the power of the model."""
    return float((not_negative(t, "time", "s") / DAY) ** 0.75)


def _depth(z_d: float) -> float:
    if not 0 <= z_d <= 1:
        raise OutsideRange(f"the depth of the window of charge is {z_d:.4g}, and must be from 0 to 1")
    return z_d


def storage_voltage(charge: float) -> float:
    """Return the rest voltage in V of the model's cell at a state of charge.

    Raises:
        OutsideRange: the state of charge is not from 0 to 1.
    """
    return MODEL_CELL.at(charge, "state of charge in storage")


@formula
def rms_of_window(z_1: float, z_2: float, z_i: Sequence[float], U_i: Sequence[float]) -> float:
    r"""Root mean square of a rest voltage over a window of charge.

    Formula: U_{rms} = \sqrt{\frac{1}{z_1 - z_2} \int_{z_2}^{z_1} U_{oc}(z)^2 \, dz}
    Result: U_rms
    Valid: a window inside the table that is not empty; between two points with voltages u and v the integral
        of the square is the width times (u² + u v + v²) / 3
    Source: derived, exact integral of the square of the straight lines of the table
    """
    if not z_2 < z_1:
        raise OutsideRange(f"the window of charge goes from {z_2:.4g} to {z_1:.4g}, and must rise")
    nodes = [z_2, *(z for z in z_i if z_2 < z < z_1), z_1]
    volts = [lines.value_at(z, z_i, U_i, "state of charge of the window") for z in nodes]
    # the square of a straight line, integrated exactly
    parts = (
        (b - a) * (u * u + u * v + v * v) / 3
        for a, b, u, v in zip(nodes, nodes[1:], volts, volts[1:], strict=False)
    )
    return sqrt(sum(parts) / (z_1 - z_2))


def window_voltage(low: float, high: float) -> float:
    """Return the root mean square in V of the rest voltage of the model's cell over a window of charge.

    Raises:
        OutsideRange: the window is not inside 0 to 1, or is empty.
    """
    return rms_of_window(high, low, MODEL_CELL.x, MODEL_CELL.y)
