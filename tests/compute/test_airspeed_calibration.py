"""Position error from ground velocities: round trips, scatter, tracks on one line."""

from __future__ import annotations

from math import atan2, cos, hypot, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.airspeed import calibrated_from_true
from dossier.compute.airspeed_calibration import airspeed_from_tracks, position_correction, solve_tracks
from dossier.figures import Input, OutsideRange, error_source, propagate, spread


def flown(
    airspeed: float, wind: tuple[float, float], headings: list[float]
) -> tuple[list[float], list[float]]:
    """Return ground speeds and tracks of headings in degrees; wind towards north and east."""
    north = [airspeed * cos(radians(heading)) + wind[0] for heading in headings]
    east = [airspeed * sin(radians(heading)) + wind[1] for heading in headings]
    pairs = list(zip(north, east, strict=True))
    return [hypot(*pair) for pair in pairs], [atan2(e, n) for n, e in pairs]


WIND = st.floats(-8, 8)


@given(st.floats(12, 40), WIND, WIND, st.floats(0, 360), st.sampled_from([3, 4, 5, 6]))
def test_airspeed_and_wind_come_back(
    airspeed: float, north: float, east: float, first: float, legs: int
) -> None:
    found = solve_tracks(*flown(airspeed, (north, east), [first + 360 * leg / legs for leg in range(legs)]))
    assert found.true_airspeed == pytest.approx(airspeed)
    assert (found.wind_north, found.wind_east) == pytest.approx((north, east), abs=1e-6)
    assert found.misfit == pytest.approx(0.0, abs=1e-6)


def test_without_wind_the_airspeed_is_the_ground_speed() -> None:
    assert airspeed_from_tracks([20.0] * 3, [0.0, 2 * pi / 3, 4 * pi / 3]) == pytest.approx(20.0)


def test_a_fourth_track_shows_a_gust() -> None:
    speeds, tracks = flown(20.0, (3.0, -1.0), [0, 90, 180, 270])
    speeds[2] += 1.0
    assert solve_tracks(speeds, tracks).misfit > 0.2


def test_an_error_that_all_ground_speeds_share_does_not_shrink() -> None:
    speeds, tracks = flown(20.0, (0.0, 0.0), [0, 120, 240])
    shared = error_source("receiver", 0.1)
    inputs = {
        "v_GSi": [Input("ground speed", "speed", v + shared, "receiver") for v in speeds],
        "chi_i": [Input("track", "angle", track, "receiver") for track in tracks],
    }
    assert spread(propagate(airspeed_from_tracks, inputs)) == pytest.approx(0.1, rel=1e-4)


def test_errors_of_three_ground_speeds_apart_shrink_by_the_root_of_three() -> None:
    speeds, tracks = flown(20.0, (0.0, 0.0), [0, 120, 240])
    inputs = {
        "v_GSi": [
            Input(f"ground speed {i}", "speed", v + error_source(f"{i}", 0.1), "")
            for i, v in enumerate(speeds)
        ],
        "chi_i": [Input("track", "angle", track, "receiver") for track in tracks],
    }
    assert spread(propagate(airspeed_from_tracks, inputs)) == pytest.approx(0.1 / 3**0.5, rel=1e-4)


def test_the_correction_leads_from_indicated_to_calibrated() -> None:
    found = position_correction(18.0, 20.0, 90000.0, 285.0)
    assert 18.0 + found == pytest.approx(calibrated_from_true(20.0, 90000.0, 285.0))


@pytest.mark.parametrize(
    ("headings", "says"),
    [
        ([0, 120], "2 ground speeds and 2 tracks, and three of each or more are needed"),
        ([0, 180, 0], "lie near one line; fly three tracks about 120° apart"),
        ([10, 20, 30], "lie near one line"),
    ],
)
def test_tracks_that_show_nothing_are_refused(headings: list[float], says: str) -> None:
    with pytest.raises(OutsideRange, match=says):
        airspeed_from_tracks(*flown(20.0, (2.0, 1.0), headings))
