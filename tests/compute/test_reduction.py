"""Flight tests brought to standard conditions: a worked descent, laws, uncertainty with shared errors."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_glider import AREA, POLAR, RHO

from dossier.compute import reduction
from dossier.compute.atmosphere import air, air_density, standard_pressure
from dossier.compute.glide import drag, glides
from dossier.compute.level import top_speed
from dossier.compute.reduction import full_power_speed, mean_of_runs, sink_of_descent
from dossier.figures import Input, OutsideRange, error_source, spread

MASSES, DENSITIES = st.floats(150, 260), st.floats(0.8, 1.25)


def reading(label: str, kind: str, value: float, u: float = 0.0) -> Input:
    return Input(label, kind, value + error_source(label, u) if u else value, "card of the flight test")


def worked_descent(**uncertain: float) -> reduction.Descent:
    """200 m in 235 s at 1500 m, 5 K warm, 18.0 m/s true, 205 kg."""
    return reduction.Descent(
        drop=reading("drop", "length", 200.0, uncertain.get("drop", 0.0)),
        time=reading("time", "time", 235.0, uncertain.get("time", 0.0)),
        true_speed=reading("true airspeed", "speed", 18.0, uncertain.get("speed", 0.0)),
        pressure_altitude=reading("pressure altitude", "length", 1500.0),
        temperature=reading(
            "temperature", "temperature", 288.15 - 9.75 + 5, uncertain.get("temperature", 0.0)
        ),
        mass=reading("mass", "mass", 205.0, uncertain.get("mass", 0.0)),
    )


STANDARD_MASS = reading("standard mass", "mass", 211.5)


def test_a_timed_descent_reduces_to_the_worked_speed_and_sink() -> None:
    # 16.84 m/s and 0.811 m/s at 211.5 kg and sea level (worked out apart from this code)
    found = reduction.reduce_descent(worked_descent(), STANDARD_MASS)
    assert found.speed.value == pytest.approx(16.84, abs=0.005)
    assert found.sink.value == pytest.approx(0.811, abs=5e-4)


def test_one_percent_of_the_time_is_one_percent_of_the_sink() -> None:
    found = reduction.reduce_descent(worked_descent(time=2.35), STANDARD_MASS)
    assert found.sink.standard_uncertainty / found.sink.value == pytest.approx(0.01, rel=1e-3)
    assert found.speed.standard_uncertainty == 0


def test_one_percent_of_the_mass_is_half_a_percent_of_both_and_of_one_sign() -> None:
    found = reduction.reduce_descent(worked_descent(mass=2.05), STANDARD_MASS)
    assert found.sink.standard_uncertainty / found.sink.value == pytest.approx(0.005, rel=1e-3)
    ratio = found.speed.estimate / found.sink.estimate  # the mass falls out of the glide ratio
    assert spread(ratio) == pytest.approx(0.0, abs=1e-6 * found.speed.value / found.sink.value)


@given(st.floats(15.7, 35), MASSES, MASSES, st.floats(0, 3000), st.floats(-20, 25))
def test_a_glide_flown_anywhere_reduces_to_that_of_the_polar(
    speed: float, flown: float, standard: float, height: float, offset: float
) -> None:
    # the polar itself says what is flown at one lift coefficient
    around = air(height, offset)
    rho, T = float(around.density), float(around.temperature)
    at_standard = glides(POLAR, speed, standard, RHO)
    if not at_standard.answered:
        return
    true = speed * sqrt(flown * 1.225000018124288 / (standard * rho))
    sink = float(drag(POLAR, flown, rho).sink(np.asarray(true)))
    assert reduction.speed_at_standard(true, flown, standard, rho) == pytest.approx(speed)
    assert reduction.sink_at_standard(sink, flown, standard, rho) == pytest.approx(
        at_standard.one("sink"), rel=1e-7
    )
    pressure_rate = sink * (T - offset) / T
    assert reduction.timed_sink(pressure_rate * 60, 60.0, T, height) == pytest.approx(sink)


@given(st.floats(16, 35), MASSES, MASSES, DENSITIES)
def test_a_power_flown_anywhere_reduces_to_that_of_the_polar(
    v: float, flown: float, standard: float, rho: float
) -> None:
    power = float(drag(POLAR, flown, rho).force(np.asarray(v)) * v)
    reduced = reduction.speed_at_standard(v, flown, standard, rho)
    wanted = float(drag(POLAR, standard, 1.225000018124288).force(np.asarray(reduced)) * reduced)
    assert reduction.power_at_standard(power, flown, standard, rho) == pytest.approx(wanted)


def level(v: float, P_t: float, P: float) -> float:
    return reduction.standard_top_speed(v, P_t, P, 201.5, S=AREA, C_D0=POLAR.zero_lift_drag, K=POLAR.induced)


def test_a_level_run_at_full_power_is_the_top_speed_already() -> None:
    assert level(30.0, 8000.0, 8000.0) == pytest.approx(30.0)


def test_a_level_run_at_less_power_leads_to_the_top_speed_of_the_same_drive() -> None:
    slow, fast = top_speed(POLAR, [0.6 * 6000.0, 0.6 * 9000.0], 201.5, RHO).computed["speed"]
    assert level(float(slow), 6000.0, 9000.0) == pytest.approx(float(fast), rel=1e-6)


def test_twice_the_power_is_nearly_the_cube_root_of_two_faster_far_above_the_best_glide() -> None:
    assert level(60.0, 8000.0, 16000.0) / 60.0 == pytest.approx(2 ** (1 / 3), rel=0.01)


def shared_runs(values: list[float], calibration: float) -> list[Input]:
    one = error_source("calibration", calibration)
    return [Input("run", "speed", value + one, "card") for value in values]


def test_the_mean_of_runs_has_their_scatter_and_their_shared_error() -> None:
    # 1, 2, 3: standard deviation 1, over root 3; calibration 0.5 on top of it
    found = reduction.repeated(shared_runs([1.0, 2.0, 3.0], 0.5), "top speed")
    assert found.value == 2.0
    assert found.standard_uncertainty == pytest.approx(sqrt(1 / 3 + 0.25))


def test_runs_that_agree_keep_the_error_that_they_share() -> None:
    found = reduction.repeated(shared_runs([2.0, 2.0, 2.0, 2.0], 0.5), "stall")
    assert found.standard_uncertainty == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: reduction.timed_sink(0.0, 60.0, 288.0, 0.0), "drop is 0 m"),
        (lambda: reduction.timed_sink(100.0, 0.0, 288.0, 0.0), "time is 0 s"),
        (lambda: reduction.sink_at_standard(0.7, 0.0, 200.0, 1.2), "mass of the test is 0 kg"),
        (lambda: reduction.speed_at_standard(20.0, 200.0, 200.0, 0.0), "density is 0 kg/m³"),
        (lambda: reduction.power_at_standard(2e3, 200.0, 0.0, 1.2), "mass is 0 kg"),
        (lambda: level(10.0, 8000.0, 8000.0), "slower than 14.46 m/s, the speed of least power"),
        (lambda: level(16.0, 8000.0, 100.0), "100 W do not keep level flight"),
        (lambda: reduction.repeated(shared_runs([1.0], 0.1), "stall"), "the stall has 1 run"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()


def test_a_descent_in_one_sheet_is_the_two_sheets_one_after_the_other() -> None:
    # 300 m in 150 s through 850 m at the standard temperature: 2 m/s true
    T, middle = 288.15 - 0.0065 * 850, 850.0
    rho = air_density(standard_pressure(middle), T)
    found = sink_of_descent(1000.0, 700.0, 150.0, T, m_t=260.0, m=275.0, dw=0.1)
    assert found == pytest.approx(2.1 * (275 / 260 * rho / 1.225) ** 0.5, rel=1e-6)


def test_a_run_at_full_power_at_sea_level_in_standard_air_stays_as_it_is() -> None:
    wing = {"S": 14.8, "C_D0": 0.044, "K": 0.07}
    found = full_power_speed(27.0, 24000.0, 24000.0, 268.0, h_p=0.0, T=288.15, **wing)
    assert found == pytest.approx(27.0, rel=1e-6)


def test_thin_air_flatters_the_calibrated_speed_of_a_run_less_than_nothing() -> None:
    # at 1000 m the same power gives a lower calibrated speed, so the standard one is higher
    wing = {"S": 14.8, "C_D0": 0.044, "K": 0.07}
    assert full_power_speed(27.0, 24000.0, 24000.0, 268.0, h_p=1000.0, T=281.65, **wing) > 27.0


def test_the_mean_of_runs_by_hand() -> None:
    assert mean_of_runs([30.0, 31.0, 32.0], 0.5) == pytest.approx(31.5)
