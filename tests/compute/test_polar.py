"""Sheets of the drag polar: laws, borders, and the same numbers as the arrays."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_glider import AREA, LIFT, POLAR, RHO, ZERO_LIFT

from dossier.compute import polar, stall
from dossier.compute.energy import STANDARD_GRAVITY as G
from dossier.compute.glide import best_glide, glides, least_sink
from dossier.figures import OutsideRange

K = POLAR.induced
MASSES, DENSITIES = st.floats(120, 400), st.floats(0.7, 1.3)


def speed_of_best_glide(m: float, rho: float = RHO) -> float:
    return polar.best_glide_speed(m, AREA, rho, C_D0=ZERO_LIFT, K=K, g=G)


def sink(v: float, m: float, rho: float = RHO) -> float:
    return polar.sink_rate(v, m, AREA, rho, C_D0=ZERO_LIFT, K=K, g=G)


def test_no_speed_on_a_fine_grid_glides_farther_than_the_best_one() -> None:
    grid = np.linspace(10.0, 45.0, 35001)
    ratios = np.array([v / sink(float(v), 201.5) for v in grid[::10]])
    best = speed_of_best_glide(201.5)
    assert ratios.max() <= best / sink(best, 201.5) * (1 + 1e-12)
    assert grid[::10][ratios.argmax()] == pytest.approx(best, abs=0.01)


def test_no_speed_on_a_fine_grid_sinks_less_than_the_least_sink() -> None:
    grid = np.linspace(10.0, 45.0, 3501)
    sinks = np.array([sink(float(v), 201.5) for v in grid])
    least = polar.minimum_sink_speed(speed_of_best_glide(201.5), v_S=5.0)
    assert sinks.min() >= sink(least, 201.5) * (1 - 1e-12)
    assert grid[sinks.argmin()] == pytest.approx(least, abs=0.01)


def test_the_best_ratio_is_that_at_the_best_speed() -> None:
    v = speed_of_best_glide(201.5)
    assert v / sink(v, 201.5) == pytest.approx(polar.best_glide_ratio(ZERO_LIFT, K))


def test_the_endurance_factor_gives_the_least_sink() -> None:
    # w = sqrt(2 W / (rho S)) / (C_L^1.5 / C_D)
    factor = polar.greatest_endurance_factor(ZERO_LIFT, K)
    v = polar.minimum_sink_speed(speed_of_best_glide(201.5), v_S=1.0)
    assert sqrt(2 * 201.5 * G / (RHO * AREA)) / factor == pytest.approx(sink(v, 201.5))


@given(MASSES, DENSITIES, st.floats(0.5, 2))
def test_speeds_and_sinks_go_with_the_root_of_mass(m: float, rho: float, by: float) -> None:
    light, heavy = speed_of_best_glide(m, rho), speed_of_best_glide(by * m, rho)
    assert heavy == pytest.approx(light * sqrt(by))
    assert sink(heavy, by * m, rho) == pytest.approx(sink(light, m, rho) * sqrt(by))


@given(MASSES, DENSITIES, st.floats(0.5, 1.5))
def test_true_speeds_go_with_the_inverse_root_of_density(m: float, rho: float, by: float) -> None:
    assert speed_of_best_glide(m, by * rho) == pytest.approx(speed_of_best_glide(m, rho) / sqrt(by))


def test_double_mass_gives_the_root_of_two() -> None:
    assert speed_of_best_glide(400.0) / speed_of_best_glide(200.0) == pytest.approx(1.41421, abs=5e-6)


@given(MASSES, DENSITIES)
def test_the_sheets_and_the_arrays_have_the_same_best_glide(m: float, rho: float) -> None:
    found = best_glide(POLAR, m, rho)
    assert found.one("speed") == pytest.approx(speed_of_best_glide(m, rho))
    assert found.one("ratio") == pytest.approx(polar.best_glide_ratio(ZERO_LIFT, K))


@given(MASSES, st.floats(17, 45))
def test_the_sheets_and_the_arrays_have_the_same_sink(m: float, v: float) -> None:
    found = glides(POLAR, v, m, RHO)
    if found.answered:
        assert found.one("sink") == pytest.approx(sink(v, m))


@given(MASSES)
def test_the_sheets_and_the_arrays_keep_the_same_margin_above_the_stall(m: float) -> None:
    v_S = stall.stall_speed(m, AREA, LIFT, g=G)
    speed = polar.minimum_sink_speed(speed_of_best_glide(m), v_S)
    assert least_sink(POLAR, m, RHO).one("speed") == pytest.approx(speed)


def test_a_glide_of_10_to_1_falls_5_7_degrees() -> None:
    # arctan 0.1 by hand
    assert polar.glide_angle(10.0) * 57.29578 == pytest.approx(5.7106, abs=1e-4)


def test_a_kilometre_of_height_at_20_to_1_leads_20_km() -> None:
    assert polar.glide_distance(1000.0, 20.0) == 20000.0


def test_an_ideal_wing_of_aspect_ratio_10_has_the_factor_of_the_textbook() -> None:
    assert polar.induced_drag_factor(1.0, polar.aspect_ratio(10.0, 10.0)) == pytest.approx(
        0.0318310, abs=5e-8
    )


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: polar.aspect_ratio(0.0, 10.0), "span is 0 m"),
        (
            lambda: polar.induced_drag_factor(1.01, 10.0),
            "Oswald factor is 1.01, and must be above 0 and at most 1",
        ),
        (lambda: polar.best_glide_ratio(0.0, 0.03), "zero-lift drag coefficient is 0"),
        (lambda: polar.greatest_endurance_factor(0.02, 0.0), "induced drag factor is 0"),
        (lambda: speed_of_best_glide(0.0), "mass is 0 kg"),
        (lambda: polar.minimum_sink_speed(20.0, 0.0), "stalling speed is 0 m/s"),
        (lambda: sink(0.0, 200.0), "speed is 0 m/s"),
        (lambda: sink(20.0, 200.0, 0.0), "density is 0 kg/m³"),
        (lambda: polar.glide_speed(200.0, 11.0, 1.2, 0.5, gamma=1.2, g=G), "glide angle is 68.7549°"),
        (lambda: polar.glide_angle(0.0), "glide ratio is 0"),
        (lambda: polar.glide_distance(-1.0, 20.0), "height is -1 m"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
