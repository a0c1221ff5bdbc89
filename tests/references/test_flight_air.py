"""Atmosphere, altitudes and airspeeds of publications (flight.yaml), each at its own tolerance."""

from __future__ import annotations

import pytest
from flight_examples import flight_example
from invented_glider import FOOT, KNOT

from dossier.compute import airspeed, atmosphere

INCH_OF_MERCURY = 3386.389
"""In Pa, conventional."""
ROWS = [
    "isa-z0",
    "isa-z1000",
    "isa-z2000",
    "isa76-z500",
    "isa76-z3000",
    "isa76-z4000",
    "isa76-z5000",
    "isa76-z6000",
]
NORMAL = {"T_K", "p_Pa", "rho", "a_mps"}


@pytest.mark.parametrize("name", ROWS)
def test_a_row_of_the_standard_atmosphere_is_the_printed_one(name: str) -> None:
    row = flight_example(name)
    height = atmosphere.geopotential_height(row["geometric_height_m"])
    T, p = atmosphere.standard_temperature(height), atmosphere.standard_pressure(height)
    assert row.near("T_K") == T
    assert p == row.near("p_Pa")
    assert atmosphere.air_density(p, T) == row.near("rho")
    assert airspeed.speed_of_sound(T) == row.near("a_mps")


@pytest.mark.parametrize("name", ROWS)
def test_the_viscosity_of_a_row_is_the_printed_one(name: str) -> None:
    row = flight_example(name)
    height = atmosphere.geopotential_height(row["geometric_height_m"])
    mu = float(airspeed.viscosity(atmosphere.standard_temperature(height)))
    (key,) = set(row.expect) - NORMAL
    assert mu * (1e6 if key == "mu_uPas" else 1) == row.near(key)


def test_the_pressure_altitude_of_the_handbook_is_the_printed_one() -> None:
    problem = flight_example("da-phak-1")
    setting = problem["altimeter_inHg"] * INCH_OF_MERCURY
    height = atmosphere.pressure_altitude_from_qnh(problem["elevation_ft"] * FOOT, setting)
    assert height / FOOT == problem.near("pressure_altitude_ft")


def test_the_density_altitude_of_the_handbook_is_the_one_on_its_chart() -> None:
    problem = flight_example("da-phak-1")
    setting = problem["altimeter_inHg"] * INCH_OF_MERCURY
    height = atmosphere.pressure_altitude_from_qnh(problem["elevation_ft"] * FOOT, setting)
    warm = 273.15 + (problem["oat_F"] - 32) / 1.8
    rho = atmosphere.air_density(atmosphere.standard_pressure(height), warm)
    assert atmosphere.density_altitude(rho) / FOOT == problem.near("density_altitude_ft")


def test_the_density_altitude_of_the_observers_is_near_their_rule() -> None:
    problem = flight_example("da-rule-120-hot")
    p = atmosphere.standard_pressure(problem["pressure_altitude_ft"] * FOOT)
    rho = atmosphere.air_density(p, problem["oat_C"] + 273.15)
    assert atmosphere.density_altitude(rho) / FOOT == problem.near("density_altitude_ft")


def test_the_density_altitude_of_the_weather_service_is_the_exact_one() -> None:
    sheet = flight_example("da-nws")
    rho = atmosphere.air_density(
        sheet["station_pressure_inHg"] * INCH_OF_MERCURY, sheet["virtual_temperature_K"]
    )
    height = atmosphere.density_altitude(rho) / FOOT
    assert height == sheet.near("exact_ft")
    # the fit of the sheet: its note allows 25 ft
    assert abs(height - float(sheet.expect["nws_ft"])) < 25


@pytest.mark.parametrize("row", [0, 1, 2])
def test_the_impact_pressure_of_a_calibrated_airspeed_is_the_worked_one(row: int) -> None:
    table = flight_example("cas-qc")
    speed = table.column("CAS_kt")[row]
    assert airspeed.impact_pressure(speed * KNOT) == table.near(f"qc_{speed:.0f}")


def test_the_speed_of_sound_at_sea_level_is_the_read_one() -> None:
    assert flight_example("cas-qc").near("a0_kt") == airspeed.SOUND / KNOT
