"""Climbs and propellers of publications (tests/references/flight.yaml), each at its own tolerance."""

from __future__ import annotations

from math import degrees, pi

import pytest
from flight_examples import flight_example
from invented_glider import FOOT, HORSEPOWER, KNOT, POUND
from scipy.optimize import brentq

from dossier.compute import climb, polar, propeller
from dossier.compute.energy import STANDARD_GRAVITY as G
from dossier.compute.energy import climb_rate
from dossier.compute.glide import Polar, drag


def test_the_light_single_climbs_as_worked() -> None:
    plane = flight_example("climb-light-single")
    K = polar.induced_drag_factor(plane["e"], polar.aspect_ratio(plane["b_m"], plane["S_m2"]))
    wing = Polar(plane["CD0"], K, plane["S_m2"], lift_maximum=3.0)
    found = climb.climb_rates(wing, plane["eta_p"] * plane["P_W"], plane["W_N"] / G, 1.225)
    assert found.one("rate") == plane.near("RC_mps")


def test_the_constant_of_least_sink_is_the_worked_one() -> None:
    plane = flight_example("climb-light-single")
    at = drag(Polar(plane["CD0"], 0.05, plane["S_m2"], 3.0), plane["W_N"] / G, 1.225)
    assert float(at.sink(at.least_power_speed) / at.sink(at.best_glide_speed)) == plane.near("constant")


def test_the_class_exercise_has_the_printed_climb_and_angle() -> None:
    exercise = flight_example("climb-excess-power")
    mass = exercise["weight_lb"] * POUND
    rate = climb_rate(exercise["excess_hp"] * HORSEPOWER, 1.0, 0.0, m=mass, g=G)
    assert rate == exercise.near("RC_mps")
    assert degrees(climb.climb_angle(rate, exercise["V_mps"])) == exercise.near("angle_deg")


def test_the_handout_has_the_worked_time_to_climb() -> None:
    handout = flight_example("climb-time-ceiling")
    time = climb.climb_time_to_ceiling(handout["h_m"], handout["ceiling_m"], handout["RC0_m_per_min"] / 60)
    assert time / 60 == handout.near("t_min")


def test_the_gradient_for_a_mile_is_the_printed_rate() -> None:
    entry = flight_example("climb-gradient")
    rate = float(entry.expect["RC_ftpmin"]) * FOOT / 60
    per_mile = climb.climb_gradient(rate, entry["groundspeed_kt"] * KNOT) * 1852 / FOOT
    assert per_mile == pytest.approx(entry["gradient_ft_per_nm"], rel=1e-9)


def test_the_handbook_s_gradient_in_percent_is_the_printed_height() -> None:
    note = flight_example("climb-gradient-pct")
    height = climb.climb_gradient(note["gradient_percent"] / 100, 1.0) * note["distance_ft"]
    assert height == note.near("height_ft")


def test_the_rotor_climbs_as_the_textbook_says() -> None:
    rotor = flight_example("disc-vertical-climb")
    power, diameter = rotor["fraction"] * rotor["P_W"], rotor["D_m"]
    thrust = rotor["disc_loading"] * pi * diameter**2 / 4

    def missing(v: float) -> float:
        return float(propeller.disc(power, diameter, v, rotor["rho"]).computed["thrust"]) - thrust

    assert brentq(missing, 0.1, 20.0) * 60 == rotor.near("V_climb_m_per_min")


def test_the_static_thrust_is_the_worked_one() -> None:
    page = flight_example("static-thrust")
    ideal, merit = page.column("fom")
    assert propeller.static_thrust(page["P_W"], page["D_m"], page["rho"], ideal) == page.near("T_ideal_N")
    assert propeller.static_thrust(page["P_W"], page["D_m"], page["rho"], merit) == page.near("T_fom07_N")
