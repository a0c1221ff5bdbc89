"""The quadratic and the parabola through numbers of others: exact cases and borders."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.published_polar import parabola, quadratic
from dossier.figures import OutsideRange

SPEEDS = np.array([18.0, 22.0, 28.0, 36.0])


@given(st.floats(5e-4, 5e-3), st.floats(-0.2, -0.05), st.floats(1.5, 4))
def test_points_of_a_quadratic_give_it_back(a: float, b: float, c: float) -> None:
    found = quadratic(SPEEDS, a * SPEEDS**2 + b * SPEEDS + c)
    assert (found.a, found.b, found.c) == pytest.approx((a, b, c), rel=1e-6)


def test_the_best_glide_of_a_quadratic_is_that_of_a_fine_grid() -> None:
    found = quadratic(SPEEDS, 0.002 * SPEEDS**2 - 0.07 * SPEEDS + 1.4)
    grid = np.linspace(18.0, 36.0, 18001)
    ratios = grid / (found.a * grid**2 + found.b * grid + found.c)
    assert grid[ratios.argmax()] == pytest.approx(found.best_glide_speed, abs=0.01)
    assert ratios.max() == pytest.approx(found.best_glide_ratio)


def test_the_lowest_point_of_a_quadratic_is_the_least_sink() -> None:
    assert quadratic(SPEEDS, 0.002 * (SPEEDS - 21.0) ** 2 + 0.7).least_sink_speed == pytest.approx(21.0)


@given(st.floats(0.005, 0.05), st.floats(0.01, 0.1))
def test_points_of_a_parabola_give_it_back(zero_lift: float, K: float) -> None:
    C_L = np.array([0.1, 0.4, 0.9])
    found = parabola(C_L, zero_lift + K * C_L**2)
    assert (found.zero_lift_drag, found.induced) == pytest.approx((zero_lift, K))


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (
            lambda: quadratic([20.0, 20.0, 30.0], [1.0, 1.1, 2.0]),
            "2 different speeds, and a quadratic needs three",
        ),
        (
            lambda: quadratic(SPEEDS, SPEEDS**2).sink(40.0),
            "speed 40 is outside the points, which go from 18 to 36",
        ),
        (lambda: quadratic(SPEEDS, -(SPEEDS**2)).least_sink_speed, "bend of the polar is -1"),
        (lambda: parabola([-0.5, 0.5], [0.02, 0.03]), "same square"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
