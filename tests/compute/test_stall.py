"""Stall: round trips, borders, laws."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_glider import AREA, KNOT, LIFT, POLAR, RHO

from dossier.compute import stall
from dossier.compute.energy import STANDARD_GRAVITY as G
from dossier.compute.glide import drag
from dossier.figures import OutsideRange

MASSES, AREAS, COEFFICIENTS = st.floats(100, 600), st.floats(5, 30), st.floats(0.8, 2.8)


@given(MASSES, AREAS, COEFFICIENTS)
def test_the_lift_coefficient_at_the_stall_is_the_one_it_was_made_of(m: float, S: float, C_L: float) -> None:
    v = stall.stall_speed(m, S, C_L, g=G)
    assert stall.lift_coefficient(m, S, v, g=G) == pytest.approx(C_L)


@given(MASSES, AREAS, COEFFICIENTS)
def test_the_area_for_a_stalling_speed_is_the_one_it_was_made_of(m: float, S: float, C_L: float) -> None:
    v = stall.stall_speed(m, S, C_L, g=G)
    assert stall.required_area(m, v, C_L, g=G) == pytest.approx(S)
    assert stall.greatest_wing_loading(v, C_L, g=G) == pytest.approx(m / S)


def test_24_knots_allow_13_5_kg_for_a_square_metre_at_a_coefficient_of_1_42() -> None:
    # and 17.1 at 1.8 (worked out apart from this code)
    assert stall.greatest_wing_loading(24 * KNOT, 1.42, g=G) == pytest.approx(13.5, abs=0.05)
    assert stall.greatest_wing_loading(24 * KNOT, 1.8, g=G) == pytest.approx(17.1, abs=0.05)


@given(MASSES, st.floats(1, 6))
def test_the_stall_at_a_load_factor_is_the_manoeuvring_speed(m: float, n: float) -> None:
    level = stall.stall_speed(m, AREA, LIFT, g=G)
    assert stall.stall_speed(m, AREA, LIFT, g=G, n=n) == pytest.approx(stall.manoeuvring_speed(level, n))


def test_four_g_doubles_the_stalling_speed() -> None:
    assert stall.manoeuvring_speed(12.0, 4.0) == 24.0


@given(MASSES, st.floats(0.5, 2))
def test_the_stalling_speed_goes_with_the_root_of_mass(m: float, by: float) -> None:
    once = stall.stall_speed(m, AREA, LIFT, g=G)
    assert stall.stall_speed(by * m, AREA, LIFT, g=G) == pytest.approx(sqrt(by) * once)


def test_many_stalls_at_once_are_the_single_ones_and_those_of_the_polar() -> None:
    masses = np.linspace(150, 300, 7)
    found = stall.stall_speeds(masses, AREA, LIFT)
    assert found == pytest.approx([stall.stall_speed(m, AREA, LIFT, g=G) for m in masses])
    assert found == pytest.approx(drag(POLAR, masses, RHO).stall, rel=1e-7)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: stall.stall_speed(0.0, 11.0, 1.4, g=G), "mass is 0 kg"),
        (lambda: stall.stall_speed(200.0, 0.0, 1.4, g=G), "wing area is 0 m²"),
        (lambda: stall.stall_speed(200.0, 11.0, 1.4, g=G, n=0.0), "load factor is 0"),
        (lambda: stall.lift_coefficient(200.0, 11.0, 0.0, g=G), "speed is 0 m/s"),
        (lambda: stall.required_area(200.0, 12.0, 0.0, g=G), "maximum lift coefficient is 0"),
        (lambda: stall.greatest_wing_loading(0.0, 1.4, g=G), "stalling speed is 0 m/s"),
        (lambda: stall.manoeuvring_speed(12.0, -1.0), "load factor is -1"),
        (lambda: stall.stall_speeds([200.0, 0.0], 11.0, 1.4), "mass is 0 kg"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
