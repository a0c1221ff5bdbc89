"""The standard atmosphere against two open libraries, its borders and its laws."""

from __future__ import annotations

import numpy as np
import pytest
from ambiance import Atmosphere
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import atmosphere
from dossier.figures import OutsideRange

HEIGHTS = np.linspace(-990.0, 5990.0, 15)
GEOMETRIC = atmosphere.EARTH_RADIUS * HEIGHTS / (atmosphere.EARTH_RADIUS - HEIGHTS)


@pytest.mark.parametrize(("part", "tolerance"), [(HEIGHTS >= 0, 1e-12), (HEIGHTS < 0, 1e-6)])
def test_ambiance_has_the_same_air(part: np.ndarray, tolerance: float) -> None:
    # ambiance 1.3.1 takes geometric heights; below sea level it starts from a rounded pressure at -5 km
    ours, theirs = atmosphere.air(HEIGHTS[part]), Atmosphere(GEOMETRIC[part])
    assert part.any()
    assert ours.temperature == pytest.approx(theirs.temperature, rel=tolerance)
    assert ours.pressure == pytest.approx(theirs.pressure, rel=tolerance)
    assert ours.density == pytest.approx(theirs.density, rel=tolerance)


@pytest.mark.parametrize("row", range(len(HEIGHTS)))
def test_fluids_has_the_same_air_but_for_its_gas_constant(row: int) -> None:
    # fluids 1.3.1 takes R from 8.31432 / 28.9644, 7e-7 away
    ours, theirs = atmosphere.air(HEIGHTS[row]), ATMOSPHERE_1976(GEOMETRIC[row])
    assert float(ours.temperature) == pytest.approx(theirs.T, rel=1e-6)
    assert float(ours.pressure) == pytest.approx(theirs.P, rel=1e-6)
    assert float(ours.density) == pytest.approx(theirs.rho, rel=1e-6)


@pytest.mark.parametrize("height", HEIGHTS)
def test_the_sheets_and_the_arrays_have_the_same_air(height: float) -> None:
    around = atmosphere.air(height)
    p = atmosphere.standard_pressure(height)
    T = atmosphere.standard_temperature(height)
    assert (float(around.temperature), float(around.pressure)) == pytest.approx((T, p), rel=1e-15)
    assert float(around.density) == pytest.approx(atmosphere.air_density(p, T), rel=1e-15)


def test_the_exponent_of_pressure_is_the_printed_one() -> None:
    assert pytest.approx(5.25588, abs=5e-6) == atmosphere.EXPONENT


@given(st.floats(-990, 5990))
def test_pressure_altitude_leads_back_to_the_height(height: float) -> None:
    assert atmosphere.pressure_altitude(atmosphere.standard_pressure(height)) == pytest.approx(
        height, abs=1e-6
    )


@given(st.floats(-990, 5990))
def test_the_density_altitude_of_standard_air_is_the_height(height: float) -> None:
    rho = float(atmosphere.air(height).density)
    assert atmosphere.density_altitude(rho) == pytest.approx(height, abs=1e-6)


@given(st.floats(0, 3000), st.floats(1, 40))
def test_warm_air_has_a_higher_density_altitude(height: float, warmer: float) -> None:
    rho = float(atmosphere.air(height, warmer).density)
    assert atmosphere.density_altitude(rho) > height


def test_the_standard_setting_makes_pressure_altitude_of_elevation() -> None:
    assert atmosphere.pressure_altitude_from_qnh(432.1, 101325.0) == pytest.approx(432.1)


def test_one_hectopascal_is_about_27_feet_near_sea_level() -> None:
    # common practice, no source
    moved = atmosphere.pressure_altitude_from_qnh(0.0, 101225.0) / 0.3048
    assert moved == pytest.approx(27, abs=0.5)


def test_humid_air_of_a_warm_day_is_0_9_percent_lighter() -> None:
    # 30 °C, dew point 20 °C, 950 hPa: worked out apart from this code
    p_v = atmosphere.vapour_pressure(293.15)
    T_v = atmosphere.virtual_temperature(303.15, p_v, 95000.0)
    ratio = atmosphere.air_density(95000.0, T_v) / atmosphere.air_density(95000.0, 303.15)
    assert ratio == pytest.approx(1 - 0.009, abs=5e-4)


def test_water_vapour_at_a_dew_point_of_20_degrees_has_the_known_pressure() -> None:
    # 2339 Pa in steam tables, from memory; the formula is good to 0.3 %
    assert atmosphere.vapour_pressure(293.15) == pytest.approx(2339, rel=3e-3)


def test_dry_air_is_its_own_virtual_temperature() -> None:
    assert atmosphere.virtual_temperature(290.0, 0.0, 90000.0) == 290.0


@pytest.mark.parametrize("height", [-1001.0, 6001.0])
def test_no_air_is_given_outside_the_range_of_heights(height: float) -> None:
    with pytest.raises(OutsideRange, match="must be from -1000 to 6000 m"):
        atmosphere.air([0.0, height])
    with pytest.raises(OutsideRange, match="must be from -1000 to 6000 m"):
        atmosphere.standard_pressure(height)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: atmosphere.geopotential_height(6101.0), "geometric height is 6101 m"),
        (lambda: atmosphere.pressure_altitude(40000.0), "pressure is 40000 Pa"),
        (lambda: atmosphere.pressure_altitude_from_qnh(100.0, 29.92), "altimeter setting is 0.2992 hPa"),
        (lambda: atmosphere.density_altitude(0.2), "density is 0.2 kg/m³"),
        (lambda: atmosphere.vapour_pressure(20.15), "dew point is -253.0 °C"),
        (lambda: atmosphere.virtual_temperature(290.0, 20000.0, 90000.0), "vapour pressure is 20000 Pa"),
        (lambda: atmosphere.air_density(0.0, 288.0), "pressure is 0 Pa, and must be positive"),
        (lambda: atmosphere.air(0.0, 51.0), "offset from the standard temperature is 51 K"),
        (lambda: atmosphere.air(float("nan")), "not a finite number"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
