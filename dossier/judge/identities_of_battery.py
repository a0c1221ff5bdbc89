"""Claims of voltages, energy, mass, volume, life, rate and charging of a pack. All in SI."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.compute.ageing_by_rate import blended_cycling_loss
from dossier.compute.life_by_rate import LOSS, WARM, mean_rate
from dossier.figures import OutsideRange
from dossier.judge.identity import Identity, Standing, compared, needing
from dossier.judge.identity_bands import BANDS

CELL_FULL, CELL_MIDDLE, CELL_LOW = (4.05, 4.25), (3.55, 3.75), (2.5, 3.3)
"""Voltages of a lithium-ion cell with a nickel cathode, in V: at the marks full, half and empty (own)."""
CELL_TOP = 4.2
"""Highest voltage of a cell, in V (common practice)."""
CELL_NOMINAL = 3.6
TOUCH = 60.0
"""In V d.c.: above it a traction circuit counts as high voltage (read, ISO 6469-4:2015, 5.2.2)."""
CHARGER = (0.88, 0.95)
"""Efficiency of a charger (memory)."""
ONE_WAY = 2.0
"""The most lenient model counts charge both ways; read as one way, it gives twice as many cycles."""
TAPER = (600.0, 2400.0)
"""Time in s in which the current falls at the end (memory)."""


@dataclass(frozen=True)
class Marks:
    """The marks of a voltage gauge, in V; those that are not known are left out."""

    full: float | None = None
    middle: float | None = None
    low: float | None = None


@dataclass(frozen=True)
class SeriesCount:
    """How many cells in series a set of marks allows."""

    candidates: tuple[int, ...]
    """Every count, the lowest first; with one mark alone a long list, and never a guess."""
    claimed: Identity | None
    """The claimed count, if there is one."""


def series_count_claim(marks: Marks, *, series: int | None = None) -> SeriesCount:
    """List every series count that the marks allow, and hold a claimed one against them.

    Where a claimed count is not among them, the nearest candidate would be true; with no candidate at all the
    marks belong to no pack of such cells and the count that fits the highest mark is named.

    Raises:
        OutsideRange: no mark is given, or one is not positive.
    """
    known = [
        (mark, ends)
        for mark, ends in ((marks.full, CELL_FULL), (marks.middle, CELL_MIDDLE), (marks.low, CELL_LOW))
        if mark is not None
    ]
    if not known or min(mark for mark, _ in known) <= 0:
        raise OutsideRange("the marks of a gauge need at least one voltage, and all positive")
    most = int(max(mark for mark, _ in known) / CELL_LOW[0]) + 1
    found = tuple(
        n for n in range(1, most + 1) if all(low <= mark / n <= high for mark, (low, high) in known)
    )
    return SeriesCount(found, None if series is None else _count(series, found, known))


def _count(series: int, found: Sequence[int], known: Sequence[tuple[float, tuple[float, float]]]) -> Identity:
    mark, (low, high) = known[0]
    nearest = min(found, key=lambda n: abs(n - series), default=max(round(2 * mark / (low + high)), 1))
    standing = Standing.SOUND if series in found else Standing.IMPOSSIBLE
    return Identity("series_count", standing, series, nearest, series / nearest, BANDS["series_count"])


def touch_voltage_claim(series: int) -> Identity:
    """Hold a claim to stay below the touch voltage against the full pack."""
    return compared("touch_voltage", series * CELL_TOP, TOUCH)


def nominal_energy_claim(energy: float, *, series: int, capacity: float) -> Identity:
    """Hold a nominal energy against series count and capacity of the pack in C."""
    return compared("nominal_energy", energy, series * CELL_NOMINAL * capacity)


def usable_energy_claim(usable: float, *, nominal: float) -> Identity:
    """Hold a usable energy against the nominal one."""
    return needing("usable_energy", usable, usable / nominal, lambda share: share * nominal)


def pack_mass_claim(mass: float, *, energy: float) -> Identity:
    """Hold the mass of a pack against its energy."""
    return needing("pack_mass", mass, energy / mass, lambda density: energy / density)


def pack_over_cell_claim(mass: float, *, energy: float, cell: float) -> Identity:
    """Hold the mass of a pack against its energy and the energy for mass of its cells in J/kg."""
    return needing("pack_over_cell", mass, energy / mass / cell, lambda share: energy / (share * cell))


def cells_in_mass_claim(mass: float, *, cells: float) -> Identity:
    """Hold the mass of a pack against that of its cells alone."""
    return needing("cells_in_mass", mass, cells / mass, lambda share: cells / share)


def cells_in_box_claim(volume: float, *, room: float) -> Identity:
    """Hold the volume of a box against the room that its cells take where they stand as close as they can."""
    return needing("cells_in_box", volume, room / volume, lambda share: room / share)


def pack_volume_claim(volume: float, *, energy: float) -> Identity:
    """Hold the volume of a pack against its energy."""
    return needing("pack_volume", volume, energy / volume, lambda density: energy / density)


def calendar_life_claim(years: float, *, cycles: float, cycle_time: float, flown: float) -> Identity:
    """Hold a life in years against cycles, time in the air from a charge, and time flown in a year.

    Times of a cycle and of a year are in one unit. What ends first is the life: the result is never
    impossible, because an owner may fly less.
    """
    return compared("calendar_life", years, cycles * cycle_time / flown)


def cycle_life_claim(cycles: float, *, time: float) -> Identity:
    """Hold a number of cycles against the most that a published model gives at the rate of the discharge.

    Full cycles to 80 % of the capacity, cells at 25 °C, by use alone, of NMC cells: the slower the discharge,
    the more. Never impossible, for cells differ more than models; above the most, ask for the test.

    Args:
        cycles: the claim.
        time: in which the whole battery is discharged, in s.

    Raises:
        OutsideRange: so slow or so fast a discharge is outside the tests of the model.
    """
    one = blended_cycling_loss(WARM, mean_rate(1.0, time), 1.0, 1.0)
    return compared("cycle_life", cycles, ONE_WAY * LOSS / one)


def discharge_rate_claim(allowed: float, *, power: float, loaded_voltage: float, capacity: float) -> Identity:
    """Hold a power against the rate that the cells allow, in capacities per hour.

    Args:
        allowed: rate of the maker, 1/h.
        power: of the pack, in W.
        loaded_voltage: of the pack under that load, never the nominal one, in V.
        capacity: of the pack, in C.
    """
    rate = power / loaded_voltage / capacity * 3600.0
    # the claim is that the power is allowed: what it needs is the rate, and the rate allowed would be true
    return needing("discharge_rate", allowed, rate / allowed, lambda share: rate / share)


def voltage_sag_claim(
    sag: float, *, current: float, cell_resistance: float, series: int, strings: int
) -> Identity:
    """Hold a sag under load against current and resistance of the cells."""
    return compared("voltage_sag", sag, current * cell_resistance * series / strings)


def half_pack_claim(time: float, *, whole: float) -> Identity:
    """Hold the endurance with half of the strings against that with all."""
    return needing("half_pack", time, time / whole, lambda share: share * whole)


def charging_time_claim(time: float, *, energy: float, power: float) -> Identity:
    """Hold a charging time against the energy that goes in and the power from the socket.

    Compared with the nearest that efficiencies and tapers allow; below energy over power it is impossible.
    """
    low, high = energy / (power * CHARGER[1]) + TAPER[0], energy / (power * CHARGER[0]) + TAPER[1]
    found = compared("charging_time", time, min(max(time, low), high))
    if time >= energy / power:
        return found
    return Identity(found.name, Standing.IMPOSSIBLE, time, low, time / low, found.band)
