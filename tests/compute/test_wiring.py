"""Wires, fuses and rough figures of heat; the tables are held against the circular in tests/references."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import cooling, wiring
from dossier.compute.series_count import series_candidates
from dossier.compute.wiring import Circuit, Wire, wiring_checks
from dossier.figures import OutsideRange

ZERO = 273.15
WIRE = Wire("4", {105: 68.0, 150: 103.0}, 0.28 / 304.8, 70.0)
AS_BUILT = Circuit(WIRE, rating=150, one_way=2.0, parallel=1, fuse=70.0, current=60.0, voltage=100.0)


def test_the_loop_of_a_wire_by_hand() -> None:
    # 2 x 2 m of gauge 4: 4 m x 0.28 ohm / 304.8 m = 3.675 milliohm
    assert wiring.loop_resistance(WIRE, 2.0) == pytest.approx(3.675e-3, abs=5e-7)
    assert wiring.loop_resistance(WIRE, 2.0, 2) == pytest.approx(1.837e-3, abs=5e-7)


def test_the_drop_of_a_wire_by_hand() -> None:
    assert wiring.voltage_drop(60.0, 3.675e-3) == pytest.approx(0.2205)


def test_the_temperature_of_the_circulars_example() -> None:
    # AC 43.13-1B, 11-66 f: the answer of 181.6 °C is stored with the study; the inputs, 50 °C around, 200 °C
    # rated, 20 A of 26 A, are from memory
    warm = wiring.conductor_temperature(50 + ZERO, 200 + ZERO, 20.0, 26.0)
    assert warm - ZERO == pytest.approx(181.6, abs=0.05)


def test_the_length_of_the_circulars_example() -> None:
    # the same example: 254.5 x 15.5 / (234.5 + 181.6) = 9.48 ft, the stored answer; 15.5 ft is from memory
    warmer = wiring.warm_resistance(1.0, 181.6 + ZERO)
    assert 15.5 / warmer == pytest.approx(9.48, abs=0.005)


def test_at_20_degrees_the_resistance_is_that_of_the_table() -> None:
    assert wiring.warm_resistance(0.003, 20 + ZERO) == pytest.approx(0.003, rel=1e-15)


@given(st.floats(0, 26), st.floats(0, 26))
def test_more_current_is_never_cooler(one: float, other: float) -> None:
    cool, warm = (
        wiring.conductor_temperature(323.15, 473.15, amperes, 26.0) for amperes in sorted((one, other))
    )
    assert cool <= warm


def kept(circuit: Circuit, **more: float) -> dict[str, bool]:
    return {check.name: check.kept for check in wiring_checks(circuit, **more)}


def test_a_circuit_as_it_should_be_keeps_everything() -> None:
    assert kept(AS_BUILT) == {
        "the current against the wire": True,
        "the current against the fuse": True,
        "the fuse against the wire": True,
        "the fuse against the table of fuses": True,
        "the drop of voltage": True,
    }


@pytest.mark.parametrize(
    ("change", "fails"),
    [
        ({"current": 110.0}, {"the current against the wire", "the current against the fuse"}),
        ({"fuse": 50.0}, {"the current against the fuse"}),
        ({"fuse": 80.0}, {"the fuse against the table of fuses"}),
        ({"rating": 105}, {"the fuse against the wire"}),
        ({"one_way": 20.0}, {"the drop of voltage"}),
    ],
)
def test_each_fault_is_named_and_no_other(change: dict[str, float], fails: set[str]) -> None:
    found = kept(replace(AS_BUILT, **change))  # type: ignore[arg-type]
    assert {name for name, one in found.items() if not one} == fails


def test_a_fuse_that_just_fits_is_kept() -> None:
    assert all(kept(replace(AS_BUILT, current=70.0)).values())


def test_wires_side_by_side_carry_more_and_have_no_fuse_in_the_table() -> None:
    double = replace(AS_BUILT, parallel=2, current=130.0, fuse=150.0)
    assert kept(double) == {
        "the current against the wire": True,
        "the current against the fuse": True,
        "the fuse against the wire": True,
        "the drop of voltage": True,
    }


def test_a_stricter_drop_may_be_asked_for() -> None:
    assert not kept(AS_BUILT, largest_drop=0.002)["the drop of voltage"]


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
        (lambda: wiring.loop_resistance(WIRE, 0.0), "the length of the wire is 0 m"),
        (lambda: wiring.loop_resistance(WIRE, 1.0, 0), "the number of wires side by side is 0"),
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
        (
            lambda: wiring_checks(replace(AS_BUILT, rating=90)),
            "no rating of 90 °C in the table, which has 105, 150",
        ),
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
