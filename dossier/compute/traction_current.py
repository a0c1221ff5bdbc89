"""What the traction circuit must carry: voltage and current of the pack under a power, at a state of charge,
and the current of a short circuit."""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute import lines, pack
from dossier.compute.bounds import positive
from dossier.compute.cell import COLD
from dossier.compute.cell_resistance import resistance_at
from dossier.compute.open_circuit import open_circuit_voltage
from dossier.figures import OutsideRange, formula

ZERO = 273.15
SHORT_SHARE = (0.25, 0.75)
"""Part of the quasi-steady resistance that limits a short circuit: that for alternating current is about half
of it, and half as much again either way is left open (source practice, against simulated cells)."""
BRIEF = 120.0
"""In s: a longer current counts as lasting (source practice, memory: charts of aircraft wire call up to two
minutes intermittent)."""


@formula
def voltage_under_power(
    P: float, z: float, *, N_s: float, N_p: float, T_b: float, G: float, b: float, R_w: float, U_min: float,
    z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Voltage of a pack under a power that lasts, at a state of charge.

    Formula: U = \frac{U_0 + \sqrt{U_0^2 - 4 P R}}{2}, \quad U_0 = N_s \, U_{oc}(z), \quad R =
        \frac{N_s}{N_p} \, R_{25}(z) \, G \, e^{b \left(\frac{1}{T_b} - \frac{1}{298.15\,\mathrm{K}}\right)}
        + R_w
    Result: U
    Valid: from 5 °C up, inside the tables, not below the voltage under load at which the discharge ends; the
        whole of the resistance acts, so that a short phase in truth has a higher voltage and a smaller
        current; all columns of the table on the same points
    Source: ohm, solved for constant power; resistance over temperature from pybamm
    """
    if T_b < COLD:
        raise OutsideRange(
            f"the battery is at {T_b - ZERO:.1f} °C; below 5 °C cells differ too much for a single value"
        )
    U_0 = N_s * open_circuit_voltage(z, z_i, U_i)
    R_cell = resistance_at(lines.value_at(z, z_i, R_i, "state of charge"), b, T_b, G)
    U = pack.loaded_voltage(U_0, pack.pack_resistance(N_s, N_p, R_cell) + R_w, P)
    least = N_s * U_min
    if least > U:
        raise OutsideRange(f"the voltage would fall to {U:.4g} V, and the discharge ends at {least:.4g} V")
    return U


@formula
def short_circuit_current(
    z: float, *, N_p: float, k_s: float, z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Estimate of the current of a short circuit at the terminals, at 25 °C.

    Formula: I_k = \frac{U_{oc}(z)}{k_s \, R_{25}(z)} \, N_p
    Result: I_k
    Valid: inside the tables; new cells, which give the most; in the first moment, before they warm up or
        their own protection acts. A warm battery gives more. It tells the order of size, no more
    Source: ohm
    """
    R_cell = k_s * lines.value_at(z, z_i, R_i, "state of charge")
    U_cell = open_circuit_voltage(z, z_i, U_i)
    return positive(N_p, "number of strings") * U_cell / positive(R_cell, "resistance", "Ω")


def longest_stretch(currents: Sequence[float], times: Sequence[float], level: float) -> float:
    """Return the longest time without a break in which the current is at least ``level``; A and s."""
    longest = stretch = 0.0
    for current, time in zip(currents, times, strict=True):
        stretch = stretch + time if current >= level else 0.0
        longest = max(longest, stretch)
    return longest


def lasting_level(currents: Sequence[float], times: Sequence[float]) -> int:
    """Return the number of the phase whose current is the largest that lasts longer than :data:`BRIEF`.

    Neighbouring phases count together. Where nothing lasts so long, the largest current of all counts as
    lasting.
    """
    order = sorted(range(len(currents)), key=lambda number: -currents[number])
    lasting = (n for n in order if longest_stretch(currents, times, currents[n]) > BRIEF)
    return next(lasting, order[0])
