"""Discharge at constant power: closed forms, an independent solver, the named ends and the borders of the
model."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
from battery_cells import AH, CHEN, MOHTAT, answered, flat, limited, without_resistance
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from dossier.compute import discharge as room
from dossier.compute.cell import Cell, CellLimits
from dossier.compute.cell_circuit import effective_cut_off, headroom, working_voltage
from dossier.compute.curve import curve
from dossier.compute.discharge import Discharge, Discharges, discharge, integrals
from dossier.compute.discharge_outcome import WORDS, Limit, NoAnswer, Reason
from dossier.compute.open_circuit import cell_energy_between_charges
from dossier.compute.scenarios import CHUNK, scenarios
from dossier.figures import OutsideRange

CHEN_3V0 = limited(CHEN, 3.0)
POWERS = st.floats(0.2, 17.9)


def one(cell: Cell, power: float, **more: float) -> Discharge:
    found = answered(discharge(cell, scenarios([power], **more))[0])
    assert isinstance(found, Discharge)
    return found


def raw(cell: Cell, power: float, name: str = "time", **more: float) -> float:
    return float(discharge(cell, scenarios([power], **more)).computed[name][0])


# --- closed forms


def test_without_resistance_the_time_is_the_energy_at_rest_over_the_power() -> None:
    # t = E/P holds only for R = 0; the published accuracy is 2e-15 (BAT-SOLVER)
    ideal = without_resistance(CHEN_3V0)
    end = 0.035
    cut = ideal.rest.at(end, "")
    run = one(limited(ideal, cut), 9.0)
    z, U, _ = ideal.nodes()
    energy = cell_energy_between_charges(ideal.capacity, 1.0, run.end_charge, z_i=list(z), U_i=list(U))
    assert run.end_charge == pytest.approx(end, rel=1e-13)
    assert run.time == pytest.approx(energy / 9.0, rel=5e-15)


def test_a_small_resistance_comes_close_to_none_in_proportion() -> None:
    ideal = raw(without_resistance(CHEN_3V0), 9.0, floor=0.1)
    losses = []
    for part in (1e-3, 1e-4):
        little = replace(
            CHEN_3V0,
            resistance=replace(CHEN_3V0.resistance, y=tuple(part * R for R in CHEN_3V0.resistance.y)),
        )
        losses.append(ideal - raw(little, 9.0, floor=0.1))
    assert losses[0] / losses[1] == pytest.approx(10, rel=1e-3)


@given(st.floats(0.01, 16), st.floats(0.001, 0.05))
def test_a_flat_cell_has_the_closed_form(power: float, resistance: float) -> None:
    # t = Q (U + sqrt(U^2 - 4 P R)) / (2 P)
    voltage, charge = 3.65, 5 * AH
    run = raw(flat(voltage, resistance, charge, lowest=2.0), power)
    assert run == pytest.approx(
        charge * (voltage + sqrt(voltage**2 - 4 * power * resistance)) / (2 * power), rel=2e-9
    )


def test_a_flat_cell_of_endless_capacity_lasts_in_proportion() -> None:
    times = [raw(flat(3.65, 0.03, charge, lowest=2.0), 18.0) / charge for charge in (1e4, 1e12)]
    assert times[1] == pytest.approx(times[0], rel=1e-12)


def test_the_exponent_of_a_flat_cell_is_that_of_the_formula() -> None:
    # n = -dln t/dln P = 1 + I R / sqrt(U^2 - 4 P R)
    U, R, P, step = 3.65, 0.03, 18.0, 1e-4
    cell = flat(U, R, 5 * AH, lowest=2.0)
    slope = -(np.log(raw(cell, P * (1 + step))) - np.log(raw(cell, P * (1 - step)))) / (
        np.log(1 + step) - np.log(1 - step)
    )
    root = sqrt(U * U - 4 * P * R)
    current = P / ((U + root) / 2)
    assert slope == pytest.approx(1 + current * R / root, abs=2e-7)


# --- an independent solver of differential equations


def by_solver(cell: Cell, power: float) -> float:
    """Integrate the same circuit in time with scipy, to the voltage limit as an event."""

    def voltage(z: float) -> float:
        U, R = np.interp(z, cell.rest.x, cell.rest.y), np.interp(z, cell.resistance.x, cell.resistance.y)
        return float((U + sqrt(U * U - 4 * power * R)) / 2)

    def fall(_t: float, z: np.ndarray) -> list[float]:
        return [-power / voltage(z[0]) / cell.capacity]

    def limit(_t: float, z: np.ndarray) -> float:
        return voltage(z[0]) - cell.limits.voltage

    limit.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(fall, (0, 1e6), [1.0], rtol=1e-10, atol=1e-12, events=limit, max_step=60.0)
    return float(run.t_events[0][0])


@pytest.mark.parametrize("power", [3.6, 9.0, 18.0])
def test_quadrature_and_a_solver_in_time_agree(power: float) -> None:
    # 4e-6 is the stored agreement (BAT-SOLVER); what is left here is the solver's own error at the points of
    # the table
    assert raw(CHEN_3V0, power) == pytest.approx(by_solver(CHEN_3V0, power), rel=1e-7)


def test_more_points_of_quadrature_change_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    few = raw(CHEN_3V0, 18.0)
    points, weights = np.polynomial.legendre.leggauss(40)
    monkeypatch.setattr(room, "POINTS", points)
    monkeypatch.setattr(room, "WEIGHTS", weights)
    assert raw(CHEN_3V0, 18.0) == pytest.approx(few, rel=1e-12)


# --- laws


@given(POWERS, POWERS)
def test_more_power_never_lasts_longer(one_power: float, other: float) -> None:
    low, high = sorted((one_power, other))
    assert raw(CHEN_3V0, high) <= raw(CHEN_3V0, low)


@given(POWERS, st.floats(0.15, 1.0), st.floats(1.0, 2.0), st.floats(0.6, 1.0), st.floats(0, 0.01))
def test_the_energy_balances(power: float, start: float, growth: float, health: float, wiring: float) -> None:
    run = {
        name: raw(CHEN_3V0, power, name, start=start, growth=growth, health=health, wiring=wiring)
        for name in ("energy", "heat", "end_charge")
    }
    z, U, _ = CHEN.nodes()
    released = cell_energy_between_charges(
        CHEN.capacity * health, start, run["end_charge"], z_i=list(z), U_i=list(U)
    )
    assert run["energy"] + run["heat"] == pytest.approx(released, rel=1e-6, abs=1e-6)


@given(POWERS, st.floats(0.3, 0.9))
def test_two_parts_make_the_whole(power: float, middle: float) -> None:
    whole = raw(CHEN_3V0, power)
    assume(raw(CHEN_3V0, power, "end_charge") < middle)
    first = raw(CHEN_3V0, power, floor=middle)
    assert first + raw(CHEN_3V0, power, start=middle) == pytest.approx(whole, rel=1e-10)


@given(st.floats(0.5, 8.9))
def test_half_of_the_strings_lasts_less_than_half(power: float) -> None:
    # half of the cells take twice the power each
    assert raw(CHEN_3V0, 2 * power) < raw(CHEN_3V0, power) / 2


@given(POWERS, st.floats(0.5, 1.0))
def test_the_time_goes_with_the_capacity_when_the_power_does_not_change_the_voltage(
    power: float, health: float
) -> None:
    # at the same power per cell only the charge is less
    assert raw(CHEN_3V0, power, health=health) == pytest.approx(health * raw(CHEN_3V0, power), rel=1e-12)


@given(POWERS, st.floats(1.0, 2.5), st.floats(0, 0.02))
def test_age_and_wiring_never_make_it_longer(power: float, growth: float, wiring: float) -> None:
    assert raw(CHEN_3V0, power, growth=growth, wiring=wiring) <= raw(CHEN_3V0, power) * (1 + 1e-12)


@given(POWERS, st.floats(278.2, 298.0))
def test_colder_never_lasts_longer(power: float, temperature: float) -> None:
    assert raw(CHEN_3V0, power, temperature=temperature) <= raw(CHEN_3V0, power) * (1 + 1e-12)


def test_many_scenarios_are_what_each_is_alone() -> None:
    powers = np.linspace(1, 17, CHUNK + 3)
    together = discharge(CHEN_3V0, scenarios(powers, start=np.linspace(0.5, 1.0, CHUNK + 3)))
    for number in (0, CHUNK - 1, CHUNK, CHUNK + 2):
        alone = raw(CHEN_3V0, powers[number], start=float(np.linspace(0.5, 1.0, CHUNK + 3)[number]))
        assert together.computed["time"][number] == pytest.approx(alone, rel=1e-14)
    assert len(together) == CHUNK + 3


# --- the first limit that binds


def test_the_voltage_under_load_ends_it_exactly_there() -> None:
    run = one(CHEN_3V0, 9.0)
    assert run.limit is Limit.VOLTAGE
    assert run.last_voltage == pytest.approx(3.0, rel=1e-14)


def test_the_charge_that_is_kept_ends_it_first() -> None:
    run = one(CHEN_3V0, 9.0, floor=0.2)
    assert (run.limit, run.end_charge) == (Limit.FLOOR, 0.2)


def test_a_current_limit_ends_it_when_the_current_has_grown_so_far() -> None:
    run = one(limited(CHEN, 3.0, current=2.6), 9.0)
    assert run.limit is Limit.CURRENT
    assert run.last_current == pytest.approx(2.6, rel=1e-14)
    assert run.last_voltage > 3.0


def test_a_table_that_ends_above_the_limit_ends_it_empty() -> None:
    run = one(flat(3.65, 0.03, 5 * AH, lowest=2.0), 3.0)
    assert (run.limit, run.end_charge) == (Limit.EMPTY, 0.0)


def test_a_start_below_the_limit_of_voltage_is_an_answer_of_no_time() -> None:
    run = one(CHEN_3V0, 9.0, start=0.05)
    assert (run.limit, run.time, run.end_charge) == (Limit.VOLTAGE, 0.0, 0.05)


def test_a_power_that_the_cell_cannot_give_is_named_and_is_a_number_nowhere() -> None:
    # at 3.65 V and 50 milliohm no voltage gives more than 3.65^2/4/0.05 = 66.6 W
    runs = discharge(flat(3.65, 0.05, 5 * AH, lowest=2.0), scenarios([66.0, 67.0]))
    refused = runs[1]
    assert isinstance(refused, NoAnswer)
    assert refused.reason is Reason.POWER
    assert "cannot give 67 W" in refused.message
    assert all(np.isfinite(column).all() for column in runs.computed.values())
    assert [Limit(limit) for limit in runs.limit] == [Limit.VOLTAGE, Limit.POWER]


def test_every_end_has_its_words() -> None:
    assert set(WORDS) == set(Limit)


@given(st.floats(1, 60), st.floats(2.5, 4.0), st.floats(0.5, 20))
def test_the_higher_of_two_voltage_limits_is_the_one_that_is_named(
    power: float, voltage: float, current: float
) -> None:
    cut, limit = effective_cut_off(limited(CHEN, voltage, current), np.array([power]))
    assert cut[0] == max(voltage, power / current)
    assert (limit[0] == Limit.CURRENT) == (power / current > voltage)


# --- where the model does not hold


def reason(runs: Discharges, number: int = 0) -> Reason:
    found = runs[number]
    return found.reason if isinstance(found, NoAnswer) else Reason.NONE


def test_an_energy_cell_is_answered_to_a_rate_of_1_and_a_power_cell_to_3() -> None:
    energy = discharge(CHEN, scenarios([18.0, 18.0001]))
    power = discharge(MOHTAT, scenarios([56.25, 56.251]))
    assert [reason(runs, number) for runs in (energy, power) for number in (0, 1)] == [
        Reason.NONE,
        Reason.RATE,
    ] * 2


def test_a_rate_that_is_too_high_says_which_and_how_far_the_model_goes() -> None:
    refused = discharge(CHEN, scenarios([36.0]))[0]
    assert isinstance(refused, NoAnswer)
    assert refused.message == (
        "36 W a cell are a nominal rate of 2 per hour, and one resistance stands for this energy cell to 1"
    )


def test_an_aged_cell_reaches_its_rate_sooner() -> None:
    runs = discharge(CHEN, scenarios(15.0, health=[1.0, 0.8]))
    assert [reason(runs, number) for number in (0, 1)] == [Reason.NONE, Reason.RATE]


def test_below_5_degrees_there_is_no_single_answer() -> None:
    runs = discharge(CHEN, scenarios(9.0, temperature=[278.15, 278.0]))
    assert [reason(runs, number) for number in (0, 1)] == [Reason.NONE, Reason.COLD]
    refused = runs[1]
    assert isinstance(refused, NoAnswer)
    assert "below 5 °C cells differ so much that only a band can be given" in refused.message


@pytest.mark.parametrize("temperature", [252.0, 334.0])
def test_outside_the_temperatures_of_the_cell_there_is_no_answer(temperature: float) -> None:
    refused = discharge(CHEN, scenarios(9.0, temperature=temperature))[0]
    assert isinstance(refused, NoAnswer)
    assert refused.reason is Reason.TEMPERATURE
    assert "may be used from -20 to 60 °C" in refused.message


def test_a_column_says_itself_what_stands_where_no_answer_is() -> None:
    times = discharge(CHEN, scenarios([9.0, 36.0])).column("time", otherwise=-1.0)
    assert times[0] > 0
    assert times[1] == -1.0


# --- what goes in


@pytest.mark.parametrize(
    ("more", "message"),
    [
        ({"power": [0.0]}, "the power is 0 W, and must be positive"),
        ({"power": [float("nan")]}, "not a finite number"),
        ({"power": [9.0], "floor": 0.6, "start": 0.5}, "0.6, is above that at the start"),
        ({"power": [9.0], "growth": 0.0}, "the growth of resistance is 0, and must be positive"),
        ({"power": [9.0], "health": -1.0}, "the health is -1, and must be positive"),
        ({"power": [9.0], "wiring": -0.1}, "the resistance of the wiring is -0.1 Ω"),
    ],
)
def test_a_scenario_that_is_none_is_refused(more: dict[str, object], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        scenarios(**more)  # type: ignore[arg-type]
    assert message in str(refused.value)


@given(st.floats(2.5, 4.2), st.floats(0, 0.1), st.floats(0, 15))
def test_the_working_voltage_gives_the_power(rest: float, resistance: float, power: float) -> None:
    assume(float(headroom(np.asarray(rest), np.asarray(resistance), np.asarray(power))) >= 0)
    V = float(working_voltage(np.asarray(rest), np.asarray(resistance), np.asarray(power)))
    assert V * (rest - V) == pytest.approx(power * resistance, abs=1e-9)


@pytest.mark.parametrize("end", [0.9, 1.0])
def test_a_steep_end_of_the_table_that_is_not_crossed_changes_nothing(end: float) -> None:
    # an iron phosphate cell ends so: 0.6 V over half a per cent of its charge
    plain = curve([0.0, 0.1, 0.99], [2.9, 3.2, 3.3])
    steep = curve([0.0, 0.1, 0.99, 0.995, 1.0], [2.9, 3.2, 3.3, 3.4, 4.0])
    same = curve([0.0, 1.0], [0.02, 0.02])
    whole = Cell(steep, same, 5 * AH, 3.2, 5 * AH, CellLimits(2.6), "power")
    short = replace(whole, rest=plain, resistance=curve([0.0, 0.99], [0.02, 0.02]), limits=CellLimits(2.6))
    start = min(end, 0.99)
    assert raw(whole, 9.0, start=start) == pytest.approx(raw(short, 9.0, start=start), rel=1e-12)


def test_an_empty_part_of_the_charge_holds_nothing() -> None:
    cases = scenarios([9.0])
    volts, heat = integrals(CHEN, cases, np.array([0.5]), np.array([0.5]))
    assert (volts[0], heat[0]) == (0.0, 0.0)
