"""Loading: the mass at an arm that brings the centre of gravity to a limit, and the pilots that fit.

Loaded mass and loaded centre of gravity are :func:`dossier.compute.weights.total_mass` and
``centre_of_gravity`` of all that is on board.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import copysign, isclose, sqrt

from dossier.compute.envelope import Envelope, Line
from dossier.compute.weights import centre_of_gravity
from dossier.figures import OutsideRange, formula


@formula
def ballast_mass(m: float, x_CG: float, x_lim: float, x_b: float) -> float:
    r"""Mass at an arm that brings the centre of gravity to a limit.

    Formula: m_b = m \, \frac{x_{CG} - x_{lim}}{x_{lim} - x_b}
    Result: m_b
    Valid: the centre of gravity and the added mass lie on opposite sides of the limit; round up and recompute
        afterwards
    Source: faa-h-8083-30b, figures 6-41 and 6-42
    """
    return _mass_to_limit(m, x_CG, x_lim, x_b)


@formula
def pilot_mass_at_limit(m_0: float, x_0: float, x_lim: float, x_P: float) -> float:
    r"""Pilot mass at which the centre of gravity meets a limit that does not depend on mass.

    Formula: m_P = m_0 \, \frac{x_0 - x_{lim}}{x_{lim} - x_P}
    Result: m_P
    Valid: the aircraft without pilot and the pilot lie on opposite sides of the limit
    Source: faa-h-8083-30b, figures 6-41 and 6-42, with the pilot as the added mass
    """
    return _mass_to_limit(m_0, x_0, x_lim, x_P)


def _mass_to_limit(m: float, x: float, limit: float, x_added: float) -> float:
    if x == limit:
        return 0.0
    if limit == x_added or (x - limit) / (limit - x_added) < 0:
        raise OutsideRange(
            f"no mass at {x_added:.6g} m brings the centre of gravity from {x:.6g} m to {limit:.6g} m"
        )
    return m * (x - limit) / (limit - x_added)


@formula
def pilot_mass_under_mass_limit(m_max: float, m_0: float) -> float:
    r"""Largest pilot mass that the mass limit leaves.

    Formula: m_P = m_{max} - m_0
    Result: m_P
    Valid: the aircraft without pilot is not heavier than the limit
    Source: definition
    """
    if m_0 > m_max:
        raise OutsideRange(f"without pilot the mass is {m_0:.6g} kg, more than the limit of {m_max:.6g} kg")
    return m_max - m_0


@formula
def minimum_pilot_mass(
    m_0: float, x_0: float, x_P: float, *, m_j: Sequence[float], x_fj: Sequence[float], x_aj: Sequence[float]
) -> float:
    r"""Smallest pilot mass that the envelope allows; 0 when the aircraft is inside it without pilot.

    Formula: m_P = \min \left\{ p \ge 0 : x_f(m) \le \frac{m_0 x_0 + p \, x_P}{m} \le x_a(m),\; m = m_0 + p
        \le m_{max} \right\}
    Result: m_P
    Valid: the masses allowed form one unbroken range
    Source: derived, from moments; solved exactly on each straight piece of the limits
    """
    return _one_range(m_0, x_0, x_P, Envelope(tuple(m_j), tuple(x_fj), tuple(x_aj)))[0]


@formula
def maximum_pilot_mass(
    m_0: float, x_0: float, x_P: float, *, m_j: Sequence[float], x_fj: Sequence[float], x_aj: Sequence[float]
) -> float:
    r"""Largest pilot mass that the envelope allows, by arm or by mass.

    Formula: m_P = \max \left\{ p \ge 0 : x_f(m) \le \frac{m_0 x_0 + p \, x_P}{m} \le x_a(m),\; m = m_0 + p
        \le m_{max} \right\}
    Result: m_P
    Valid: the masses allowed form one unbroken range
    Source: derived, from moments; solved exactly on each straight piece of the limits
    """
    return _one_range(m_0, x_0, x_P, Envelope(tuple(m_j), tuple(x_fj), tuple(x_aj)))[1]


@formula
def lightest_in_every_case(m_Pi: Sequence[float]) -> float:
    r"""Lightest pilot who is inside the limits in every case: the largest of the lightest of each.

    Formula: m_P = \max_i m_{P,i}
    Result: m_P
    Valid: between two cases as well, where the envelope does not bend inward
    Source: derived, from moments
    """
    return max(m_Pi)


@formula
def heaviest_in_every_case(m_Pi: Sequence[float]) -> float:
    r"""Heaviest pilot who is inside the limits in every case: the smallest of the heaviest of each.

    Formula: m_P = \min_i m_{P,i}
    Result: m_P
    Valid: between two cases as well, where the envelope does not bend inward
    Source: derived, from moments
    """
    return min(m_Pi)


def _one_range(m_0: float, x_0: float, x_P: float, envelope: Envelope) -> tuple[float, float]:
    ranges = pilot_mass_ranges(m_0, x_0, x_P, envelope)
    if not ranges:
        raise OutsideRange(
            f"no pilot at {x_P:.6g} m brings the aircraft of {m_0:.6g} kg at {x_0:.6g} m inside its envelope"
        )
    if len(ranges) > 1:
        parts = " and ".join(f"{low:.6g} to {high:.6g} kg" for low, high in ranges)
        raise OutsideRange(f"the envelope allows no single range of pilot masses, it allows {parts}")
    return ranges[0]


def pilot_mass_ranges(
    m_0: float, x_0: float, x_P: float, envelope: Envelope
) -> tuple[tuple[float, float], ...]:
    """Return every range of pilot masses that is inside the envelope, lowest first; empty when there is none.

    A limit on a straight line over mass meets the loaded centre of gravity where a quadratic in the loaded
    mass is zero, so
    the borders are exact. Between two neighbouring borders a loading is inside throughout or nowhere.

    Args:
        m_0: mass without pilot in kg.
        x_0: its centre of gravity in m.
        x_P: arm of the pilot in m.
        envelope: the limits.
    """
    stops = _stops(m_0, x_0, x_P, envelope)
    found: list[tuple[float, float]] = []
    for low, high in pairwise(stops):
        if not _inside(low + (high - low) / 2, m_0, x_0, x_P, envelope):
            continue
        if found and found[-1][1] == low - m_0:
            found[-1] = (found[-1][0], high - m_0)
        else:
            found.append((low - m_0, high - m_0))
    return tuple(found)


def _stops(m_0: float, x_0: float, x_P: float, envelope: Envelope) -> list[float]:
    """Return the loaded masses at which a loading may enter or leave the envelope."""
    candidates = {m_0, *envelope.masses}
    for limit in (envelope.forward, envelope.aft):
        for line in envelope.lines(limit):
            candidates.update(m for m in _crossings(m_0, x_0, x_P, line) if line.low <= m <= line.high)
    stops: list[float] = []
    for m in sorted(m for m in candidates if m_0 <= m <= envelope.max_mass):
        # a crossing at a corner differs from it in the last digits only, and there is nothing between them
        if not stops or not isclose(m, stops[-1], rel_tol=1e-12):
            stops.append(m)
    return stops


def _crossings(m_0: float, x_0: float, x_P: float, line: Line) -> Iterator[float]:
    """Solve ``slope m² + (start - x_P) m + m_0 (x_P - x_0) = 0`` without loss of digits."""
    a, b, c = line.slope, line.start - x_P, m_0 * (x_P - x_0)
    inner = b * b - 4 * a * c
    if inner < 0:
        return
    q = -(b + copysign(sqrt(inner), b)) / 2
    if a != 0:
        yield q / a
    if q != 0:
        yield c / q


def _inside(m: float, m_0: float, x_0: float, x_P: float, envelope: Envelope) -> bool:
    # relative to x_0, so that a pilot who sits at the centre of gravity leaves it exactly where it is
    arm = x_0 + centre_of_gravity([m_0, m - m_0], [0.0, x_P - x_0])
    fore, aft = (
        next(line.start + line.slope * m for line in envelope.lines(limit) if m <= line.high)
        for limit in (envelope.forward, envelope.aft)
    )
    return fore <= arm <= aft
