"""Climb: the integral against steps and a closed form, ceilings by name, laws."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_glider import POLAR, RHO
from scipy.integrate import quad

from dossier.compute import climb
from dossier.compute.atmosphere import air
from dossier.compute.energy import STANDARD_GRAVITY as G
from dossier.compute.flight_outcome import OBSTACLES, Clamp, Obstacle
from dossier.compute.glide import Polar, glides, least_sink
from dossier.figures import OutsideRange

CHAIN = 0.56
LATE = Polar(POLAR.zero_lift_drag, POLAR.induced, POLAR.area, lift_maximum=3.0)


def rate_at(height: float, power: float, mass: float) -> float:
    return climb.climb_rates(POLAR, CHAIN * power, mass, air(height).density).one("rate")


def test_no_climb_is_better_at_another_speed_kept_from_the_stall() -> None:
    found = climb.climb_rates(POLAR, 5760.0, 201.5, RHO)
    slowest = found.one("speed")
    others = glides(POLAR, np.linspace(slowest, 40.0, 2000), 201.5, RHO).column("sink", otherwise=99.0)
    assert (5760.0 / (201.5 * G) - others <= found.one("rate") + 1e-12).all()


def test_a_climb_near_the_stall_says_that_its_speed_was_raised() -> None:
    assert Clamp(int(climb.climb_rates(POLAR, 5760.0, 201.5, RHO).clamp)) is Clamp.STALL_MARGIN


def test_the_invented_aircraft_with_three_pilots_climbs_as_worked() -> None:
    # 2.58, 1.73, 1.63 m/s on the parabola alone (worked out apart from this code); the clamp costs up to 0.01
    found = climb.climb_rates(POLAR, 5760.0, [181.5, 236.5, 245.0], RHO).computed["rate"]
    assert found == pytest.approx([2.58, 1.73, 1.63], abs=0.015)


def test_too_little_power_is_no_climb_by_name() -> None:
    found = climb.climb_rates(POLAR, [1000.0, 5760.0], 201.5, RHO)
    assert found.one("rate", 0) is Obstacle.NO_CLIMB
    assert found.one("rate", 1) == pytest.approx(
        5760 / (201.5 * G) - least_sink(POLAR, 201.5, RHO).one("sink")
    )
    assert OBSTACLES[Obstacle.NO_CLIMB] == "no climb to this height with this power and mass"


def test_the_integral_is_the_one_of_an_adaptive_quadrature() -> None:
    found = climb.climb_to(POLAR, 9000.0, CHAIN, 211.5, climb.heights(200.0, 1800.0))
    wanted, _ = quad(lambda h: 1 / rate_at(h, 9000.0, 211.5), 200.0, 1800.0, epsabs=1e-10, epsrel=1e-10)
    assert found.one("time") == pytest.approx(wanted, rel=1e-9)
    assert found.one("energy") == pytest.approx(9000.0 * wanted, rel=1e-9)


def test_the_invented_aircraft_climbs_600_m_in_the_worked_time_and_energy() -> None:
    # 211.5 kg, 9 kW at the shaft, propeller 0.64, pack to shaft 0.83808: 292 s, 870 Wh, 346 Wh of it lifting
    # (worked out apart, on the parabola alone: a wing that stalls late is not clamped)
    found = climb.climb_to(LATE, 9000 / 0.83808, 0.83808 * 0.64, 211.5, climb.heights(0.0, 600.0))
    assert found.one("time") == pytest.approx(292, abs=0.5)
    assert found.one("energy") / 3600 == pytest.approx(870, abs=0.5)
    assert pytest.approx(346, abs=0.5) == 211.5 * G * 600 / 3600


def test_a_short_climb_takes_height_over_rate() -> None:
    found = climb.climb_to(POLAR, 9000.0, CHAIN, 201.5, climb.heights(500.0, 500.1))
    assert found.one("time") == pytest.approx(0.1 / rate_at(500.05, 9000.0, 201.5), rel=1e-7)


def test_two_halves_of_a_climb_are_the_whole() -> None:
    way = climb.heights([0.0, 0.0, 700.0], [1500.0, 700.0, 1500.0])
    whole, lower, upper = climb.climb_to(POLAR, 9000.0, CHAIN, 201.5, way).computed["energy"]
    assert whole == pytest.approx(lower + upper, rel=1e-9)


def test_a_climb_beyond_the_ceiling_is_no_climb_by_name() -> None:
    found = climb.climb_to(POLAR, [3300.0, 9000.0], CHAIN, 211.5, climb.heights(0.0, 5000.0))
    assert found.one("time", 0) is Obstacle.NO_CLIMB
    assert isinstance(found.one("time", 1), float)
    assert np.isfinite(found.computed["time"]).all()


def test_a_hot_day_takes_longer() -> None:
    way = climb.heights(300.0, 1300.0, [0.0, 20.0])
    standard, hot = climb.climb_to(POLAR, 9000.0, CHAIN, 211.5, way).computed["time"]
    assert hot > standard * 1.05


@given(st.floats(180, 250), st.floats(1.01, 1.2))
def test_a_heavier_aircraft_needs_more_energy_for_a_height(mass: float, by: float) -> None:
    way = climb.heights(0.0, 800.0)
    light, heavy = climb.climb_to(POLAR, 9000.0, CHAIN, [mass, by * mass], way).computed["energy"]
    assert heavy > light * by


def test_a_table_over_pilots_and_temperatures_has_their_shape() -> None:
    way = climb.heights(0.0, 600.0, np.array([-10.0, 0.0, 20.0]))
    found = climb.climb_to(POLAR, 9000.0, CHAIN, np.array([181.5, 211.5, 236.5, 245.0])[:, None], way)
    assert found.computed["time"].shape == (4, 3)
    assert found.answered.all()


def test_lifting_without_sink_turns_all_of_the_energy_into_height() -> None:
    assert climb.greatest_height(1000.0, 0.5, 10.0, v_c=1.0, w=0.0, g=10.0) == pytest.approx(5.0)


def test_a_climb_as_fast_as_the_sink_wastes_half() -> None:
    assert climb.greatest_height(1000.0, 0.5, 10.0, v_c=1.0, w=1.0, g=10.0) == pytest.approx(2.5)


def test_no_climb_passes_the_greatest_height_of_its_energy() -> None:
    found = climb.climb_to(POLAR, 9000.0, CHAIN, 211.5, climb.heights(0.0, 1000.0))
    sink = least_sink(POLAR, 211.5, RHO).one("sink")
    bound = climb.greatest_height(found.one("energy"), CHAIN, 211.5, v_c=found.one("rate"), w=sink, g=G)
    assert 1000.0 < bound < 1200.0


def test_far_below_the_ceiling_the_rate_is_as_if_constant() -> None:
    assert climb.climb_time_to_ceiling(1.0, 1e6, 2.0) == pytest.approx(0.5, rel=1e-6)


def test_the_angle_of_a_vertical_climb_is_90_degrees() -> None:
    assert climb.climb_angle(5.0, 5.0) == pytest.approx(pi / 2)


def test_1_m_in_40_is_2_5_percent() -> None:
    assert climb.climb_gradient(0.5, 20.0) == 0.025


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: climb.climb_angle(6.0, 5.0), "rate of climb, 6 m/s, is above the speed"),
        (lambda: climb.climb_gradient(1.0, 0.0), "speed over the ground is 0 m/s"),
        (lambda: climb.climb_time_to_ceiling(500.0, 500.0, 2.0), "height to gain is 500 m"),
        (lambda: climb.heights(500.0, 400.0), "ends at 400 m, below its start"),
        (lambda: climb.heights(0.0, 6500.0), "height is 6500 m"),
        (lambda: climb.climb_rates(POLAR, 0.0, 200.0, RHO), "power is 0 W"),
        (lambda: climb.climb_to(POLAR, 9000.0, 1.2, 200.0, climb.heights(0.0, 1.0)), "efficiency is 1.2"),
        (lambda: climb.greatest_height(1.0, 0.5, 10.0, v_c=0.0, w=1.0, g=10.0), "rate of climb is 0 m/s"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()


def test_a_wing_that_stalls_late_climbs_at_the_speed_of_the_parabola() -> None:
    assert Clamp(int(climb.climb_rates(LATE, 5760.0, 201.5, RHO).clamp)) is Clamp.NONE
