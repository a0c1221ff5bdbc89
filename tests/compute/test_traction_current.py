"""What the traction circuit must carry: by hand, by its laws, at its borders."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import pack
from dossier.compute.discharge import discharge
from dossier.compute.discharge_outcome import NoAnswer
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase, SlowPart
from dossier.compute.scenarios import scenarios
from dossier.compute.traction_current import (
    BRIEF,
    lasting_level,
    longest_stretch,
    short_circuit_current,
    voltage_under_power,
)
from dossier.figures import OutsideRange
from dossier.tables.cells import generic_cells

WARM = 298.15
FLAT: dict[str, Any] = {
    "N_s": 14, "N_p": 10, "T_b": WARM, "G": 1.0, "b": 3000.0, "R_w": 0.005, "U_min": 2.5,
    "z_i": [0.0, 1.0], "U_i": [3.6, 3.6001], "R_i": [0.025, 0.025],
}  # fmt: skip
"""A cell of 3.6 V and 25 mΩ at any charge."""


def test_the_voltage_under_a_power_by_hand() -> None:
    # 14 x 3.6 V = 50.4 V; 14/10 x 25 mΩ + 5 mΩ = 40 mΩ; (50.4 + root(50.4² - 4 x 9000 x 0.04))/2 = 41.79 V
    U = voltage_under_power(9000.0, 0.5, **FLAT)
    assert pytest.approx(41.79, abs=0.01) == U
    # and back: 9000 W / 41.79 V through 40 mΩ take what is missing
    assert pack.current(9000.0, U) * 0.040 == pytest.approx(50.4 - U, abs=0.001)


def test_the_cold_lowers_it_as_the_law_of_resistance_says() -> None:
    # at 10 °C and 3000 K the resistance is exp(3000 (1/283.15 - 1/298.15)) = 1.704 times that at 25 °C
    cold = voltage_under_power(5000.0, 0.5, **{**FLAT, "T_b": 283.15})
    grown = voltage_under_power(5000.0, 0.5, **{**FLAT, "G": 1.704})
    assert cold == pytest.approx(grown, abs=0.01)


@given(st.floats(100, 6000), st.floats(100, 6000))
def test_more_power_never_raises_the_voltage(one: float, other: float) -> None:
    less, more = (voltage_under_power(P, 0.5, **FLAT) for P in sorted((one, other)))
    assert more <= less


def test_without_resistance_the_voltage_is_that_at_rest() -> None:
    bare = {**FLAT, "R_i": [0.0, 0.0], "R_w": 0.0}
    assert voltage_under_power(9000.0, 0.0, **bare) == pytest.approx(50.4, rel=1e-12)


def test_it_is_the_voltage_at_which_the_flown_phase_of_the_model_ends() -> None:
    # the stepped flight without its slow part ends a phase at the same voltage for the same charge
    cell = generic_cells()["nmc-power"].cell
    flown = fly(cell, [MissionPhase("climb", 20.0, 200.0)], Conditions(), slow_part=SlowPart(at_once=1.0))[0]
    assert not isinstance(flown, NoAnswer)
    end = flown.phases[0]
    z, rest, ohms = (list(map(float, column)) for column in cell.nodes())
    more = {
        "N_s": 1, "N_p": 1, "T_b": WARM, "G": 1.0, "b": cell.constant, "R_w": 0.0,
        "U_min": cell.limits.voltage, "z_i": z, "U_i": rest, "R_i": ohms,
    }  # fmt: skip
    assert voltage_under_power(20.0, end.charge, **more) == pytest.approx(end.voltage, abs=0.002)


def test_where_it_is_refused_the_discharge_of_the_model_has_ended_as_well() -> None:
    cell = generic_cells()["nmc-energy"].cell
    z, rest, ohms = (list(map(float, column)) for column in cell.nodes())
    ended = discharge(cell, scenarios([15.0]))[0]
    assert not isinstance(ended, NoAnswer)
    more = {
        "N_s": 1, "N_p": 1, "T_b": WARM, "G": 1.0, "b": cell.constant, "R_w": 0.0,
        "U_min": cell.limits.voltage, "z_i": z, "U_i": rest, "R_i": ohms,
    }  # fmt: skip
    assert voltage_under_power(15.0, ended.end_charge + 0.002, **more) > cell.limits.voltage
    with pytest.raises(OutsideRange):
        voltage_under_power(15.0, ended.end_charge - 0.002, **more)


def test_a_short_circuit_by_hand() -> None:
    # 10 strings x 3.6 V / (half of 25 mΩ)
    table = {key: FLAT[key] for key in ("z_i", "U_i", "R_i")}
    assert short_circuit_current(0.0, N_p=10, k_s=0.5, **table) == pytest.approx(2880.0)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: voltage_under_power(9000.0, 0.5, **{**FLAT, "T_b": 277.0}), "below 5 °C"),
        (lambda: voltage_under_power(9000.0, 1.2, **FLAT), "the state of charge 1.2 is outside the table"),
        (lambda: voltage_under_power(20000.0, 0.5, **FLAT), "20000 W are asked of the pack"),
        (
            lambda: voltage_under_power(14000.0, 0.5, **FLAT),
            "the voltage would fall to 33.86 V, and the discharge ends at 35 V",
        ),
        (
            lambda: short_circuit_current(0.5, N_p=10, k_s=0.0, z_i=[0, 1], U_i=[3, 4], R_i=[0.02, 0.02]),
            "the resistance is 0 Ω",
        ),
    ],
)
def test_each_border_of_validity_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)


# --- which current lasts


def test_neighbouring_phases_last_together() -> None:
    # taxi, take-off, climb, cruise, go-around: at the current of the climb 25 + 110 s go by without a break
    assert longest_stretch([10, 200, 180, 60, 230], [60, 25, 110, 2000, 40], 180) == 135


def test_the_largest_current_that_lasts_is_that_of_the_climb() -> None:
    assert lasting_level([10, 200, 180, 60, 230], [60, 25, 110, 2000, 40]) == 2


def test_a_climb_of_two_minutes_does_not_last_yet() -> None:
    assert lasting_level([200, 60], [BRIEF, 2000]) == 1
    assert lasting_level([200, 60], [BRIEF + 1, 2000]) == 0


def test_where_nothing_lasts_the_largest_counts() -> None:
    assert lasting_level([20, 200, 50], [10, 10, 10]) == 1
