"""Speeds and loadings of the whole aircraft (tests/references/flight*.yaml, rules of wing loading)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, example, number

from dossier.compute import performance
from dossier.figures import OutsideRange


def test_the_square_root_of_mass_gives_the_printed_speed() -> None:
    table = example("flight", "stall-mass-scaling")
    speed = performance.speed_at_mass(*(number(table.given[key]) for key in ("V1_kt", "m2_t", "m1_t")))
    assert speed == as_printed(table.expect["V2_kt"])


def test_the_ratio_of_speeds_is_the_printed_one() -> None:
    table = example("flight", "stall-mass-scaling")
    masses = [number(table.given[key]) for key in ("m2_t", "m1_t")]
    assert performance.speed_at_mass(1.0, *masses) == as_printed(table.expect["ratio"])


@pytest.mark.parametrize("name", ["aircraftX-A110", "aircraftX-B110"])
def test_an_invented_aircraft_stalls_with_the_root_of_its_mass(name: str) -> None:
    table = example("flight_computed", name)
    assert performance.speed_at_mass(26.2756784, number(table.given["m_kg"]), 181.5) == as_printed(
        table.expect["Vs_kt"]
    )


def test_wing_loading_by_hand() -> None:
    assert performance.wing_loading(210.0, 14.0) == pytest.approx(15.0)


def test_a_stated_value_passes_unchanged() -> None:
    assert performance.as_stated(12.3) == 12.3


@pytest.mark.parametrize("masses", [(0.0, 200.0), (200.0, 0.0)])
def test_a_speed_needs_positive_masses(masses: tuple[float, float]) -> None:
    with pytest.raises(OutsideRange, match="mass is 0 kg, and must be positive"):
        performance.speed_at_mass(12.0, *masses)


def test_a_wing_needs_an_area() -> None:
    with pytest.raises(OutsideRange, match="wing area is 0 m², and must be positive"):
        performance.wing_loading(200.0, 0.0)


@given(st.floats(5, 50), st.floats(100, 600), st.floats(100, 600))
def test_going_to_a_mass_and_back_gives_the_speed_again(speed: float, mass: float, other: float) -> None:
    there = performance.speed_at_mass(speed, other, mass)
    assert performance.speed_at_mass(there, mass, other) == pytest.approx(speed)


@given(st.floats(100, 600), st.floats(5, 30), st.floats(0.5, 2))
def test_mass_and_area_scaled_alike_leave_the_wing_loading(mass: float, area: float, by: float) -> None:
    once, scaled = performance.wing_loading(mass, area), performance.wing_loading(by * mass, by * area)
    assert scaled == pytest.approx(once)
