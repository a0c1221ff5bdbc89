"""Level flight: the chain of powers, the top speed by brute force, no level flight by name."""

from __future__ import annotations

import numpy as np
import pytest
from flight_examples import flight_example
from hypothesis import given
from hypothesis import strategies as st
from invented_glider import KNOT, POLAR, RHO
from scipy.optimize import brentq

from dossier.compute import level
from dossier.compute.atmosphere import air, geopotential_height
from dossier.compute.curve import Curve
from dossier.compute.energy import STANDARD_GRAVITY as G
from dossier.compute.flight_outcome import OBSTACLES, Obstacle
from dossier.compute.glide import Polar, best_glide, drag, glides, least_sink
from dossier.figures import OutsideRange

DRIVE = level.Drive(controller=0.97, motor=0.9, propeller=0.62)


def test_power_at_the_air_is_weight_times_sink() -> None:
    found = level.power_required(POLAR, DRIVE, 18.0, 201.5, density=RHO)
    sink = glides(POLAR, 18.0, 201.5, RHO).one("sink")
    assert found.one("air") == pytest.approx(201.5 * G * sink)


def test_power_at_shaft_and_pack_follow_from_the_chain() -> None:
    found = level.power_required(POLAR, DRIVE, 18.0, 201.5, density=RHO)
    air, shaft, pack = (found.one(name) for name in ("air", "shaft", "pack"))
    assert shaft == pytest.approx(air / 0.62)
    assert pack == pytest.approx(air / DRIVE.whole)


def test_the_sheet_of_shaft_power_is_the_column() -> None:
    sink = glides(POLAR, 18.0, 201.5, RHO).one("sink")
    shaft = level.power_required(POLAR, DRIVE, 18.0, 201.5, density=RHO).one("shaft")
    assert level.shaft_power(201.5, sink, G, 0.62) == pytest.approx(shaft)


def test_no_power_is_given_for_a_stalled_speed() -> None:
    assert level.power_required(POLAR, DRIVE, 12.0, 201.5, density=RHO).one("pack") is Obstacle.STALLED


def test_power_at_the_best_glide_is_1_14_times_the_least() -> None:
    # 3^(3/4)/2 of a parabola
    at = drag(POLAR, 201.5, RHO)
    ratio = at.sink(at.best_glide_speed) / at.sink(at.least_power_speed)
    assert float(ratio) == pytest.approx(1.140, abs=5e-4)


def test_the_top_speed_of_the_invented_aircraft_is_the_worked_one() -> None:
    # 211.5 kg, 9 kW: 2.15 m/s of climb over 0.710 m/s of sink, and 70.9 kt (worked out apart from this code)
    thrust_power = 211.5 * G * (2.15 + 0.710)
    found = level.top_speed(POLAR, thrust_power, 211.5, RHO).one("speed")
    assert found / KNOT == pytest.approx(70.9, abs=0.1)


@given(st.floats(150, 300), st.floats(0.8, 1.25), st.floats(1900, 20000))
def test_the_top_speed_is_the_largest_root(mass: float, rho: float, power: float) -> None:
    at = drag(POLAR, mass, rho)
    found = level.top_speed(POLAR, power, mass, rho).one("speed")
    if isinstance(found, Obstacle):
        return
    v = np.linspace(found * (1 + 1e-9), 4 * found, 500)
    assert (at.force(v) * v > power).all()
    root = brentq(
        lambda x: float(at.force(np.asarray(x)) * x) - power, float(at.least_power_speed), 4 * found
    )
    assert found == pytest.approx(root, rel=1e-9)


def test_too_little_power_is_no_level_flight_by_name() -> None:
    found = level.top_speed(POLAR, [900.0, 5760.0], 211.5, RHO)
    assert found.one("speed", 0) is Obstacle.NO_LEVEL_FLIGHT
    assert isinstance(found.one("speed", 1), float)
    assert np.isfinite(found.computed["speed"]).all()
    assert OBSTACLES[Obstacle.NO_LEVEL_FLIGHT] == "no level flight with this power and mass"


def test_power_that_is_enough_only_below_the_stall_is_no_level_flight() -> None:
    blunt = level.Polar(0.1, POLAR.induced, POLAR.area, lift_maximum=0.4)
    at = drag(blunt, 211.5, RHO)
    power = float(at.force(at.least_power_speed) * at.least_power_speed) * 1.01
    assert level.top_speed(blunt, power, 211.5, RHO).one("speed") is Obstacle.NO_LEVEL_FLIGHT


@given(st.floats(2500, 12000), st.floats(1.01, 2))
def test_more_power_is_faster(power: float, by: float) -> None:
    slow, fast = level.top_speed(POLAR, [power, by * power], 201.5, RHO).computed["speed"]
    assert fast > slow


def test_with_one_efficiency_the_thriftiest_speeds_are_those_of_the_polar() -> None:
    found = level.thriftiest(POLAR, Curve((10.0, 45.0), (0.55, 0.55)), 201.5, RHO)
    assert found.endurance_speed == pytest.approx(least_sink(POLAR, 201.5, RHO).one("speed"), abs=0.02)
    assert found.range_speed == pytest.approx(best_glide(POLAR, 201.5, RHO).one("speed"), abs=0.02)


def test_the_sheets_give_the_same_thriftiest_speeds() -> None:
    at = drag(POLAR, 201.5, RHO)
    glide, stall = float(at.best_glide_speed), float(at.stall)
    found = level.thriftiest(POLAR, Curve((10.0, 45.0), (0.55, 0.55)), 201.5, RHO)
    assert level.best_endurance_speed(glide, stall) == pytest.approx(found.endurance_speed, abs=0.02)
    assert level.best_range_speed(glide, stall) == pytest.approx(found.range_speed, abs=0.02)


def test_the_longest_way_of_the_course_is_at_its_printed_speed_of_least_drag() -> None:
    # course-md-6000: 112.36 m/s; by hand 3^-1/4 of it is 85.38 m/s
    course = flight_example("course-md-6000")
    density = float(air(geopotential_height(course["height_m"])).density)
    wing = Polar(course["CD0"], course["K"], course["S_m2"], 2.0)
    at = drag(wing, 51031.0 / G, density)
    glide, stall = float(at.best_glide_speed), float(at.stall)
    assert level.best_range_speed(glide, stall) == pytest.approx(112.36, abs=0.04)
    assert level.best_endurance_speed(glide, stall) == pytest.approx(85.38, abs=0.04)


def test_the_shaft_at_full_throttle_gets_what_controller_and_motor_leave() -> None:
    assert level.full_shaft_power(24000.0, [0.97, 0.91]) == pytest.approx(21184.8)  # by hand


def test_no_thriftiest_speed_is_nearer_to_the_stall_than_its_margin() -> None:
    assert level.best_endurance_speed(16.0, 15.0) == pytest.approx(16.5)
    assert level.best_range_speed(16.0, 15.0) == pytest.approx(16.5)


def test_a_drive_that_likes_speed_moves_the_thriftiest_speeds_up() -> None:
    flat = level.thriftiest(POLAR, Curve((10.0, 45.0), (0.55, 0.55)), 201.5, RHO)
    rising = level.thriftiest(POLAR, Curve((10.0, 45.0), (0.35, 0.75)), 201.5, RHO)
    assert rising.endurance_speed > flat.endurance_speed
    assert rising.range_speed > flat.range_speed


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: level.Drive(1.1, 0.9, 0.6), "efficiency is 1.1"),
        (lambda: level.top_speed(POLAR, 0.0, 200.0, RHO), "power is 0 W"),
        (lambda: level.power_required(POLAR, DRIVE, -1.0, 200.0, density=RHO), "speed is -1 m/s"),
        (lambda: level.thriftiest(POLAR, Curve((20.0, 40.0), (0.5, 0.5)), 201.5, RHO), "must hold 15.67 m/s"),
        (lambda: level.thriftiest(POLAR, Curve((10.0, 40.0), (0.5, 1.5)), 201.5, RHO), "efficiency is 1.5"),
        (lambda: level.shaft_power(200.0, 0.7, G, 0.0), "efficiency is 0"),
        (lambda: level.best_endurance_speed(0.0, 12.0), "best glide is 0 m/s"),
        (lambda: level.full_shaft_power(9000.0, [0.9, 1.2]), "efficiency is 1.2"),
        (lambda: level.best_range_speed(20.0, -1.0), "stalling speed is -1 m/s"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
