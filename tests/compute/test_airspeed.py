"""Calibrated and true airspeed: round trips, a library, borders."""

from __future__ import annotations

import pytest
from ambiance import Atmosphere
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import airspeed, atmosphere
from dossier.figures import OutsideRange

SPEEDS = st.floats(1.0, 120.0)
PRESSURES, TEMPERATURES = st.floats(50000, 110000), st.floats(240, 320)


@given(SPEEDS, PRESSURES, TEMPERATURES)
def test_true_and_back_is_the_calibrated_airspeed_again(speed: float, p: float, T: float) -> None:
    there = airspeed.true_airspeed(speed, p, T)
    if there <= airspeed.FASTEST:
        assert airspeed.calibrated_from_true(there, p, T) == pytest.approx(speed, rel=1e-12)


@given(SPEEDS)
def test_impact_pressure_and_back_is_the_airspeed_again(speed: float) -> None:
    assert airspeed.calibrated_airspeed(airspeed.impact_pressure(speed)) == pytest.approx(speed, rel=1e-12)


@given(SPEEDS)
def test_at_sea_level_in_standard_air_true_is_calibrated(speed: float) -> None:
    assert airspeed.true_airspeed(speed, 101325.0, 288.15) == pytest.approx(speed, rel=1e-12)


@given(st.floats(0.5, 5.0))
def test_slow_flight_has_the_dynamic_pressure_of_the_textbook(speed: float) -> None:
    # half rho v squared
    dynamic = atmosphere.SEA_LEVEL_DENSITY * speed**2 / 2
    assert airspeed.impact_pressure(speed) == pytest.approx(dynamic, rel=1e-4)


@given(st.floats(5, 60), st.floats(0, 3000))
def test_leaving_out_compressibility_costs_at_most_two_thousandths(speed: float, height: float) -> None:
    around = atmosphere.air(height)
    exact = airspeed.true_airspeed(speed, float(around.pressure), float(around.temperature))
    simple = airspeed.true_from_density(speed, float(around.density))
    assert -1e-12 <= simple / exact - 1 < 0.002
    if speed <= 50 and height <= 2000:
        assert simple / exact - 1 < 0.001


def test_many_airspeeds_at_once_are_the_single_ones() -> None:
    around = atmosphere.air([0.0, 1500.0, 4000.0], 12.0)
    found = airspeed.true_airspeeds([20.0, 30.0, 55.0], around)
    wanted = [
        airspeed.true_airspeed(v, float(p), float(T))
        for v, p, T in zip([20.0, 30.0, 55.0], around.pressure, around.temperature, strict=True)
    ]
    assert found == pytest.approx(wanted, rel=1e-14)


@pytest.mark.parametrize("height", [0.0, 2500.0, 5500.0])
def test_ambiance_has_the_same_sound_and_viscosity(height: float) -> None:
    theirs = Atmosphere(height)
    T = float(theirs.temperature[0])
    assert airspeed.speed_of_sound(T) == pytest.approx(float(theirs.speed_of_sound[0]), rel=1e-12)
    assert float(airspeed.viscosity(T)) == pytest.approx(float(theirs.dynamic_viscosity[0]), rel=1e-12)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: airspeed.impact_pressure(151.0), "airspeed is 151 m/s, and must be from 0 to 150 m/s"),
        (lambda: airspeed.calibrated_airspeed(-1.0), "impact pressure is -1 Pa, and must not be negative"),
        (lambda: airspeed.true_airspeed(30.0, 0.0, 288.0), "pressure is 0 Pa"),
        (lambda: airspeed.calibrated_from_true(30.0, 90000.0, -1.0), "temperature is -1 K"),
        (lambda: airspeed.viscosity(100.0), "temperature is 100 K"),
        (lambda: airspeed.true_airspeeds(-1.0, atmosphere.air(0.0)), "airspeed is -1 m/s"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
