"""Formulas of the worked rows: hand-made cases, borders and laws, each against another way than its own."""

from __future__ import annotations

from math import log, sqrt

import numpy as np
import pytest
from battery_cells import CHEN
from hypothesis import given
from hypothesis import strategies as st
from invented_glider import POLAR, RHO
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar

from dossier.compute import ageing, atmosphere, charge_time, climb, cruise_flown, level, life, reach, run_time
from dossier.compute.ground_roll import points_of_run as points_of_roll
from dossier.compute.ground_roll import take_off_run
from dossier.figures import OutsideRange

G = 9.80665
WING = {
    "S": POLAR.area, "C_D0": POLAR.zero_lift_drag, "K": POLAR.induced, "C_Lmax": POLAR.lift_maximum,
}  # fmt: skip
MASS, POWER, CHAIN = 201.5, 5760.0, 0.56
FLAT = {"z_i": [0.0, 1.0], "U_i": [3.0, 4.0], "R_i": [0.02, 0.02], "Q_cell": 3600.0}
"""A cell of 1 Ah whose voltage is 3 V and the charge."""


def sink(v: float, rho: float) -> float:
    """Power of the drag over the weight, written out by the lift coefficient (source fossee-anderson)."""
    C_L = 2 * MASS * G / (rho * WING["S"] * v**2)
    C_D = WING["C_D0"] + WING["K"] * C_L**2
    return rho * v**3 * WING["S"] * C_D / (2 * MASS * G)


# --- flight


def test_air_off_the_standard_is_the_standard_and_the_difference() -> None:
    # ISO 2533: 275.15 K at 2000 m
    assert atmosphere.temperature_off_standard(2000.0, 15.0) == pytest.approx(290.15, abs=1e-9)


def test_air_more_than_50_degrees_off_has_no_answer() -> None:
    with pytest.raises(OutsideRange, match="within 50 K"):
        atmosphere.temperature_off_standard(0.0, 50.1)


def test_at_the_top_speed_the_thrust_lifts_the_sink() -> None:
    v = level.level_top_speed(POWER, CHAIN, MASS, WING["S"], rho=RHO, **without_area())
    assert v == pytest.approx(brentq(lambda v: POWER * CHAIN - MASS * G * sink(v, RHO), 20.0, 60.0))


def without_area() -> dict[str, float]:
    return {key: value for key, value in WING.items() if key != "S"}


def test_too_little_power_has_no_top_speed() -> None:
    with pytest.raises(OutsideRange, match="no level flight"):
        level.level_top_speed(500.0, CHAIN, MASS, WING["S"], rho=RHO, **without_area())


def test_the_power_of_the_drag_is_weight_by_sink() -> None:
    assert level.drag_power(200.0, 0.8, G) == pytest.approx(1569.064)


def test_the_time_of_a_climb_is_the_integral_of_an_adaptive_quadrature() -> None:
    def slowness(h: float) -> float:
        rho = 1.225 * (1 - 0.0065 * h / 288.15) ** 4.25588
        stall = sqrt(2 * MASS * G / (rho * WING["S"] * WING["C_Lmax"]))
        least = minimize_scalar(lambda v: sink(v, rho), bounds=(5.0, 40.0), method="bounded").x
        return 1 / (CHAIN * POWER / (MASS * G) - sink(max(least, 1.1 * stall), rho))

    made = climb.climb_time_to_height(POWER, CHAIN, MASS, 1000.0, **WING)
    assert made == pytest.approx(quad(slowness, 0.0, 1000.0)[0], rel=1e-6)


def test_the_points_of_a_climb_sum_to_its_time() -> None:
    made = climb.climb_time_to_height(POWER, CHAIN, MASS, 1000.0, **WING)
    assert climb.points_of_climb(POWER, CHAIN, MASS, 1000.0, **WING).total == pytest.approx(made, rel=1e-12)


def test_a_climb_above_the_ceiling_has_no_time() -> None:
    with pytest.raises(OutsideRange, match="no climb"):
        climb.climb_time_to_height(2500.0, CHAIN, MASS, 6000.0, **WING)


@given(st.floats(-8, 12), st.floats(0, 1.5))
def test_no_speed_leads_farther_than_the_one_to_fly(head: float, down: float) -> None:
    v = reach.speed_to_fly(MASS, WING["S"], RHO, head, v_a=down, v_max=60.0, **without_area())
    best = reach.reach_in_wind(v, sink(v, RHO), head, down)
    slowest = 1.1 * sqrt(2 * MASS * G / (RHO * WING["S"] * WING["C_Lmax"]))
    for other in np.linspace(max(slowest, head + 0.1), 60.0, 60).tolist():
        assert reach.reach_in_wind(other, sink(other, RHO), head, down) <= best * (1 + 1e-9)


def test_a_headwind_as_fast_as_the_aircraft_has_no_reach() -> None:
    with pytest.raises(OutsideRange, match="a reach has no number"):
        reach.reach_in_wind(15.0, 0.8, 15.0, 0.0)
    with pytest.raises(OutsideRange, match="no way against this wind"):
        reach.speed_to_fly(MASS, WING["S"], RHO, 40.0, v_a=0.0, v_max=30.0, **without_area())


def test_the_points_of_a_take_off_run_sum_to_it() -> None:
    run = {
        "S": WING["S"], "C_D0": 0.03, "K": WING["K"], "C_Lg": 0.4, "D_p": 1.3, "k_p": 0.7, "rho": RHO,
    }  # fmt: skip
    made = take_off_run(MASS, POWER, 13.0, 0.05, **run)
    assert points_of_roll(MASS, POWER, 13.0, 0.05, **run).total == pytest.approx(made, rel=1e-12)


# --- battery


def test_the_points_of_a_run_sum_to_its_time() -> None:
    asked = {
        "T_b": 298.15, "Q_cell": CHEN.capacity, "G": 1.2, "R_x": 0.004, "b": 3000.0, "C_lim": 1.0,
        "E_nom": CHEN.nominal_energy, "z_i": CHEN.nodes()[0].tolist(), "U_i": CHEN.nodes()[1].tolist(),
        "R_i": CHEN.nodes()[2].tolist(),
    }  # fmt: skip
    made = run_time.time_at_power(8.0, 0.9, 0.2, 2.6, **asked)
    points = run_time.points_of_run(8.0, 0.9, 0.2, 2.6, **asked)
    assert points.total == pytest.approx(made, rel=1e-12)
    z, dz = points.columns[0].values, points.columns[1].values
    assert list(z) == sorted(z, reverse=True)
    assert sum(dz) == pytest.approx(0.7, abs=1e-12)


def test_a_charge_at_constant_power_takes_the_energy_that_goes_in() -> None:
    bulk = charge_time.bulk_time(3.8, 0.2, 3.9, 0.1, **FLAT)

    def voltage(z: float) -> float:
        return (3 + z + sqrt((3 + z) ** 2 + 4 * 3.8 * 0.02)) / 2

    knee = 3.9 - 0.02 * 3.8 / 3.9 - 3.0
    assert bulk == pytest.approx(3600.0 / 3.8 * quad(voltage, 0.2, knee)[0], rel=1e-9)


def test_a_taper_on_a_straight_line_is_a_logarithm() -> None:
    first = 3.8 / 3.9
    made = charge_time.taper_time(3.8, 0.2, 3.9, 0.1, **FLAT)
    assert made == pytest.approx(3600.0 * 0.02 * log(first / 0.1), rel=1e-6)


def test_the_energy_of_a_charge_is_that_of_both_parts() -> None:
    bulk, taper = charge_time.points_of_charge(3.8, 0.2, 3.9, 0.1, **FLAT)
    spent = sum(
        volt * current * time
        for part in (bulk, taper)
        for *_, volt, current, time in zip(*(column.values for column in part.columns), strict=True)
    )
    assert charge_time.charged_energy(3.8, 0.2, 3.9, 0.1, N=20.0, **FLAT) == pytest.approx(20 * spent)


def test_level_flight_without_phases_before_it_agrees_with_the_quadrature() -> None:
    z, U, R = (column.tolist() for column in CHEN.nodes())
    asked = {
        "U_min": 2.6, "T_b": 298.15, "Q_cell": CHEN.capacity, "G": 1.0, "R_x": 0.0, "b": 3000.0,
        "E_nom": CHEN.nominal_energy, "C_lim": 1.0, "z_i": z, "U_i": U, "R_i": R,
    }  # fmt: skip
    flown = cruise_flown.cruise_flown(8.0, 0.95, 0.2, [], t_i=[], I_lim=20.0, **asked)
    # the slow part acts from rest on, and gives a few seconds
    assert flown == pytest.approx(run_time.time_at_power(8.0, 0.95, 0.2, **asked), rel=2e-3)
    instants = cruise_flown.instants_of_cruise(
        flown, P_cell=8.0, z_1=0.95, z_2=0.2, P_ci=[], t_i=[], I_lim=20.0, **asked
    )
    assert instants.total == pytest.approx(0.75, abs=1e-6)


def test_a_battery_that_ends_before_level_flight_has_no_time() -> None:
    z, U, R = (column.tolist() for column in CHEN.nodes())
    with pytest.raises(OutsideRange, match="does not last to level flight"):
        cruise_flown.cruise_flown(
            8.0, 0.95, 0.2, [8.0], t_i=[20000.0], U_min=2.6, I_lim=20.0, T_b=298.15, Q_cell=CHEN.capacity,
            G=1.0, R_x=0.0, b=3000.0, E_nom=CHEN.nominal_energy, C_lim=1.0, z_i=z, U_i=U, R_i=R,
        )  # fmt: skip


# --- years


def test_the_root_mean_square_of_a_straight_line_is_in_closed_form() -> None:
    made = ageing.rms_of_window(1.0, 0.0, [0.0, 1.0], [3.0, 4.0])
    assert made == pytest.approx(sqrt((4**3 - 3**3) / 3))


def test_an_empty_window_has_no_root_mean_square() -> None:
    with pytest.raises(OutsideRange, match="must rise"):
        ageing.rms_of_window(0.5, 0.5, [0.0, 1.0], [3.0, 4.0])


def test_losses_add_up_to_the_health() -> None:
    assert life.health_left(0.05, 0.08) == pytest.approx(0.87)
    assert life.health_by_spread(0.05, 0.08, 2.0, 0.5) == pytest.approx(0.86)
    assert life.growth_in_years(0.1, 0.2) == pytest.approx(1.3)


def test_below_70_per_cent_no_model_speaks() -> None:
    with pytest.raises(OutsideRange, match="no model speaks"):
        life.health_left(0.2, 0.11)
    with pytest.raises(OutsideRange, match="no model speaks"):
        life.health_by_spread(0.1, 0.1, 4.0, 1.0)
