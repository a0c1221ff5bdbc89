"""Wires, fuses and rough figures of heat; the tables are held against the circular in tests/references."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import cooling, wiring
from dossier.compute.series_count import series_candidates
from dossier.figures import OutsideRange

ZERO = 273.15
GAUGE_4 = 0.28
"""In Ω per 1000 ft."""


def test_the_loop_of_a_wire_by_hand() -> None:
    # 2 x 2 m of gauge 4: 4 m x 0.28 ohm / 304.8 m = 3.675 milliohm
    assert wiring.loop_resistance(2.0, GAUGE_4, 1) == pytest.approx(3.675e-3, abs=5e-7)
    assert wiring.loop_resistance(2.0, GAUGE_4, 2) == pytest.approx(1.837e-3, abs=5e-7)


def test_the_drop_of_a_wire_by_hand() -> None:
    assert wiring.voltage_drop(60.0, 3.675e-3) == pytest.approx(0.2205)


def test_drops_in_a_row_add_up() -> None:
    assert wiring.drop_in_a_row([0.2, 0.3, 0.0]) == pytest.approx(0.5, rel=1e-15)


def test_the_share_of_a_drop_by_hand() -> None:
    assert wiring.drop_share(1.0, 50.0) == pytest.approx(0.02, rel=1e-15)


def test_wires_side_by_side_carry_as_many_times_more() -> None:
    assert wiring.carrying_capacity(103.0, 2) == 206.0


def test_at_20_degrees_the_resistance_is_that_of_the_table() -> None:
    assert wiring.warm_resistance(0.003, 20 + ZERO) == pytest.approx(0.003, rel=1e-15)


@given(st.floats(0.1, 50), st.floats(0.01, 30), st.integers(1, 6))
def test_twice_the_length_takes_twice_the_voltage_and_twice_the_wires_half(
    metres: float, ohm: float, count: int
) -> None:
    once = wiring.loop_resistance(metres, ohm, count)
    assert wiring.loop_resistance(2 * metres, ohm, count) == pytest.approx(2 * once)
    assert wiring.loop_resistance(metres, ohm, 2 * count) == pytest.approx(once / 2)


def test_a_wire_at_its_current_is_at_its_rating() -> None:
    assert wiring.conductor_temperature(343.15, 473.15, 285.0, 285.0) == pytest.approx(473.15)


@given(st.floats(0, 26), st.floats(0, 26))
def test_more_current_is_never_cooler(one: float, other: float) -> None:
    cool, warm = (
        wiring.conductor_temperature(323.15, 473.15, amperes, 26.0) for amperes in sorted((one, other))
    )
    assert cool <= warm


# --- heat, an estimate


def test_the_air_for_150_w_by_hand() -> None:
    # 150 W / (1005 J/(kg K) x 10 K)
    assert cooling.air_mass_flow(150, 10) == pytest.approx(0.014925, abs=5e-7)


@given(st.floats(1, 1e4), st.floats(1, 50), st.floats(0.5, 1.3))
def test_twice_the_heat_takes_twice_the_air_and_thin_air_more_of_it(
    heat: float, warming: float, density: float
) -> None:
    once = cooling.air_volume_flow(heat, warming, density)
    assert cooling.air_volume_flow(2 * heat, warming, density) == pytest.approx(2 * once)
    assert cooling.air_volume_flow(heat, warming, density / 2) == pytest.approx(2 * once)


def test_heat_that_stays_warms_by_hand() -> None:
    # 1 kW for 60 s in 30 kg of 1000 J/(kg K)
    assert cooling.rise_without_cooling(1000, 60, 30 * 1000) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: wiring.loop_resistance(0.0, GAUGE_4, 1), "the length of the wire is 0 m"),
        (lambda: wiring.loop_resistance(1.0, GAUGE_4, 0), "the number of wires side by side is 0"),
        (lambda: wiring.carrying_capacity(0.0, 1), "the current of the table is 0 A"),
        (lambda: wiring.drop_in_a_row([0.1, -0.1]), "the drop of voltage is -0.1 V"),
        (lambda: wiring.drop_share(0.1, 0.0), "the voltage is 0 V"),
        (
            lambda: wiring.conductor_temperature(323.15, 473.15, 27.0, 26.0),
            "goes from 0 to the 26 A of the rating",
        ),
        (
            lambda: wiring.conductor_temperature(323.15, 323.15, 1.0, 26.0),
            "the rating of 50 °C is not above the air of 50 °C",
        ),
        (lambda: wiring.conductor_temperature(323.15, 473.15, 1.0, 0.0), "the current at the rating is 0 A"),
        (lambda: wiring.warm_resistance(1.0, 500.0), "a straight line from -50 to 200 °C"),
        (lambda: cooling.air_mass_flow(-1, 10), "the heat is -1 W"),
        (lambda: cooling.air_mass_flow(1, 0), "the warming of the air is 0 K"),
        (lambda: cooling.air_volume_flow(1, 1, 0), "the density of the air is 0 kg/m³"),
        (lambda: cooling.rise_without_cooling(1, -1, 1), "the time is -1 s"),
        (lambda: cooling.rise_without_cooling(1, 1, 0), "the heat capacity is 0 J/K"),
    ],
)
def test_each_border_of_validity_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)


# --- how many cells


def test_48_volts_nominal_are_13_or_14_cells() -> None:
    # 13 x 3.69 V and 14 x 3.43 V: a full voltage tells more, and still not all
    assert series_candidates(54.6) == (13,)
    assert series_candidates(58.8) == (14,)


@given(st.integers(1, 150))
def test_the_true_count_is_always_among_the_candidates(count: int) -> None:
    assert count in series_candidates(4.2 * count, 3.65 * count, 3.0 * count)


def test_many_cells_leave_many_candidates() -> None:
    assert len(series_candidates(400.0)) > 3


def test_voltages_that_fit_no_count_leave_none() -> None:
    assert series_candidates(58.8, 45.0) == ()
