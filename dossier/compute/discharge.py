r"""Discharge at constant power to its end, by quadrature over the state of charge.

    dt = Q V(z) / P dz,   V = (U(z) + sqrt(U(z)² - 4 P R(z))) / 2,   heat = Q I R dz

Gauss-Legendre between the points of the tables, where the integrand is smooth: there is no step of time. The
temperature stays as it is at the start.

Holds (source pybamm, published parameter sets of NMC and NCA cells, simulated), from 5 °C up, with R from the
maker's discharge curve near the rate: for energy cells within 1.2 % of time to a nominal rate of 0.5, and at
1 within 0.3 % for one set and 5.2 % for another, whose diffusion ends the run; for power cells within 1.3 %
to a rate of 2 and 2.5 % at 3. Beyond, there is no answer. R from pulses of 10 s makes it 1 to 6 % too long at
a rate of 0.5. Iron phosphate is not shown: 3 % too long at a rate of 0.2 and 12 % at 1 for the one set that
was run. That a real cell behaves so is not shown: expect 3 % at best (Traub 2013, abstract), 5 % from a
sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dossier.compute import cell_validity
from dossier.compute.cell import Cell
from dossier.compute.cell_circuit import end_of_charge, working_voltage
from dossier.compute.cell_validity import HOUR
from dossier.compute.curve import Array, Codes, Flags
from dossier.compute.discharge_outcome import Limit, NoAnswer, Reason
from dossier.compute.scenarios import Scenarios
from dossier.figures import OutsideRange

POINTS, WEIGHTS = np.polynomial.legendre.leggauss(5)
"""On -1 to 1."""

Columns = Mapping[str, Array]
NAMES = (
    "time", "energy", "charge", "heat", "end_charge", "first_voltage", "last_voltage", "first_current",
    "last_current", "peak_rate",
)  # fmt: skip


@dataclass(frozen=True)
class Discharge:
    """One discharge of one cell, in SI."""

    time: float
    energy: float
    """At the terminals, wiring taken off."""
    charge: float
    heat: float
    """In the cell and its wiring."""
    end_charge: float
    """State of charge at the end."""
    first_voltage: float
    last_voltage: float
    """Under load."""
    first_current: float
    last_current: float
    peak_rate: float
    """Highest current over the capacity that is left, in 1/h."""
    limit: Limit
    """What ended it, at ``time``."""


@dataclass(frozen=True, eq=False)
class Discharges:
    """Many discharges. Take one with ``[number]``, or a column with :meth:`column`."""

    cell: Cell
    cases: Scenarios
    limit: Codes
    """Of :class:`~dossier.compute.discharge_outcome.Limit`."""
    reason: Codes
    """Of :class:`~dossier.compute.discharge_outcome.Reason`: 0 where there is an answer."""
    computed: Columns
    """As the circuit has it, also where it does not hold; ``reason`` must be looked at beside it."""

    @property
    def answered(self) -> Flags:
        """True where there is an answer."""
        return np.asarray(self.reason == Reason.NONE)

    def column(self, name: str, *, otherwise: float) -> Array:
        """Return one of :data:`NAMES`, with ``otherwise`` where there is no answer."""
        return np.where(self.answered, self.computed[name], otherwise)

    def __len__(self) -> int:
        """Count the scenarios."""
        return len(self.limit)

    def __getitem__(self, number: int) -> Discharge | NoAnswer:
        """Return one discharge, or why there is none."""
        reason = Reason(int(self.reason[number]))
        if reason is Reason.NONE:
            values = {name: float(self.computed[name][number]) for name in NAMES}
            return Discharge(**values, limit=Limit(int(self.limit[number])))
        power, health = self.cases.power[number], self.cases.health[number]
        rate = cell_validity.nominal_rate(self.cell, np.asarray(power), np.asarray(health))
        words = (
            f"{power:.4g} W a cell are a nominal rate of {rate:.3g} per hour, and one resistance stands for "
            f"this {self.cell.application} cell to {self.cell.rates.sustained:g}"
        )
        return cell_validity.no_answer(
            reason,
            self.cell,
            temperature=float(self.cases.temperature[number]),
            power=float(power),
            rate=words,
        )


def discharge(cell: Cell, cases: Scenarios) -> Discharges:
    """Discharge a cell at a constant power in every scenario, to the first limit.

    Args:
        cell: the cell, in SI.
        cases: shape ``(scenarios,)`` each column.

    Returns:
        for each scenario an answer, or by name why there is none. A power that the cell cannot give at the
        start is ``Reason.POWER``; one that starts below the limit of voltage is an answer of 0 s.
    """
    parts = [_chunk(cell, part) for part in cases.chunks()]
    limit = np.concatenate([part[0] for part in parts])
    computed = {name: np.concatenate([part[1][name] for part in parts]) for name in NAMES}
    too_fast = cell_validity.nominal_rate(cell, cases.power, cases.health) > cell.rates.sustained
    reason = cell_validity.reasons(
        cell, cases.temperature, impossible=limit == Limit.POWER, too_fast=too_fast
    )
    return Discharges(cell, cases, limit, reason, computed)


def _chunk(cell: Cell, cases: Scenarios) -> tuple[Codes, dict[str, Array]]:
    end, limit = end_of_charge(cell, cases)
    P, capacity = cases.power, cell.capacity * cases.health
    inner, lost = integrals(cell, cases, end, cases.start)
    time = capacity * inner / P
    first, last = (_voltage_at(cell, cases, z) for z in (cases.start, end))
    return limit, {
        "time": time,
        "energy": P * time,
        "charge": capacity * (cases.start - end),
        "heat": capacity * lost,
        "end_charge": end,
        "first_voltage": first,
        "last_voltage": last,
        "first_current": P / first,
        "last_current": P / last,
        "peak_rate": P / np.minimum(first, last) / capacity * HOUR,
    }


@dataclass(frozen=True, eq=False)
class Quadrature:
    """The points of the integrals, shape ``(scenarios, segments of the table, points)`` each; SI."""

    charge: Array
    rest: Array
    resistance: Array
    voltage: Array
    """Under load."""
    weight: Array
    """Width of charge that a point stands for; 0 outside the run."""


def quadrature(cell: Cell, cases: Scenarios, low: Array, high: Array) -> Quadrature:
    """Put the points from state of charge ``low`` to ``high``, shape ``(scenarios,)`` each.

    Raises:
        OutsideRange: the table holds a cell that gives no voltage.
    """
    z, U, R_25 = cell.nodes()
    R = cases.resistances(cell, R_25)
    left, right = (np.clip(ends, low[:, None], high[:, None]) for ends in (z[:-1], z[1:]))
    half = (right - left) / 2
    inside = (((left + right) / 2 - z[:-1]) / np.diff(z))[:, :, None] + (half / np.diff(z))[
        :, :, None
    ] * POINTS
    share = np.clip(inside, 0.0, 1.0)  # a segment that is not crossed has no width, and must not be extended
    U_p = U[:-1, None] + share * np.diff(U)[:, None]
    R_p = R[:, :-1, None] + share * np.diff(R, axis=1)[:, :, None]
    V = working_voltage(U_p, R_p, cases.power[:, None, None])
    if not (V > 0).all():
        raise OutsideRange("a cell of the table gives no voltage at rest, so no power can be drawn from it")
    at = z[:-1, None] + share * np.diff(z)[:, None]
    return Quadrature(at, U_p, R_p, V, half[:, :, None] * WEIGHTS)


def integrals(cell: Cell, cases: Scenarios, low: Array, high: Array) -> tuple[Array, Array]:
    """Return the integrals of V dz and of I R dz in V from ``low`` to ``high``, shape ``(scenarios,)``
    each."""
    at = quadrature(cell, cases, low, high)
    P = cases.power[:, None, None]
    lost = P / at.voltage * at.resistance * at.weight
    return (at.voltage * at.weight).sum(axis=(1, 2)), lost.sum(axis=(1, 2))


def _voltage_at(cell: Cell, cases: Scenarios, z: Array) -> Array:
    R = cell.resistance.along(z)
    own = cases.resistances(cell, np.ones(1))[:, 0] - cases.wiring
    return working_voltage(cell.rest.along(z), own * R + cases.wiring, cases.power)
