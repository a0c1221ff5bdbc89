"""Rest voltage, state of charge and stored energy against a published cell (packs.yaml, BAT-OCV-001).

The curve is of a published parameter set (Chen et al. 2020, J. Electrochem. Soc. 167, 080534), evaluated with
an open library: the answers are computed, not measured.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, example, number, numbers

from dossier.compute import open_circuit as cell
from dossier.figures import OutsideRange

CHEN = example("packs", "BAT-OCV-001")
COARSE = (numbers(CHEN.given["table"]["soc"]), numbers(CHEN.given["table"]["ocv_v"]))
_POINTS = {
    float(z): float(U)
    for part in ("table", "extra_points")
    for z, U in zip(CHEN.given[part]["soc"], CHEN.given[part]["ocv_v"], strict=True)
}
FINE = (sorted(_POINTS), [_POINTS[z] for z in sorted(_POINTS)])
CAPACITY = number(CHEN.expect["capacity_ah"]) * 3600
TABLE = {"z_i": FINE[0], "U_i": FINE[1]}


@pytest.mark.parametrize("row", range(7))
def test_the_rest_voltage_is_the_published_one(row: int) -> None:
    z, voltage = CHEN.expect["ocv_at_soc"][row]
    assert cell.open_circuit_voltage(number(z), *FINE) == as_printed(voltage)


@pytest.mark.parametrize("row", range(7))
def test_the_state_of_charge_is_found_from_the_published_voltage(row: int) -> None:
    z, voltage = CHEN.expect["ocv_at_soc"][row]
    assert cell.state_of_charge(number(voltage), *FINE) == pytest.approx(number(z), abs=1e-12)


def test_the_energy_of_the_whole_range_is_the_published_one() -> None:
    # the reference integrates the smooth curve; straight lines through its points may differ by 0.05 %
    energy = cell.cell_energy_between_charges(CAPACITY, 1.0, 0.0, **TABLE)
    assert energy / 3600 == pytest.approx(number(CHEN.expect["energy_wh"]), rel=5e-4)


def test_a_table_without_points_below_5_percent_stores_less() -> None:
    coarse = cell.cell_energy_between_charges(CAPACITY, 1.0, 0.0, z_i=COARSE[0], U_i=COARSE[1])
    fine = cell.cell_energy_between_charges(CAPACITY, 1.0, 0.0, **TABLE)
    assert 0.001 < 1 - coarse / fine < 0.007


def test_energy_by_hand() -> None:
    # 3 V rising to 4 V over 1 Ah: 3.5 Wh in all; above 3.5 V half the charge at a mean of 3.75 V
    straight = {"z_i": [0.0, 1.0], "U_i": [3.0, 4.0]}
    assert cell.cell_energy_between_charges(3600.0, 1.0, 0.0, **straight) == pytest.approx(3.5 * 3600)
    assert cell.cell_energy_between_voltages(3600.0, 4.0, 3.5, **straight) == pytest.approx(1.875 * 3600)


def test_charging_releases_a_negative_energy() -> None:
    out = cell.cell_energy_between_charges(CAPACITY, 0.9, 0.4, **TABLE)
    assert cell.cell_energy_between_charges(CAPACITY, 0.4, 0.9, **TABLE) == -out


@pytest.mark.parametrize("voltage", [2.4999, 4.2001])
def test_a_rest_voltage_beyond_the_table_is_refused(voltage: float) -> None:
    with pytest.raises(OutsideRange, match=rf"voltage {voltage} is outside the table, .* from 2\.5 to 4\.2"):
        cell.state_of_charge(voltage, *FINE)
    with pytest.raises(OutsideRange, match="rest voltage"):
        cell.cell_energy_between_voltages(CAPACITY, voltage, 3.0, **TABLE)


@pytest.mark.parametrize("z", [-0.001, 1.001])
def test_a_state_of_charge_beyond_the_table_is_refused(z: float) -> None:
    with pytest.raises(OutsideRange, match=rf"state of charge {z} is outside the table, .* from 0 to 1"):
        cell.open_circuit_voltage(z, *FINE)
    with pytest.raises(OutsideRange, match="state of charge"):
        cell.cell_energy_between_charges(CAPACITY, z, 0.5, **TABLE)


FALLING = ([0.0, 0.5, 1.0], [3.0, 3.6, 3.6])


def test_a_table_whose_voltage_does_not_rise_is_refused() -> None:
    with pytest.raises(OutsideRange, match=r"voltage of the table must rise .* row 3 has 3\.6 behind 3\.6"):
        cell.open_circuit_voltage(0.5, *FALLING)
    with pytest.raises(OutsideRange, match="rest voltage must rise"):
        cell.state_of_charge(3.2, *FALLING)
    with pytest.raises(OutsideRange, match="rest voltage of the table must rise"):
        cell.cell_energy_between_charges(1.0, 0.9, 0.1, z_i=FALLING[0], U_i=FALLING[1])


def test_a_table_whose_charge_does_not_rise_is_refused() -> None:
    with pytest.raises(OutsideRange, match="state of charge of the table must rise"):
        cell.state_of_charge(3.2, [0.0, 1.0, 0.5], [3.0, 3.6, 3.7])


CHARGE = st.floats(0, 1)


@given(CHARGE)
def test_voltage_and_state_of_charge_are_inverses(z: float) -> None:
    assert cell.state_of_charge(cell.open_circuit_voltage(z, *FINE), *FINE) == pytest.approx(z, abs=1e-12)


@given(CHARGE, CHARGE)
def test_more_charge_means_more_voltage(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert cell.open_circuit_voltage(low, *FINE) <= cell.open_circuit_voltage(high, *FINE)


@given(CHARGE, CHARGE, CHARGE)
def test_energies_of_two_stages_add_up(first: float, middle: float, last: float) -> None:
    whole = cell.cell_energy_between_charges(CAPACITY, first, last, **TABLE)
    parts = cell.cell_energy_between_charges(CAPACITY, first, middle, **TABLE)
    parts += cell.cell_energy_between_charges(CAPACITY, middle, last, **TABLE)
    assert parts == pytest.approx(whole, abs=1e-6)


@given(CHARGE, CHARGE)
def test_energy_between_voltages_is_that_between_states_of_charge(one: float, other: float) -> None:
    ends = [cell.open_circuit_voltage(z, *FINE) for z in (one, other)]
    by_charge = cell.cell_energy_between_charges(CAPACITY, one, other, **TABLE)
    assert cell.cell_energy_between_voltages(CAPACITY, *ends, **TABLE) == pytest.approx(by_charge, abs=1e-6)


@given(CHARGE, CHARGE)
def test_the_mean_voltage_lies_between_the_two_rest_voltages(one: float, other: float) -> None:
    low, high = sorted((one, other))
    energy = cell.cell_energy_between_charges(CAPACITY, high, low, **TABLE)
    ends = [cell.open_circuit_voltage(z, *FINE) for z in (low, high)]
    charge = CAPACITY * (high - low)
    assert charge * ends[0] - 1e-6 <= energy <= charge * ends[1] + 1e-6
