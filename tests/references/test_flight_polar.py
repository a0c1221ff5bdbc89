"""Polars, glides and stalls of publications (tests/references/flight.yaml), each at its own tolerance."""

from __future__ import annotations

from math import cos, degrees, pi, radians

import numpy as np
import pytest
from flight_examples import flight_example
from invented_glider import KNOT
from scipy.optimize import brentq

from dossier.compute import performance, polar, published_polar, stall
from dossier.compute.atmosphere import air, geopotential_height
from dossier.compute.energy import STANDARD_GRAVITY as G
from dossier.compute.glide import Polar, drag
from dossier.compute.polar_fit import CommonErrors, GlidePoint, PolarFit, Reference, fit
from dossier.compute.polar_fit_doubts import Doubt, doubts

MPH_FPM = 0.00508
WING = Reference(mass=200.0, area=11.0, aspect_ratio=14.0)
"""Turns the two numbers of a fit into coefficients; which wing it is does not matter here."""


def published(name: str, speed_unit: float, sink_unit: float, step: float = 0.0) -> PolarFit:
    table = flight_example(name)
    speeds, sinks = ("V_kt", "w_kt") if "V_kt" in table.given else ("V_mph", "w_fpm")
    points = [
        GlidePoint(v * speed_unit, w * sink_unit, 0.0, 0.05, step * sink_unit)
        for v, w in zip(table.column(speeds), table.column(sinks), strict=True)
    ]
    return fit(points, WING, CommonErrors(0.0, 0.0, 0.0, 0.0))


def test_the_stalling_speed_of_the_textbook_is_the_printed_one() -> None:
    problem = flight_example("stall-8000N")
    mass = problem["W_N"] / G
    assert stall.stall_speed(mass, problem["S_m2"], problem["CLmax"], g=G) == problem.near("Vs_mps")


def test_the_question_bank_has_the_root_of_mass() -> None:
    question = flight_example("stall-mass-scaling")
    speed = performance.speed_at_mass(question["V1_kt"], question["m2_t"], question["m1_t"])
    assert speed == question.near("V2_kt")
    assert speed / question["V1_kt"] == question.near("ratio")


def test_the_light_single_has_the_printed_best_ratios() -> None:
    plane = flight_example("polar-light-single-ldmax")
    K = polar.induced_drag_factor(plane["e"], polar.aspect_ratio(plane["b_m"], plane["S_m2"]))
    assert polar.best_glide_ratio(plane["CD0"], K) == plane.near("LD_max")
    assert polar.greatest_endurance_factor(plane["CD0"], K) == plane.near("CL15_CD_max")


def test_the_light_single_glides_as_far_as_printed() -> None:
    problem = flight_example("glide-light-single")
    assert polar.glide_distance(problem["height_m"], problem["LD"]) == problem.near("range_m")
    assert degrees(polar.glide_angle(problem["LD"])) == problem.near("angle_deg")


@pytest.mark.parametrize("name", ["glide-speed-3048m", "glide-speed-609m"])
def test_the_light_single_glides_at_the_worked_speed(name: str) -> None:
    problem = flight_example(name)
    v = polar.glide_speed(
        problem["W_N"] / G,
        problem["S_m2"],
        problem["rho"],
        problem["CL"],
        gamma=radians(problem["angle_deg"]),
        g=G,
    )
    assert v == problem.near("V_mps")
    assert v / 0.3048 == problem.near("V_ftps")


def test_the_exercise_has_the_printed_best_ratios() -> None:
    exercise = flight_example("polar-fa1")
    C_D0, K = (float(part) for part in exercise.given["CD"].replace(" CL^2", "").split(" + "))
    assert polar.best_glide_ratio(C_D0, K) == exercise.near("LD_max")
    assert polar.greatest_endurance_factor(C_D0, K) ** 2 == exercise.near("CL3_CD2_max")


def test_the_course_has_the_printed_speed_of_least_drag() -> None:
    course = flight_example("course-md-6000")
    rho = float(air(geopotential_height(course["height_m"])).density)  # the course counts geometric height
    mass = course["T_N"] * polar.best_glide_ratio(course["CD0"], course["K"]) / G
    speed = polar.best_glide_speed(mass, course["S_m2"], rho, C_D0=course["CD0"], K=course["K"], g=G)
    assert speed == course.near("V_mps")
    assert mass * G / 1e3 == course.near("W_kN")


def course_drag() -> tuple[Polar, float, float]:
    course = flight_example("course-two-speeds")
    return (
        Polar(course["CD0"], course["K"], course["S_m2"], 2.0),
        course["W_N"] / G,
        float(air(geopotential_height(course["height_m"])).density),
    )


@pytest.mark.parametrize(("key", "ends"), [("V_low", (60.0, 112.0)), ("V_high", (113.0, 200.0))])
def test_the_course_has_the_printed_speeds_where_drag_equals_thrust(
    key: str, ends: tuple[float, float]
) -> None:
    course = flight_example("course-two-speeds")
    at = drag(*course_drag())
    root = brentq(lambda v: float(at.force(np.asarray(v))) - course["T_N"], *ends)
    assert root == course.near(key)


def test_the_course_has_the_printed_rate_of_climb_between_them() -> None:
    # at the speed of least drag, where the excess thrust is greatest
    course = flight_example("course-two-speeds")
    at = drag(*course_drag())
    v = at.best_glide_speed
    rate = course["T_N"] * v / at.weight - at.sink(v)
    assert float(rate) == course.near("RC_mps")


def test_the_wind_tunnel_gives_the_printed_parabola() -> None:
    table = flight_example("polar-fit-tunnel")
    area = table["span_m"] * table["chord_m"]
    to_coefficient = 1 / (0.5 * 1.225 * table["V_mps"] ** 2 * area)
    below = np.array(table.column("alpha_deg")) < 13
    C_L, C_D = (np.array(table.column(key))[below] * to_coefficient for key in ("lift_N", "drag_N"))
    found = published_polar.parabola(C_L, C_D)
    assert found.zero_lift_drag == table.near("CD0")
    assert found.induced == table.near("K")
    assert found.induced * pi * table["span_m"] / table["chord_m"] == table.near("k")


def test_three_points_give_the_printed_quadratic() -> None:
    post = flight_example("quad-polar-3pt-a")
    found = published_polar.quadratic(post.column("V_kt"), post.column("w_kt"))
    assert [found.a, found.b, found.c] == [post.near(key) for key in "abc"]


@pytest.mark.parametrize("speed", [65, 80])
def test_the_quadratic_sinks_as_printed(speed: int) -> None:
    post = flight_example("quad-polar-3pt-a")
    found = published_polar.quadratic(post.column("V_kt"), post.column("w_kt"))
    assert found.sink(speed) == post.near(f"w{speed}")


def test_the_quadratic_continued_to_50_kt_sinks_as_printed() -> None:
    # 50 kt lies a knot below the points, where the tool itself gives no answer
    post = flight_example("quad-polar-3pt-a")
    found = published_polar.quadratic(post.column("V_kt"), post.column("w_kt"))
    assert found.a * 50**2 + found.b * 50 + found.c == post.near("w50")


def test_the_published_glides_have_the_printed_best_one() -> None:
    table = flight_example("published-polar-1")
    ratios = {v: v / w for v, w in zip(table.column("V_kt"), table.column("w_kt"), strict=True)}
    best = max(ratios, key=lambda v: ratios[v])
    assert best == table.near("best_of_four_kt")
    assert ratios[best] == table.near("LD_at_42")


def test_the_published_glides_fit_the_worked_parabola() -> None:
    table = flight_example("published-polar-1")
    found = published("published-polar-1", KNOT, KNOT)
    assert found.best_glide_speed / KNOT == table.near("fit_V_bg_kt")
    assert found.best_glide_ratio == table.near("fit_LD")


def test_the_published_glides_fit_the_worked_quadratic() -> None:
    table = flight_example("published-polar-1")
    found = published_polar.quadratic(table.column("V_kt"), table.column("w_kt"))
    assert found.best_glide_speed == table.near("quad_V_bg_kt")
    assert found.best_glide_ratio == table.near("quad_LD")


def test_glides_published_to_a_tenth_of_a_knot_are_called_rounded() -> None:
    assert Doubt.ROUNDED in doubts(published("published-polar-1", KNOT, KNOT, step=0.1))


def test_the_older_glides_fit_the_worked_quadratic() -> None:
    table = flight_example("published-polar-2")
    speeds = np.array(table.column("V_mph")) / table["mph_per_mps"]
    found = published_polar.quadratic(speeds, np.array(table.column("w_fpm")) * MPH_FPM)
    assert [found.a, found.b, found.c] == [table.near(key) for key in "abc"]


def test_the_older_glides_fit_the_worked_parabola() -> None:
    table = flight_example("published-polar-2")
    found = published("published-polar-2", 1 / table["mph_per_mps"], MPH_FPM)
    half = 1.225000018124288 * WING.area / 2 / (WING.mass * G)
    assert found.zero_lift_drag * half == table.near("p3")
    assert found.induced / half == table.near("i")


def test_the_older_glides_do_not_reach_the_speed_of_the_best_glide() -> None:
    found = published("published-polar-2", 1 / 2.25, MPH_FPM)
    assert found.best_glide_speed * 2.25 == pytest.approx(28.6, abs=0.05)  # the note of the example
    assert Doubt.BEST_GLIDE_OUTSIDE in doubts(found)


def test_the_universal_polar_has_the_worked_ratios() -> None:
    law = flight_example("universal-polar")
    at = drag(Polar(0.01, 1 / (4 * 0.01 * law["LD_max"] ** 2), 10.0, 3.0), 300.0, 1.225)
    v = at.best_glide_speed
    far = law["X"] * v
    assert float(far / at.sink(far)) == law.near("LD_at_2Vbg")
    assert float(at.sink(at.least_power_speed) / at.sink(v)) == law.near("w_min_over_w_bg")
    assert float(at.least_power_speed / v) == law.near("V_ms_over_V_bg")


def test_a_glide_with_the_cosine_differs_by_what_the_angle_says() -> None:
    # the small angle costs 0.22 % of speed at 10.6 to 1 (worked apart), and the cosine of that angle says so
    flat = polar.glide_speed(200.0, 11.0, 1.225, 0.7, gamma=0.0, g=G)
    gamma = polar.glide_angle(10.6)
    steep = polar.glide_speed(200.0, 11.0, 1.225, 0.7, gamma=gamma, g=G)
    assert steep / flat == pytest.approx(cos(gamma) ** 0.5)
    assert 1 - steep / flat == pytest.approx(0.0022, abs=5e-5)
