"""Position error from ground velocities: one indicated speed is flown on three tracks or more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dossier.compute.airspeed import calibrated_from_true
from dossier.figures import OutsideRange, formula

LEAST_SPREAD = 0.3
"""Of the tracks: second singular value over the first; 1 for three at 120°, 0 on one line. Own choice."""

MOST_CONDITION = 4.0
"""Of the rows 1, cos, sin of the headings: 1.4 for three at 120°. Own choice."""
BEYOND = 0.05
"""Part of the slowest and of the fastest calibrated speed by which a reading may lie beyond. Own choice."""


@dataclass(frozen=True)
class Tracks:
    """What a set of ground velocities shows."""

    true_airspeed: float
    """In m/s."""
    wind_north: float
    """Velocity of the air towards north, in m/s."""
    wind_east: float
    misfit: float
    """Largest departure of one track from the common airspeed, in m/s; 0 with three tracks."""


def solve_tracks(speeds: Sequence[float], tracks: Sequence[float]) -> Tracks:
    """Return airspeed and wind from ground velocities at one airspeed.

    Args:
        speeds: over the ground, in m/s.
        tracks: over the ground, in rad from north through east.

    Raises:
        OutsideRange: fewer than three, unequal numbers, or tracks that lie near one line.

    Source: derived, 2 (v_i - v_1) . w = |v_i|² - |v_1|².
    """
    if len(speeds) != len(tracks) or len(speeds) < 3:
        found = f"{len(speeds)} ground speeds and {len(tracks)} tracks"
        raise OutsideRange(f"there are {found}, and three of each or more are needed")
    v = np.asarray(speeds, float)[:, None] * np.column_stack([np.cos(tracks), np.sin(tracks)])
    rows = 2 * (v[1:] - v[0])
    spread = np.linalg.svd(v - v.mean(axis=0), compute_uv=False)
    if not spread[1] > LEAST_SPREAD * spread[0]:
        raise OutsideRange("the ground velocities lie near one line; fly three tracks about 120° apart")
    wind = np.linalg.lstsq(rows, (v[1:] ** 2).sum(axis=1) - (v[0] ** 2).sum(), rcond=None)[0]
    through_air = np.hypot(*(v - wind).T)
    mean = float(through_air.mean())
    return Tracks(mean, float(wind[0]), float(wind[1]), float(np.abs(through_air - mean).max()))


@formula
def airspeed_from_tracks(v_GSi: Sequence[float], chi_i: Sequence[float]) -> float:
    r"""True airspeed from ground velocities on three tracks or more.

    Formula: v_{TAS} = \left|\vec v_i - \vec w\right|, \quad
        2 (\vec v_i - \vec v_1) \cdot \vec w = |\vec v_i|^2 - |\vec v_1|^2
    Result: v_TAS
    Valid: the same airspeed on all tracks, steady wind, tracks well apart
    Source: derived, circle through the ends of the ground velocities
    """
    return solve_tracks(v_GSi, chi_i).true_airspeed


@formula
def airspeed_from_headings(v_GSi: Sequence[float], psi_i: Sequence[float]) -> float:
    r"""True airspeed from ground speeds on three headings or more.

    Formula: v_{TAS} = \sqrt{\frac{s + \sqrt{s^2 - |\vec q|^2}}{2}}, \quad
        v_i^2 = s + \vec q \cdot \vec u_i
    Result: v_TAS
    Valid: the same airspeed on all headings, steady wind slower than it, headings well apart
    Source: derived, |v u_i + w|² = v² + w² + 2 v w . u_i, by least squares for s and q
    """
    if len(v_GSi) != len(psi_i) or len(v_GSi) < 3:
        raise OutsideRange(
            f"there are {len(v_GSi)} ground speeds and {len(psi_i)} headings, and three of each are needed"
        )
    rows = np.column_stack([np.ones(len(psi_i)), np.cos(psi_i), np.sin(psi_i)])
    if not np.linalg.cond(rows) < MOST_CONDITION:
        raise OutsideRange("the headings lie near one another; fly three about 120° apart")
    s, north, east = np.linalg.lstsq(rows, np.asarray(v_GSi, float) ** 2, rcond=None)[0]
    inner = s**2 - north**2 - east**2
    if not (s > 0 and inner >= 0):
        raise OutsideRange("the ground speeds fit no wind that is slower than the aircraft")
    return float(np.sqrt((s + np.sqrt(inner)) / 2))


@formula
def correction_from_headings(
    v_IAS: float, v_GSi: Sequence[float], psi_i: Sequence[float], p: float, *, T: float, dv_c: float
) -> float:
    r"""What is to be added to an indicated airspeed, from ground speeds on headings.

    Formula: \Delta v = v_{CAS}\left(v_{TAS}(v_{GS,i}, \psi_i), p, T\right) - v_{IAS} + \delta v
    Result: dv_pos
    Valid: as for the airspeed from headings; pressure and temperature of the same run
    Source: definition
    """
    return position_correction(v_IAS, airspeed_from_headings(v_GSi, psi_i), p, T) + dv_c


@formula
def correction_from_tracks(
    v_IAS: float, v_GSi: Sequence[float], chi_i: Sequence[float], p: float, *, T: float, dv_c: float
) -> float:
    r"""What is to be added to an indicated airspeed, from ground velocities on tracks.

    Formula: \Delta v = v_{CAS}\left(v_{TAS}(v_{GS,i}, \chi_i), p, T\right) - v_{IAS} + \delta v
    Result: dv_pos
    Valid: as for the airspeed from tracks; pressure and temperature of the same run
    Source: definition
    """
    return position_correction(v_IAS, airspeed_from_tracks(v_GSi, chi_i), p, T) + dv_c


@formula
def calibrated_from_line(v_IAS: float, v_i: Sequence[float], dv_i: Sequence[float]) -> float:
    r"""Calibrated airspeed, by the straight line through the corrections of a calibration.

    Formula: v_{CAS} = v_{IAS} + a + b \, v_{IAS}, \quad
        (a, b) = \mathrm{argmin} \sum_i \left(\Delta v_i - a - b \, v_i\right)^2
    Result: v_CAS
    Valid: three speeds or more; within them and 5 % of the outer one beyond (own choice); corrections that
    lie near a line
    Source: derived, least squares
    """
    if len(v_i) != len(dv_i) or len(set(v_i)) < 3:
        raise OutsideRange(f"the calibration has {len(set(v_i))} speeds, and a line is drawn through three")
    low, high = min(v_i) * (1 - BEYOND), max(v_i) * (1 + BEYOND)
    if not low <= v_IAS <= high:
        raise OutsideRange(
            f"the indicated speed is {v_IAS:.4g} m/s, and the calibration reaches from {low:.4g} to "
            f"{high:.4g} m/s"
        )
    mean, middle = sum(dv_i) / len(dv_i), sum(v_i) / len(v_i)
    slope = sum((v - middle) * dv for v, dv in zip(v_i, dv_i, strict=True)) / sum(
        (v - middle) ** 2 for v in v_i
    )
    return v_IAS + mean + slope * (v_IAS - middle)


@formula
def position_correction(v_IAS: float, v_TAS: float, p: float, T: float) -> float:
    r"""What is to be added to the indicated airspeed: error of position and of the instrument together.

    Formula: \Delta v = v_{CAS}(v_{TAS}, p, T) - v_{IAS}
    Result: dv_pos
    Valid: true airspeed, pressure and temperature of the same run
    Source: definition
    """
    return calibrated_from_true(v_TAS, p, T) - v_IAS
