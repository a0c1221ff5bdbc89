"""Pack arithmetic against worked examples (tests/references/packs.yaml); all packs are invented."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, example, number, numbers

from dossier.compute import pack
from dossier.figures import OutsideRange

KWH, WH, AH, LITRE = 3.6e6, 3600.0, 3600.0, 1e-3


def worked(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    found = example("packs", name)
    return found.given, found.expect


@pytest.mark.parametrize("row", [0, 1])
def test_cells_in_series_have_the_worked_voltage(row: int) -> None:
    given_, expect = worked("BAT-X13-CLASS")
    voltage = pack.pack_voltage(number(given_["ns"][row]), number(given_["v_max"]))
    assert voltage == as_printed(expect["v"][row])


@pytest.mark.parametrize("row", range(3))
def test_a_gauge_mark_has_the_worked_voltage_a_cell(row: int) -> None:
    given_, expect = worked("BAT-X06-GAUGE")
    voltage = pack.cell_voltage(number(given_["v"][row]), number(given_["ns"]))
    assert voltage == as_printed(expect["per_cell"][row])


def test_the_current_at_take_off_is_the_worked_one() -> None:
    given_, expect = worked("BAT-X08-CRATE")
    voltage = pack.pack_voltage(number(given_["ns"]), number(given_["v_loaded_cell"]))
    assert pack.current(number(given_["P_kw"]) * 1e3, voltage) == as_printed(expect["I_a"])


def test_the_rate_at_take_off_is_the_worked_one() -> None:
    given_, expect = worked("BAT-X08-CRATE")
    voltage = pack.pack_voltage(number(given_["ns"]), number(given_["v_loaded_cell"]))
    capacity = pack.pack_capacity(number(given_["np"]), number(given_["q_ah"]) * AH)
    assert pack.discharge_rate(number(given_["P_kw"]) * 1e3, voltage, capacity) == as_printed(expect["C"])


def test_the_sag_is_current_times_the_worked_pack_resistance() -> None:
    given_, expect = worked("BAT-X14-SAG")
    resistance = pack.pack_resistance(*(number(given_[key]) for key in ("ns", "np", "r_pulse60_ohm")))
    assert number(given_["I_a"]) * resistance == as_printed(expect["dV_v"])


@pytest.mark.parametrize("row", range(4))
def test_a_flat_cell_lasts_as_long_under_load_as_worked(row: int) -> None:
    # with a flat rest voltage the loaded one stays, so the time is charge over current
    given_, expect = worked("BAT-ANA-002")
    power = numbers(given_["P_w"])[row]
    voltage = pack.loaded_voltage(number(given_["U"]), number(given_["R"]), power)
    time = number(given_["Q_ah"]) * AH / pack.current(power, voltage)
    assert time == as_printed(expect["t_s"][row])


def test_the_specific_energy_is_the_worked_one() -> None:
    given_, expect = worked("BAT-X04-PACKMASS")
    energy = number(given_["E_kwh"]) * KWH
    assert pack.specific_energy(energy, number(given_["m_kg"])) / WH == as_printed(expect["e_pack"])


def test_the_energy_density_is_the_worked_one() -> None:
    given_, expect = worked("BAT-X05-PACKVOL")
    energy, volume = number(given_["E_kwh"]) * KWH, number(given_["V_l"]) * LITRE
    assert pack.energy_density(energy, volume) / WH * LITRE == as_printed(expect["wh_per_l"])


def charging(taper: float) -> float:
    given_, _ = worked("BAT-X10-CHARGER")
    energy = number(given_["E_kwh"]) * KWH * number(given_["refill"])
    return pack.charging_time(energy, number(given_["P_kw"]) * 1e3, number(given_["eta"]), taper) / 3600


def test_the_bulk_of_charging_takes_the_worked_time() -> None:
    assert charging(0.0) == as_printed(worked("BAT-X10-CHARGER")[1]["bulk_h"])


def test_charging_with_taper_takes_the_worked_time() -> None:
    given_, expect = worked("BAT-X10-CHARGER")
    assert charging(number(given_["taper_min"]) * 60) == as_printed(expect["total_h"])


def test_the_nameplate_of_28_by_16_cells_by_hand() -> None:
    # 28 x 3.6 V x 16 x 5.0 Ah = 8064 Wh, the 8.06 kWh of a label
    voltage, capacity = pack.pack_voltage(28, 3.6), pack.pack_capacity(16, 5.0 * AH)
    assert pack.nameplate_energy(voltage, capacity) / WH == pytest.approx(8064)


def test_28_by_16_cells_are_448() -> None:
    assert pack.cell_count(28, 16) == number(worked("BAT-X05-PACKVOL")[0]["n_cells"])


def test_the_energy_of_a_pack_is_that_of_its_cells() -> None:
    assert pack.pack_energy(448, 18.0 * WH) / WH == pytest.approx(8064)


def test_usable_energy_by_hand() -> None:
    assert pack.usable_energy(8.0 * KWH, 0.15) / KWH == pytest.approx(6.8)


def test_a_pack_fits_its_bay_by_hand() -> None:
    # 412 mm bay, 400 mm pack, 5 mm on both sides: 2 mm to spare
    assert pack.box_clearance(0.412, 0.400, 0.005) == pytest.approx(0.002)


def test_a_pack_that_does_not_fit_has_a_negative_clearance() -> None:
    assert pack.box_clearance(0.408, 0.400, 0.005) == pytest.approx(-0.002)


def test_the_most_power_halves_the_voltage_and_more_is_refused() -> None:
    # 100 V and 0.5 ohm: 5 kW at 50 V, where as much is lost inside as is given
    assert pack.loaded_voltage(100.0, 0.5, 5000.0) == pytest.approx(50.0)
    with pytest.raises(OutsideRange, match=r"5001 W are asked .* at 100 V and 0\.5 ohm it gives 5000 W"):
        pack.loaded_voltage(100.0, 0.5, 5001.0)


def test_a_reserve_may_be_nothing_or_everything() -> None:
    assert (pack.usable_energy(5.0, 0.0), pack.usable_energy(5.0, 1.0)) == (5.0, 0.0)


@pytest.mark.parametrize("reserve", [-0.01, 1.01])
def test_a_reserve_is_a_fraction(reserve: float) -> None:
    with pytest.raises(OutsideRange, match="must be between 0 and 1"):
        pack.usable_energy(1.0, reserve)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: pack.cell_voltage(100.0, 0), "number of cells in series is 0, and must be positive"),
        (lambda: pack.pack_resistance(28, 0, 0.03), "number of strings is 0, and must be positive"),
        (lambda: pack.current(1000.0, 0.0), "voltage is 0 V, and must be positive"),
        (lambda: pack.discharge_rate(1000.0, -1.0, 1.0), "voltage is -1 V, and must be positive"),
        (lambda: pack.discharge_rate(1000.0, 1.0, 0.0), "capacity is 0 C, and must be positive"),
        (lambda: pack.specific_energy(1.0, 0.0), "mass is 0 kg, and must be positive"),
        (lambda: pack.energy_density(1.0, 0.0), "volume is 0 m³, and must be positive"),
        (lambda: pack.charging_time(1.0, 0.0, 0.9, 0.0), "charging power is 0 W, and must be positive"),
        (lambda: pack.charging_time(1.0, 1.0, 1.01, 0.0), "efficiency is 1.01, and must be above 0"),
        (lambda: pack.charging_time(1.0, 1.0, 0.0, 0.0), "efficiency is 0, and must be above 0"),
        (lambda: pack.charging_time(-1.0, 1.0, 0.9, 0.0), "energy to refill is -1 J, and must not be"),
        (lambda: pack.charging_time(1.0, 1.0, 0.9, -1.0), "time of taper is -1 s, and must not be negative"),
    ],
)
def test_each_border_of_validity_is_named(call: Any, message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)


COUNT = st.integers(1, 60)


@given(COUNT, COUNT, st.floats(2.5, 4.2), st.floats(1, 50))
def test_the_nameplate_does_not_depend_on_how_the_cells_are_joined(
    series: int, parallel: int, voltage: float, charge: float
) -> None:
    whole = pack.nameplate_energy(pack.pack_voltage(series, voltage), pack.pack_capacity(parallel, charge))
    cells = pack.cell_count(series, parallel)
    assert whole == pytest.approx(pack.pack_energy(cells, pack.nameplate_energy(voltage, charge)))


@given(COUNT, COUNT, st.floats(1e-4, 0.1))
def test_as_many_strings_as_cells_in_series_have_the_resistance_of_one_cell(
    series: int, parallel: int, cell: float
) -> None:
    there, back = pack.pack_resistance(series, parallel, cell), pack.pack_resistance(parallel, series, cell)
    assert there * back == pytest.approx(cell**2)
    assert pack.pack_resistance(series, series, cell) == pytest.approx(cell)


@given(COUNT, st.floats(10, 1000))
def test_pack_and_cell_voltage_are_inverses(series: int, voltage: float) -> None:
    assert pack.pack_voltage(series, pack.cell_voltage(voltage, series)) == pytest.approx(voltage)


@given(st.floats(50, 400), st.floats(0.001, 0.5), st.floats(0, 1))
def test_power_given_and_power_lost_inside_make_the_power_of_the_cells(
    rest: float, resistance: float, share: float
) -> None:
    power = share * rest**2 / 4 / resistance
    loaded = pack.loaded_voltage(rest, resistance, power)
    amperes = pack.current(power, loaded)
    assert power + amperes**2 * resistance == pytest.approx(rest * amperes, rel=1e-9, abs=1e-9)


@given(st.floats(50, 400), st.floats(0.001, 0.05))
def test_a_rate_at_the_loaded_voltage_is_never_below_that_at_rest(rest: float, resistance: float) -> None:
    loaded = pack.loaded_voltage(rest, resistance, 1000.0)
    assert pack.discharge_rate(1000.0, loaded, 80 * AH) >= pack.discharge_rate(1000.0, rest, 80 * AH)


@given(st.floats(1, 1e5), st.floats(10, 500), st.floats(1e3, 1e6))
def test_a_rate_of_one_empties_the_capacity_in_an_hour(power: float, voltage: float, charge: float) -> None:
    rate = pack.discharge_rate(power, voltage, charge)
    assert pack.current(power, voltage) * 3600 / rate == pytest.approx(charge)


@given(st.floats(0, 1e8), st.floats(0, 1))
def test_usable_energy_and_reserve_make_the_whole(energy: float, reserve: float) -> None:
    kept = energy * reserve
    assert pack.usable_energy(energy, reserve) + kept == pytest.approx(energy)


@given(st.floats(0, 1e8), st.floats(100, 1e4), st.floats(0.5, 1), st.floats(0, 3600))
def test_twice_the_energy_takes_twice_the_bulk_time(
    energy: float, power: float, eta: float, taper: float
) -> None:
    once, twice = (pack.charging_time(n * energy, power, eta, taper) - taper for n in (1, 2))
    assert twice == pytest.approx(2 * once, abs=1e-6)


@given(st.floats(1e5, 1e8), st.floats(1, 100), st.floats(0.001, 0.1))
def test_energy_for_mass_and_volume_give_the_energy_back(energy: float, mass: float, volume: float) -> None:
    assert pack.specific_energy(energy, mass) * mass == pytest.approx(energy)
    assert pack.energy_density(energy, volume) * volume == pytest.approx(energy)


@given(st.floats(0.1, 1), st.floats(0.1, 1), st.floats(0, 0.05))
def test_a_gap_counts_on_both_sides(bay: float, box: float, gap: float) -> None:
    wider = pack.box_clearance(bay, box + 2 * gap, 0.0)
    assert pack.box_clearance(bay, box, gap) == pytest.approx(wider, abs=1e-12)
