"""Position error from ground velocities: round trips, scatter, tracks on one line."""

from __future__ import annotations

from math import atan2, cos, hypot, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.airspeed import calibrated_from_true
from dossier.compute.airspeed_calibration import (
    airspeed_from_headings,
    airspeed_from_tracks,
    calibrated_from_line,
    correction_from_headings,
    correction_from_tracks,
    position_correction,
    solve_tracks,
)
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


HEADINGS = [0.0, 2 * pi / 3, 4 * pi / 3]


def over_the_ground(speed: float, wind: tuple[float, float], headings: list[float]) -> list[float]:
    """Add the wind to the way through the air, leg by leg."""
    return [hypot(speed * cos(at) + wind[0], speed * sin(at) + wind[1]) for at in headings]


@pytest.mark.parametrize("headings", [HEADINGS, [0.3, 1.9, 3.5, 5.0]])
def test_headings_give_the_airspeed_back_that_was_flown(headings: list[float]) -> None:
    legs = over_the_ground(20.0, (3.0, -4.0), headings)
    assert airspeed_from_headings(legs, headings) == pytest.approx(20.0)


def test_three_headings_at_120_degrees_by_hand() -> None:
    # sum of the squares over 3 is v² + w² for such headings; still air gives each leg itself
    assert airspeed_from_headings([25.0, 25.0, 25.0], HEADINGS) == pytest.approx(25.0)


def test_headings_that_lie_together_are_refused() -> None:
    with pytest.raises(OutsideRange, match="lie near one another"):
        airspeed_from_headings([20.0, 20.1, 20.2], [0.0, 0.1, 0.2])


def test_two_headings_are_refused() -> None:
    with pytest.raises(OutsideRange, match="three of each"):
        airspeed_from_headings([20.0, 21.0], [0.0, 2.0])


def test_ground_speeds_that_no_wind_gives_are_refused() -> None:
    with pytest.raises(OutsideRange, match="fit no wind"):
        airspeed_from_headings([1.0, 40.0, 1.0], HEADINGS)


def test_both_ways_give_one_correction_in_still_air_at_sea_level() -> None:
    # 20 m/s over the ground in still standard air is 20 m/s calibrated: 1 m/s below the 21 m/s indicated
    more = {"T": 288.15, "dv_c": 0.25}
    found = [
        correction_from_headings(21.0, [20.0] * 3, HEADINGS, 101325.0, **more),
        correction_from_tracks(21.0, [20.0] * 3, HEADINGS, 101325.0, **more),
    ]
    assert found == pytest.approx([-0.75, -0.75])


def test_the_line_through_three_corrections_by_hand() -> None:
    # corrections -1, -0.6, -0.2 at 10, 20, 30 m/s lie on -1.4 + 0.04 v: at 25 m/s -0.4
    assert calibrated_from_line(25.0, [10.0, 20.0, 30.0], [-1.0, -0.6, -0.2]) == pytest.approx(24.6)


@pytest.mark.parametrize("indicated", [9.4, 31.6])
def test_a_reading_beyond_the_calibration_is_refused(indicated: float) -> None:
    with pytest.raises(OutsideRange, match=r"calibration reaches from 9\.5 to 31\.5 m/s"):
        calibrated_from_line(indicated, [10.0, 20.0, 30.0], [-1.0, -0.6, -0.2])


def test_a_line_through_two_speeds_is_refused() -> None:
    with pytest.raises(OutsideRange, match="drawn through three"):
        calibrated_from_line(15.0, [10.0, 20.0, 20.0], [-1.0, -0.6, -0.5])
