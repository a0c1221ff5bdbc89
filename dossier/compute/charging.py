"""Charging: energy from the socket, the rate, and the time from the circuit of the cell with its taper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from dossier.compute.bounds import efficiency, not_negative, positive
from dossier.compute.cell import Cell
from dossier.compute.curve import Array
from dossier.figures import OutsideRange, formula

HOUR = 3600.0
TEMPERATURES = (273.15, 318.15)
"""0 to 45 °C, in which lithium cells are usually charged (read second-hand, on makers' pages); the maker's
word counts."""
STORAGE = (0.3, 0.6)
"""State of charge in which batteries are usually stored, best about 0.4 (read second-hand)."""
POINTS, WEIGHTS = np.polynomial.legendre.leggauss(24)


@formula
def socket_energy(E: float, eta: float) -> float:
    r"""Energy that the socket gives while an energy goes into the battery.

    Formula: E_s = \frac{E}{\eta}
    Result: E_s
    Valid: an efficiency of the charger above 0 and up to 1, taken over the whole charge
    Source: definition
    """
    return not_negative(E, "energy to refill", "J") / efficiency(eta)


@formula
def charging_rate(P: float, eta: float, E_nom: float) -> float:
    r"""Nominal charging rate: the power that reaches the battery over its nameplate energy, per hour.

    Formula: C = \frac{\eta \, P}{E_{nom}} \cdot 3600\,\mathrm{s}
    Result: C
    Valid: a positive nameplate energy, an efficiency above 0 and up to 1
    Source: definition
    """
    return efficiency(eta) * P / positive(E_nom, "nameplate energy", "J") * HOUR


Law = Callable[[Array, Array], tuple[Array, Array]]


@dataclass(frozen=True)
class Charge:
    """How a cell is charged, in SI."""

    power: float
    """In W into the cell until the voltage is reached."""
    voltage: float
    """In V, kept from then on."""
    last_current: float
    """In A at which the charger stops."""
    start: float
    """State of charge."""


@dataclass(frozen=True)
class Charged:
    """The charge as it went, in SI, of one cell."""

    bulk_time: float
    taper_time: float
    energy: float
    """At the terminals."""
    heat: float
    end: float
    """State of charge where the charger stops."""
    highest_current: float


def charge(cell: Cell, how: Charge) -> Charged:
    r"""Charge a cell at constant power, then at constant voltage.

        bulk:  dt = Q V / P dz,  V = (U + sqrt(U² + 4 P R)) / 2;    taper:  dt = Q / I dz,  I = (V_max - U) /
            R

    Valid: 25 °C, a new cell, to about a rate of 1; **the resistance of the discharge is taken for that of the
        charge,
    which no source shows**: a plan, not a promise. Source: equivalent-circuit.

    Raises:
        OutsideRange: power, voltage or last current make no charge from this start.
    """
    knee, end = ends_of_charge(cell, how)
    bulk, taper = _laws(how)
    first = _leg(cell, how.start, knee, bulk)
    second = _leg(cell, knee, end, taper)
    begin = cell.rest.at(how.start, "state of charge"), cell.resistance.at(how.start, "state of charge")
    law = bulk if knee > how.start else taper
    highest = float(law(*(np.array([one]) for one in begin))[1][0])
    energy, heat = ((first[n] + second[n]) for n in (1, 2))
    return Charged(first[0], second[0], energy, heat, end, highest)


def ends_of_charge(cell: Cell, how: Charge) -> tuple[float, float]:
    """Return the states of charge at which the voltage is reached, and at which the charger stops.

    Raises:
        OutsideRange: as for :func:`charge`.
    """
    z, U, R = cell.nodes()
    P, V_max = positive(how.power, "charging power", "W"), how.voltage
    if not z[0] <= how.start < z[-1]:
        raise OutsideRange(
            f"charging starts at a state of charge of {how.start:.4g}, and must start below full"
        )
    knee = _meets(z, U + R * P / V_max - V_max)
    end = _meets(z, U + R * positive(how.last_current, "current at which the charger stops", "A") - V_max)
    if not knee < end or not how.start < end:
        raise OutsideRange(
            "the charger would stop before it starts to taper: "
            "its last current is too large, or the cell too full"
        )
    return max(knee, how.start), end


def _laws(how: Charge) -> tuple[Law, Law]:
    """Return voltage and current over the charge before the voltage is reached, and from there on."""
    P, V_max = how.power, how.voltage

    def bulk(U_p: Array, R_p: Array) -> tuple[Array, Array]:
        V = (U_p + np.sqrt(U_p**2 + 4 * P * R_p)) / 2
        return V, P / V

    def taper(U_p: Array, R_p: Array) -> tuple[Array, Array]:
        return np.full_like(U_p, V_max), (V_max - U_p) / R_p

    return bulk, taper


def _meets(z: Array, above: Array) -> float:
    """Return the lowest state of charge at which a voltage is reached, on straight lines; the end if it never
    is."""
    if above[0] >= 0:
        return float(z[0])
    reached = np.flatnonzero(above >= 0)
    if not len(reached):
        return float(z[-1])
    k = int(reached[0])
    return float(z[k - 1] + (z[k] - z[k - 1]) * -above[k - 1] / (above[k] - above[k - 1]))


@dataclass(frozen=True, eq=False)
class Leg:
    """The points of one part of a charge; SI, of one cell."""

    charge: Array
    width: Array
    """Width of charge that a point stands for."""
    rest: Array
    resistance: Array
    voltage: Array
    current: Array


def legs(cell: Cell, how: Charge) -> tuple[Leg, Leg]:
    """Return the points to the voltage, and from there to the end; see :func:`charge`.

    Raises:
        OutsideRange: as there.
    """
    knee, end = ends_of_charge(cell, how)
    bulk, taper = _laws(how)
    return _points(cell, how.start, knee, bulk), _points(cell, knee, end, taper)


def _points(cell: Cell, low: float, high: float, law: Law) -> Leg:
    z, _, _ = cell.nodes()
    edges = np.unique(np.clip(z, low, high))
    half = np.diff(edges)[:, None] / 2
    at = (edges[:-1, None] + half) + half * POINTS
    U, R = cell.rest.along(at) if at.size else at, cell.resistance.along(at) if at.size else at
    V, current = law(U, R)
    return Leg(*(column.ravel() for column in (at, half * WEIGHTS, U, R, V, current)))


def _leg(cell: Cell, low: float, high: float, law: Law) -> tuple[float, float, float]:
    """Return time, energy and heat from one state of charge to a higher one."""
    at = _points(cell, low, high, law)
    weight = cell.capacity * at.width
    return (
        float((weight / at.current).sum()),
        float((weight * at.voltage).sum()),
        float((weight * (at.voltage - at.rest)).sum()),
    )
