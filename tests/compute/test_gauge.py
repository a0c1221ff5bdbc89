"""The gauge card by its laws; its numbers are held against the stored card in tests/references."""

from __future__ import annotations

import pytest
from battery_cells import CHEN, limited, without_resistance
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.curve import curve
from dossier.compute.discharge import discharge
from dossier.compute.discharge_outcome import NoAnswer, Reason
from dossier.compute.gauge import Age, GaugeCard, gauge_card, loaded_voltage, spread_of_charge
from dossier.compute.pack_share import PackShape
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange

SHAPE = PackShape(28, 16)
CHARGES = [1.0, 0.8, 0.6, 0.4, 0.2, 0.1]


def card(cell: object = None, **more: object) -> GaugeCard:
    given_ = {"power": 5000.0, "charges": CHARGES} | more
    made = gauge_card(cell or limited(CHEN, 3.0), SHAPE, **given_)  # type: ignore[arg-type]
    assert isinstance(made, GaugeCard)
    return made


def test_the_rows_go_from_full_to_empty() -> None:
    assert [row.charge for row in card(charges=sorted(CHARGES)).rows] == CHARGES


def test_the_time_left_is_that_of_a_discharge_from_there() -> None:
    runs = discharge(limited(CHEN, 3.0), scenarios(5000 / 448, start=CHARGES))
    assert [row.time_left for row in card().rows] == pytest.approx(list(runs.computed["time"]))


def test_the_energy_left_is_power_times_time() -> None:
    assert all(row.energy_left == pytest.approx(5000 * row.time_left) for row in card().rows)


def test_a_loaded_reading_taken_for_a_rested_one_frightens_and_the_other_error_deceives() -> None:
    for row in card().rows[1:]:
        assert row.if_taken_as_rested is not None
        assert row.if_taken_as_loaded is not None
        assert row.if_taken_as_rested < 0 < row.if_taken_as_loaded


def test_the_error_is_that_of_looking_up_the_wrong_column_by_hand() -> None:
    # the loaded reading at 60 % is the rest voltage of about 43 %
    row = card().rows[2]
    cell = limited(CHEN, 3.0)
    charge = curve(list(cell.rest.y), list(cell.rest.x)).at(row.loaded_voltage / 28, "")
    left = discharge(cell, scenarios(5000 / 448, start=charge)).computed["time"][0]
    assert row.if_taken_as_rested == pytest.approx(left - row.time_left, abs=0.5)


def test_no_column_reaches_above_full() -> None:
    assert card().rows[0].if_taken_as_loaded is None


def test_a_reading_below_the_column_has_no_error() -> None:
    # where the limit of flight is low the loaded voltage falls below that of an empty cell at rest
    cell = limited(CHEN, 2.2)
    low = gauge_card(cell, PackShape(28, 16, wiring=0.5), power=5000.0, charges=[0.0, 0.01, 0.5])
    assert isinstance(low, GaugeCard)
    assert low.rows[-1].if_taken_as_rested is None


def test_without_resistance_there_is_no_error() -> None:
    rows = card(without_resistance(limited(CHEN, 3.0))).rows
    assert all(row.rest_voltage == pytest.approx(row.loaded_voltage) for row in rows)
    assert all(row.if_taken_as_rested == pytest.approx(0, abs=1e-9) for row in rows)


def test_below_the_limit_nothing_is_left() -> None:
    assert card(charges=[0.05]).rows[0].time_left == 0.0


def test_age_lowers_the_loaded_column_and_the_time_but_not_rest() -> None:
    new, old = card().rows[2], card(age=Age(health=0.8, growth=1.5)).rows[2]
    assert old.rest_voltage == new.rest_voltage
    assert old.loaded_voltage < new.loaded_voltage
    assert old.time_left < 0.8 * new.time_left


def test_in_the_cold_there_is_no_card() -> None:
    refused = gauge_card(CHEN, SHAPE, power=5000.0, charges=CHARGES, temperature=275.0)
    assert isinstance(refused, NoAnswer)
    assert refused.reason is Reason.COLD


def test_a_loaded_voltage_that_does_not_rise_makes_no_card() -> None:
    from dataclasses import replace

    odd = replace(limited(CHEN, 2.6), resistance=curve([0, 0.5, 0.55, 1], [0.02, 0.02, 0.2, 0.2]))
    with pytest.raises(OutsideRange, match="a reading would have two meanings"):
        gauge_card(odd, SHAPE, power=5000.0, charges=CHARGES)


@given(st.floats(0.1, 1.0), st.floats(0, 8000))
def test_the_loaded_voltage_of_one_state_is_below_rest(charge: float, power: float) -> None:
    assert loaded_voltage(CHEN, SHAPE, power, charge) <= 28 * CHEN.rest.at(charge, "")


def test_the_loaded_voltage_of_one_state_is_that_of_the_card() -> None:
    row = card().rows[2]
    assert loaded_voltage(CHEN, SHAPE, 5000.0, 0.6) == pytest.approx(row.loaded_voltage, rel=1e-12)


def test_wiring_lowers_the_loaded_voltage_by_its_own_drop() -> None:
    # at 103 V and 48 A, 20 milliohm take about 1 V
    bare, wired = (loaded_voltage(CHEN, PackShape(28, 16, wiring), 5000.0, 0.6) for wiring in (0.0, 0.020))
    assert bare - wired == pytest.approx(5000 / bare * 0.020, rel=0.06)


@given(st.floats(0.1, 0.9), st.floats(0.001, 0.02))
def test_the_spread_of_charge_grows_with_that_of_voltage(charge: float, spread: float) -> None:
    assert spread_of_charge(CHEN.rest, charge, 2 * spread) > spread_of_charge(CHEN.rest, charge, spread) > 0


def test_a_spread_beyond_the_table_is_refused() -> None:
    with pytest.raises(OutsideRange, match="rest voltage"):
        spread_of_charge(CHEN.rest, 1.0, 0.05)
