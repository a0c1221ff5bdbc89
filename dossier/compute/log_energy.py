"""What the model of a cell says of a test: the energy of its discharge, and the resistance of a step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from dossier.compute import lines, pack
from dossier.compute.bounds import not_negative, positive
from dossier.compute.cell import COLD
from dossier.compute.cell_resistance import resistance_at
from dossier.figures import OutsideRange, formula

ZERO = 273.15
HOUR = 3600.0
BEYOND = 0.02
"""Of the charge, behind either end of a table: ten millivolts of a cell are about as much (own)."""
STEP_SHARE = (0.45, 0.8)
"""Part of the quasi-steady resistance that acts within a step of 1 to 10 s: 0.49 to 0.67 in simulated pulses
of one energy cell (source pybamm), and some more is left open at either end for other cells."""
ACCURACY: Mapping[str, tuple[tuple[float, float], ...]] = MappingProxyType(
    {
        "energy": ((0.5, 0.012), (1.0, 0.052)),
        "power": ((0.5, 0.012), (3.0, 0.025)),
        "lithium-iron-phosphate": ((0.2, 0.03), (0.5, 0.07), (1.0, 0.12)),
    }
)
"""Application or chemistry -> rates in 1/h, and what the model is off by up to each, as a part of the energy
(source pybamm: of the run time at constant power, which is the same part of the energy)."""


def accuracy(kind: str, rate: float) -> float:
    """Return what the discharge model may be off by at a rate in 1/h, as a part of the energy.

    Args:
        kind: a key of :data:`ACCURACY`.
        rate: the current in capacities per hour.

    Raises:
        OutsideRange: the model is not shown to hold at that rate.
    """
    for most, part in ACCURACY[kind]:
        if rate <= most:
            return part
    raise OutsideRange(
        f"the rate of the test is {rate:.3g}, and the model is shown to {ACCURACY[kind][-1][0]:g}"
    )


@formula
def energy_of_test(
    Q: float, I: float, z_1: float, z_2: float, *, N_s: float, N_p: float, T_b: float, G: float,  # noqa: E741 - the symbol of current
    b: float, R_w: float, k_m: float, z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Energy at the terminals of a pack that is discharged at one current between two states of charge.

    Formula: E_t = k_m \, Q \int_{z_2}^{z_1} \left(N_s \, U_{oc}(z) - I \left(\frac{N_s}{N_p} \, R_{25}(z) \,
        G \, e^{b \left(\frac{1}{T_b} - \frac{1}{298.15\,\mathrm{K}}\right)} + R_w\right)\right) dz
    Result: E_t
    Valid: a current that does not change much (weighed by charge where it does), from 5 °C up, at one
        temperature; columns on the same points; both states inside the tables, or up to 2 % of the charge
        beyond an end, where its last straight line goes on: so the doubt of a full battery can be carried
    Source: equivalent-circuit
    """
    warm_enough(T_b)
    volts, ohms = (_area(z_2, z_1, z_i, column) for column in (U_i, R_i))
    R = pack.pack_resistance(N_s, N_p, resistance_at(ohms, b, T_b, G)) + R_w * (z_1 - z_2)
    return k_m * positive(Q, "capacity", "C") * (N_s * volts - not_negative(I, "current", "A") * R)


@formula
def resistance_of_step(
    z: float, *, N_s: float, N_p: float, T_b: float, G: float, b: float, R_w: float, k_s: float,
    z_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Resistance of a pack that a step of the current shows after some seconds.

    Formula: R_t = k_s \, \frac{N_s}{N_p} \, R_{25}(z) \, G \, e^{b \left(\frac{1}{T_b} -
        \frac{1}{298.15\,\mathrm{K}}\right)} + R_w
    Result: R_t
    Valid: from rest, within about 10 s; from 5 °C up; inside the table or up to 2 % of the charge beyond it
    Source: equivalent-circuit
    """
    warm_enough(T_b)
    R_25 = lines.value_at(z, *_stretched(z_i, R_i), "state of charge")
    R_cell = resistance_at(R_25, b, T_b, G)
    return k_s * pack.pack_resistance(N_s, N_p, R_cell) + R_w


@formula
def energy_beyond(E: float, E_t: float) -> float:
    r"""By how much a measured energy is more than the computed one.

    Formula: \Delta E = E - E_t
    Result: dE
    Valid: always
    Source: definition
    """
    return E - E_t


@formula
def resistance_beyond(R: float, R_t: float) -> float:
    r"""By how much a measured resistance is more than the computed one.

    Formula: \Delta R = R - R_t
    Result: dR
    Valid: always
    Source: definition
    """
    return R - R_t


def _area(z_2: float, z_1: float, z_i: Sequence[float], column: Sequence[float]) -> float:
    return lines.area_between(z_2, z_1, *_stretched(z_i, column), "state of charge")


def _stretched(z_i: Sequence[float], column: Sequence[float]) -> tuple[list[float], list[float]]:
    """Let the first and the last straight line of a table go on by :data:`BEYOND`."""
    low = (column[1] - column[0]) / (z_i[1] - z_i[0])
    high = (column[-1] - column[-2]) / (z_i[-1] - z_i[-2])
    return (
        [z_i[0] - BEYOND, *z_i, z_i[-1] + BEYOND],
        [column[0] - BEYOND * low, *column, column[-1] + BEYOND * high],
    )


def warm_enough(T_b: float) -> None:
    """Refuse a temperature at which only a band can be given.

    Raises:
        OutsideRange: it is below 5 °C.
    """
    if T_b < COLD:
        raise OutsideRange(
            f"the battery is at {T_b - ZERO:.1f} °C; below 5 °C cells differ too much for a single value"
        )
