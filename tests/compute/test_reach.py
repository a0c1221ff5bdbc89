"""Reach of a glide in wind and moving air: brute force, still air, named results."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_glider import POLAR, RHO

from dossier.compute.flight_outcome import CLAMPS, OBSTACLES, Clamp, Obstacle
from dossier.compute.glide import Polar, best_glide, drag
from dossier.compute.reach import best_to_fly, reach, wind
from dossier.figures import OutsideRange

FAST = 60.0
M = 201.5


@pytest.mark.parametrize(("head", "ratio"), [(0.0, 24.1), (5.0, 18.0), (8.0, 14.7)])
def test_the_best_reach_against_wind_is_the_worked_one(head: float, ratio: float) -> None:
    # invented aircraft at 201.5 kg, worked out apart from this code
    assert best_to_fly(POLAR, M, RHO, wind(head), fastest=FAST).one("ratio") == pytest.approx(ratio, abs=0.05)


@pytest.mark.parametrize(("head", "ratio"), [(5.0, 17.8), (8.0, 14.0)])
def test_the_reach_at_the_speed_for_still_air_is_the_worked_one(head: float, ratio: float) -> None:
    v = best_glide(POLAR, M, RHO).one("speed")
    assert reach(POLAR, v, M, RHO, moving=wind(head)).one("ratio") == pytest.approx(ratio, abs=0.05)


def test_without_wind_the_best_speed_is_that_of_the_best_glide() -> None:
    found = best_to_fly(POLAR, M, RHO, wind(), fastest=FAST)
    still = best_glide(POLAR, M, RHO)
    assert found.one("speed") == pytest.approx(still.one("speed"), rel=1e-9)
    assert found.one("ratio") == pytest.approx(still.one("ratio"), rel=1e-9)


@given(st.floats(-15, 20), st.floats(-0.4, 3), st.floats(150, 260), st.floats(0.8, 1.25))
def test_no_speed_on_a_grid_reaches_farther(head: float, down: float, mass: float, rho: float) -> None:
    found = best_to_fly(POLAR, mass, rho, wind(head, down), fastest=FAST)
    speed = found.one("speed")
    assert isinstance(speed, float)
    at = drag(POLAR, mass, rho)
    v = np.linspace(max(float(at.slowest), head + 1e-6), FAST, 4001)
    ratios = (v - head) / (at.sink(v) + down)
    assert found.one("ratio") >= ratios.max() * (1 - 1e-9)
    if Clamp(int(found.clamp)) is Clamp.NONE:
        assert v[ratios.argmax()] == pytest.approx(speed, abs=0.05)


def test_a_tailwind_is_flown_slower_and_not_nearer_to_the_stall_than_the_margin() -> None:
    found = best_to_fly(POLAR, M, RHO, wind(-15.0), fastest=FAST)
    assert found.one("speed") < best_glide(POLAR, M, RHO).one("speed")
    assert found.one("speed") >= float(drag(POLAR, M, RHO).slowest)


def test_an_optimum_below_the_margin_is_raised_and_says_so() -> None:
    blunt = Polar(0.05, POLAR.induced, POLAR.area, lift_maximum=0.9)
    found = best_to_fly(blunt, M, RHO, wind(-15.0), fastest=FAST)
    assert Clamp(int(found.clamp)) is Clamp.STALL_MARGIN
    assert found.one("speed") == pytest.approx(float(drag(blunt, M, RHO).slowest))


def test_an_optimum_above_the_fastest_speed_is_lowered_and_says_so() -> None:
    found = best_to_fly(POLAR, M, RHO, wind(12.0, 3.0), fastest=22.0)
    assert found.one("speed") == 22.0
    assert CLAMPS[Clamp(int(found.clamp))] == "held to the fastest speed allowed"


def test_a_headwind_faster_than_the_aircraft_may_fly_is_no_advance_by_name() -> None:
    found = best_to_fly(POLAR, M, RHO, wind(30.0), fastest=28.0)
    assert found.one("ratio") is Obstacle.NO_ADVANCE
    assert OBSTACLES[Obstacle.NO_ADVANCE] == "no way against this wind"


def test_air_that_rises_faster_than_the_aircraft_sinks_is_no_descent_by_name() -> None:
    assert best_to_fly(POLAR, M, RHO, wind(0.0, -1.0), fastest=FAST).one("ratio") is Obstacle.NO_DESCENT
    assert reach(POLAR, 20.0, M, RHO, moving=wind(0.0, -2.0)).one("ratio") is Obstacle.NO_DESCENT


def test_a_fastest_speed_below_the_margin_leaves_nothing_to_fly() -> None:
    assert best_to_fly(POLAR, M, RHO, wind(), fastest=14.0).one("ratio") is Obstacle.STALLED


@pytest.mark.parametrize(
    ("speed", "head", "name"), [(10.0, 0.0, Obstacle.STALLED), (18.0, 18.0, Obstacle.NO_ADVANCE)]
)
def test_a_flown_speed_without_reach_says_why(speed: float, head: float, name: Obstacle) -> None:
    assert reach(POLAR, speed, M, RHO, moving=wind(head)).one("ratio") is name


@given(st.floats(0, 12))
def test_sinking_air_is_flown_faster(head: float) -> None:
    still, sinking = best_to_fly(POLAR, M, RHO, wind(head, [0.0, 1.5]), fastest=FAST).computed["speed"]
    assert sinking > still


def test_no_answer_holds_anything_but_finite_numbers() -> None:
    found = best_to_fly(
        POLAR, M, RHO, wind(np.linspace(-20, 60, 81)[:, None], [-3.0, 0.0, 2.0]), fastest=FAST
    )
    assert all(np.isfinite(column).all() for column in found.computed.values())


def test_a_fastest_speed_must_be_one() -> None:
    with pytest.raises(OutsideRange, match="fastest speed is 0 m/s"):
        best_to_fly(POLAR, M, RHO, wind(), fastest=0.0)
    with pytest.raises(OutsideRange, match="not a finite number"):
        wind(float("inf"))
    with pytest.raises(OutsideRange, match="speed is 0 m/s"):
        reach(POLAR, 0.0, M, RHO, moving=wind())
