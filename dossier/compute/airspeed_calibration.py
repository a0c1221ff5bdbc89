"""Position error from ground velocities: one indicated speed is flown on three tracks or more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dossier.compute.airspeed import calibrated_from_true
from dossier.figures import OutsideRange, formula

LEAST_SPREAD = 0.3
"""Of the tracks: second singular value over the first; 1 for three at 120°, 0 on one line. Own choice."""


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
def position_correction(v_IAS: float, v_TAS: float, p: float, T: float) -> float:
    r"""What is to be added to the indicated airspeed: error of position and of the instrument together.

    Formula: \Delta v = v_{CAS}(v_{TAS}, p, T) - v_{IAS}
    Result: dv_pos
    Valid: true airspeed, pressure and temperature of the same run
    Source: definition
    """
    return calibrated_from_true(v_TAS, p, T) - v_IAS
