"""Range in still air, the middle mark of a voltmeter, and what several models leave open, by hand."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.compute.half_charge import half_charge_voltage
from dossier.compute.models_apart import least_of_models, most_of_models
from dossier.compute.pack import pack_voltage
from dossier.compute.still_air_range import still_air_range
from dossier.figures import OutsideRange

G = 9.80665


def test_3_kw_for_an_hour_carry_200_kg_at_20_to_1_and_0_6_for_66_km() -> None:
    # by hand: 10.8 MJ x 0.6 = 6.48 MJ; the drag is 200 x 9.80665 / 20 = 98.07 N
    assert still_air_range(3e3, 3600.0, 0.6, l_d=20.0, m=200.0, g=G) == pytest.approx(66078, abs=1)


@settings(max_examples=50)
@given(st.floats(500, 1e4), st.floats(60, 1e4), st.floats(5, 40), st.floats(150, 400))
def test_the_range_is_the_speed_times_the_time_where_the_power_is_that_of_the_glide(
    power: float, time: float, ratio: float, mass: float
) -> None:
    # level flight at speed v needs m g v / (ratio eta), so v = P ratio eta / (m g)
    speed = power * ratio * 0.55 / (mass * G)
    assert still_air_range(power, time, 0.55, l_d=ratio, m=mass, g=G) == pytest.approx(speed * time)


@pytest.mark.parametrize("eta", [0.0, 1.01])
def test_an_efficiency_that_is_none_is_refused(eta: float) -> None:
    with pytest.raises(OutsideRange):
        still_air_range(3e3, 3600.0, eta, l_d=20.0, m=200.0, g=G)


CHARGES, VOLTAGES = [0.0, 0.1, 0.5, 1.0], [3.0, 3.3, 3.72, 4.2]


def test_18_cells_of_3_72_v_at_half_read_67_v() -> None:
    # common practice, no source: 76 V full, 54 V empty and about 67 V at half
    half = half_charge_voltage(18.0, 4.2, 3.0, z_i=CHARGES, U_i=VOLTAGES)
    assert half == pytest.approx(67.0, abs=0.1)


def test_half_lies_between_the_marks_and_not_half_way_between_the_volts() -> None:
    half = half_charge_voltage(1.0, 4.2, 3.3, z_i=CHARGES, U_i=VOLTAGES)
    # by hand: charge (1 + 0.1) / 2 = 0.55, a tenth of the way from 3.72 V to 4.2 V
    assert half == pytest.approx(3.72 + 0.1 * 0.48)
    assert pack_voltage(18.0, half) == pytest.approx(
        half_charge_voltage(18.0, 4.2, 3.3, z_i=CHARGES, U_i=VOLTAGES)
    )


def test_a_mark_outside_the_table_is_refused() -> None:
    with pytest.raises(OutsideRange):
        half_charge_voltage(1.0, 4.3, 3.0, z_i=CHARGES, U_i=VOLTAGES)


def test_models_leave_open_what_lies_between_their_ends() -> None:
    assert (least_of_models([7.0, 3.0, 5.0]), most_of_models([7.0, 3.0, 5.0])) == (3.0, 7.0)


@pytest.mark.parametrize("answers", [[], [3.0, 0.0]])
def test_no_answer_and_one_of_nought_are_refused(answers: list[float]) -> None:
    with pytest.raises(OutsideRange):
        least_of_models(answers)
