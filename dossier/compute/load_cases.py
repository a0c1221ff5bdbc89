"""Every combination of what may be on board, and the ones that come closest to a limit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from math import sqrt

import numpy as np

from dossier.compute.envelope import Array, Envelope, margins


@dataclass(frozen=True)
class Load:
    """One choice of what is on board: an aircraft with its pack, a pilot, a ballast. In kg and m."""

    name: str
    mass: float
    arm: float


@dataclass(frozen=True)
class LoadCases:
    """All combinations of one load from each axis. ``masses`` and ``arms`` have one dimension an axis."""

    axes: tuple[tuple[Load, ...], ...]
    masses: Array
    arms: Array

    def loads(self, index: Sequence[int]) -> tuple[Load, ...]:
        """Name what is on board in one case."""
        return tuple(axis[i] for axis, i in zip(self.axes, index, strict=True))


@dataclass(frozen=True)
class Corner:
    """The load case that comes closest to a limit, or passes it farthest."""

    limit: str
    """``forward``, ``aft`` or ``mass``."""
    loads: tuple[Load, ...]
    mass: float
    arm: float
    margin: float
    """In m, or in kg for the mass; negative is outside."""


def combine(*axes: Sequence[Load]) -> LoadCases:
    """Combine one load from each axis, such as aircraft with pack, pilot and ballast.

    Raises:
        ValueError: an axis is empty, or a combination has no positive mass.
    """
    if not axes or not all(axes):
        raise ValueError("every axis needs at least one load; no ballast is a load of 0 kg")
    masses = _outer_sum([[load.mass for load in axis] for axis in axes])
    moments = _outer_sum([[load.mass * load.arm for load in axis] for axis in axes])
    if not (masses > 0).all():
        raise ValueError("a combination of loads has no positive mass")
    return LoadCases(tuple(tuple(axis) for axis in axes), masses, moments / masses)


def _outer_sum(axes: Sequence[Sequence[float]]) -> Array:
    columns = [np.asarray(axis, dtype=np.float64) for axis in axes]
    return np.asarray(reduce(np.add.outer, columns), dtype=np.float64)


def corners(cases: LoadCases, envelope: Envelope) -> tuple[Corner, ...]:
    """Return the worst case for the forward limit, the aft limit and the mass, the first of equal ones.

    The arm limits leave out cases over the mass limit, where none is laid down; with only such cases the mass
    stands alone.
    """
    measured = margins(cases.masses, cases.arms, envelope)
    found = []
    for limit in ("forward", "aft", "mass"):
        margin: Array = getattr(measured, limit)
        if np.isnan(margin).all():
            continue
        index = np.unravel_index(np.nanargmin(margin), margin.shape)
        mass, arm, least = (float(array[index]) for array in (cases.masses, cases.arms, margin))
        found.append(Corner(limit, cases.loads([int(i) for i in index]), mass, arm, least))
    return tuple(found)


def pilot_masses_to_check(
    without_pilot: Load, x_P: float, pilots: tuple[float, float], envelope: Envelope
) -> tuple[float, ...]:
    """Return the pilot masses at which a margin can be smallest, in rising order.

    The two ends are not enough: a limit may bend between them. Between bends the margin is ``A + B/m - slope
    m``, which has its
    extremes at the bends or at ``m² = -B/slope``.

    Args:
        without_pilot: the aircraft ready but for the pilot.
        x_P: arm of the pilot in m.
        pilots: lightest and heaviest pilot in kg.
        envelope: the limits.
    """
    m_0 = without_pilot.mass
    stops = {mass - m_0 for mass in envelope.masses}
    for limit in (envelope.forward, envelope.aft):
        for line in envelope.lines(limit):
            square = -m_0 * (without_pilot.arm - x_P) / line.slope if line.slope else -1.0
            if square > 0 and line.low <= sqrt(square) <= line.high:
                stops.add(sqrt(square) - m_0)
    low, high = pilots
    return (low, *sorted(stop for stop in stops if low < stop < high), high)
