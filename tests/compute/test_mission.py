"""Missions in phases: agreement with the quadrature and with a solver in time, the first limit, the
borders."""

from __future__ import annotations

from math import exp, sqrt

import numpy as np
import pytest
from battery_cells import AH, CHEN, MOHTAT, answered, flat, limited
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from dossier.compute.cell import Cell
from dossier.compute.cell_step import AT_ONCE, SLOWNESS, Warmth
from dossier.compute.discharge import discharge
from dossier.compute.discharge_outcome import Limit, NoAnswer, Reason
from dossier.compute.mission import fly
from dossier.compute.mission_answer import Flight
from dossier.compute.mission_plan import Conditions, MissionPhase, SlowPart
from dossier.compute.open_circuit import cell_energy_between_charges
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange

CHEN_3V0 = limited(CHEN, 3.0)
QUICK = SlowPart(at_once=1.0)
TO_THE_END = [MissionPhase("cruise", 9.0)]


def flown(*phases: MissionPhase, cell: Cell = CHEN_3V0, **more: float) -> Flight:
    found = answered(fly(cell, phases, Conditions(**more))[0])
    assert isinstance(found, Flight)
    return found


# --- against the quadrature


@pytest.mark.parametrize("power", [3.6, 9.0, 18.0])
@pytest.mark.parametrize("voltage", [2.5, 3.0])
def test_without_the_slow_part_stepper_and_quadrature_agree(power: float, voltage: float) -> None:
    # published agreement of the two solvers: 1e-6 to 6e-6 (BAT-SOLVER), with steps of 10 s
    cell = limited(CHEN, voltage)
    stepped = fly(cell, [MissionPhase("all", power)], Conditions(), slow_part=QUICK, step=10.0).computed[
        "time"
    ][0]
    assert stepped == pytest.approx(discharge(cell, scenarios([power])).computed["time"][0], rel=6e-6)


def test_the_two_solvers_agree_at_any_age_and_temperature() -> None:
    low, high = np.array([[4, 18], [0.4, 1], [1, 1.8], [0.7, 1], [280, 310]]).T
    power, start, growth, health, temperature = np.random.default_rng(1).uniform(low, high, (60, 5)).T
    more = {"start": start, "growth": growth, "health": health, "temperature": temperature}
    one = fly(CHEN_3V0, [MissionPhase("all", power)], Conditions(**more), slow_part=QUICK)
    other = discharge(CHEN_3V0, scenarios(power, **more))
    assert one.computed["time"] == pytest.approx(other.computed["time"], rel=1e-5)
    assert one.computed["energy"] == pytest.approx(other.computed["energy"], rel=1e-5)
    assert one.computed["end_charge"] == pytest.approx(other.computed["end_charge"], abs=1e-5)
    assert list(one.limit) == list(other.limit)


def test_cutting_a_phase_in_two_changes_little() -> None:
    whole = fly(CHEN_3V0, [MissionPhase("a", 20.0, 200)], Conditions())
    parts = fly(CHEN_3V0, [MissionPhase("a", 20.0, 77), MissionPhase("b", 20.0, 123)], Conditions())
    for name in ("energy", "heat", "end_charge"):
        assert parts.computed[name][0] == pytest.approx(whole.computed[name][0], rel=1e-5)


# --- against a solver in time


def by_solver(
    cell: Cell, phases: list[tuple[float, float]], warmth: Warmth, temperature: float
) -> tuple[float, ...]:
    """Integrate charge, slow part and temperature together; return them and the voltage at the end."""
    state = [1.0, 0.0, temperature]

    def parts(z: float, slow: float, T: float, power: float) -> tuple[float, float, float, float]:
        U = float(np.interp(z, cell.rest.x, cell.rest.y))
        R = float(np.interp(z, cell.resistance.x, cell.resistance.y)) * exp(
            cell.constant * (1 / T - 1 / 298.15)
        )
        E = U - slow
        return U, R, (E + sqrt(E * E - 4 * power * AT_ONCE * R)) / 2, power

    for power, duration in phases:

        def rates(_t: float, y: np.ndarray, power: float = power) -> list[float]:
            U, R, V, _ = parts(*y, power)
            current = power / V
            heat = current * (U - V)
            return [
                -current / cell.capacity,
                (current * (1 - AT_ONCE) * R - y[1]) / SLOWNESS,
                (heat - warmth.conductance * (y[2] - warmth.ambient)) / warmth.heat_capacity,
            ]

        run = solve_ivp(rates, (0, duration), state, rtol=1e-9, atol=1e-11, max_step=5.0)
        state = [float(value[-1]) for value in run.y]
    return (*state, parts(*state, phases[-1][0])[2])


def test_a_cold_mission_agrees_with_a_solver_in_time() -> None:
    # 5 °C, bursts, own heat; the stored accuracy of a coarser stepper is 1.5e-4 of charge, 0.17 K and 5 mV
    warmth = Warmth(0.068 * 950, 0.03, 278.15)
    phases = [(2.2, 180.0), (40.0, 45.0), (31.0, 240.0), (11.0, 900.0), (0.0, 600.0), (11.0, 600.0)]
    z, _, T, V = by_solver(CHEN_3V0, phases, warmth, 278.15)
    flight = flown_with(
        warmth, [MissionPhase(str(number), *phase) for number, phase in enumerate(phases)], 278.15
    )
    last = flight.phases[-1]
    assert last.charge == pytest.approx(z, abs=1e-5)
    assert last.temperature == pytest.approx(T, abs=0.01)
    assert last.voltage == pytest.approx(V, abs=5e-4)


def flown_with(warmth: Warmth, phases: list[MissionPhase], temperature: float) -> Flight:
    found = answered(fly(CHEN_3V0, phases, Conditions(temperature=temperature), warmth=warmth)[0])
    assert isinstance(found, Flight)
    return found


# --- laws


@given(st.floats(1, 30), st.floats(10, 200))
def test_the_energy_of_a_flight_balances(power: float, duration: float) -> None:
    runs = fly(CHEN_3V0, [MissionPhase("a", power, duration), MissionPhase("b", 5.0, 300)], Conditions())
    z, U, _ = CHEN.nodes()
    end = float(runs.computed["end_charge"][0])
    released = cell_energy_between_charges(CHEN.capacity, 1.0, end, z_i=list(z), U_i=list(U))
    assert runs.computed["energy"][0] + runs.computed["heat"][0] == pytest.approx(released, rel=3e-6)


def test_more_power_never_flies_longer() -> None:
    times = fly(CHEN_3V0, [MissionPhase("all", np.linspace(5, 18, 200))], Conditions(start=0.5)).computed[
        "time"
    ]
    assert (np.diff(times) < 0).all()


def test_a_cell_that_keeps_its_heat_is_warmed_by_all_of_it() -> None:
    runs = fly(CHEN_3V0, [MissionPhase("a", 15.0, 600)], Conditions(), warmth=Warmth(65.0, 0.0, 298.15))
    rise = float(runs.ends[0].temperature[0]) - 298.15
    assert rise == pytest.approx(float(runs.computed["heat"][0]) / 65.0, rel=1e-9)


def test_a_cell_without_load_takes_the_temperature_around() -> None:
    # after 1 time constant, 650/0.5 s, e^-1 of the difference is left
    warmth = Warmth(650.0, 0.5, 288.15)
    runs = fly(CHEN_3V0, [MissionPhase("rest", 0.0, 1300)], Conditions(temperature=308.15), warmth=warmth)
    assert float(runs.ends[0].temperature[0]) == pytest.approx(288.15 + 20 / np.e, rel=1e-12)


def test_after_a_burst_the_voltage_recovers_with_the_time_constant() -> None:
    cell = flat(3.7, 0.04, 1e9, lowest=2.5)
    phases = [
        MissionPhase("burst", 15.0, 200),
        MissionPhase("rest", 0.0, SLOWNESS),
        MissionPhase("rest", 0.0, SLOWNESS),
    ]
    burst, first, second = (3.7 - float(end.voltage[0]) for end in fly(cell, phases, Conditions()).ends)
    assert second / first == pytest.approx(1 / np.e, rel=1e-6)
    assert first < burst


def test_side_by_side_scenarios_are_what_each_is_alone() -> None:
    phases = [
        MissionPhase("climb", np.array([30.0, 25.0]), np.array([100.0, 200.0])),
        MissionPhase("cruise", 10.0),
    ]
    both = fly(CHEN_3V0, phases, Conditions(health=np.array([1.0, 0.9])))
    for number, (power, duration, health) in enumerate([(30.0, 100.0, 1.0), (25.0, 200.0, 0.9)]):
        alone = fly(
            CHEN_3V0,
            [MissionPhase("climb", power, duration), MissionPhase("cruise", 10.0)],
            Conditions(health=health),
        )
        assert both.computed["time"][number] == pytest.approx(alone.computed["time"][0], rel=1e-6)


# --- the first limit, and when


def test_a_flight_that_is_flown_ends_by_nothing() -> None:
    flight = flown(MissionPhase("climb", 30.0, 100), MissionPhase("cruise", 10.0, 600))
    assert (flight.limit, flight.ended_in, flight.time) == (Limit.NONE, "cruise", pytest.approx(700))
    assert [phase.time for phase in flight.phases] == pytest.approx([100, 600])


def test_the_voltage_ends_a_phase_where_it_meets_its_limit() -> None:
    flight = flown(MissionPhase("cruise", 10.0))
    assert flight.limit is Limit.VOLTAGE
    assert flight.phases[-1].voltage == pytest.approx(3.0, abs=1e-4)


def test_a_burst_may_end_the_flight_in_the_moment_in_which_it_begins() -> None:
    flight = flown(MissionPhase("cruise", 10.0, 6100), MissionPhase("go-around", 40.0, 60))
    assert (flight.limit, flight.ended_in, flight.phases[-1].time) == (Limit.VOLTAGE, "go-around", 0.0)
    assert flight.time == pytest.approx(6100)


def test_the_charge_that_is_kept_ends_the_flight() -> None:
    flight = flown(MissionPhase("cruise", 10.0), floor=0.3)
    assert flight.limit is Limit.FLOOR
    assert flight.end_charge == pytest.approx(0.3, abs=1e-9)


def test_a_limit_of_current_ends_the_flight() -> None:
    flight = flown(MissionPhase("cruise", 10.0), cell=limited(CHEN, 3.0, current=2.9))
    assert flight.limit is Limit.CURRENT
    assert flight.phases[-1].power / flight.phases[-1].voltage == pytest.approx(2.9, rel=1e-5)


def test_a_limit_of_temperature_ends_the_flight() -> None:
    cell = limited(CHEN, 3.0, hottest=303.15)
    flight = answered(
        fly(cell, [MissionPhase("climb", 30.0, 240)], Conditions(), warmth=Warmth(65.0, 0.0, 298.15))[0]
    )
    assert isinstance(flight, Flight)
    assert flight.limit is Limit.TEMPERATURE
    assert flight.hottest == pytest.approx(303.15, abs=1e-6)


def test_a_power_that_no_voltage_gives_is_named_in_its_phase() -> None:
    cell = flat(3.65, 0.05, 50 * AH, lowest=2.0, application="power")
    runs = fly(cell, [MissionPhase("taxi", 5.0, 30), MissionPhase("take-off", 150.0, 30)], Conditions())
    assert (Limit(int(runs.limit[0])), int(runs.phase[0])) == (Limit.POWER, 1)
    assert all(np.isfinite(column).all() for column in runs.computed.values())


def test_a_first_power_that_no_voltage_gives_is_no_answer() -> None:
    refused = fly(flat(3.65, 0.05, 50 * AH, lowest=2.0), [MissionPhase("take-off", 150.0, 30)], Conditions())[
        0
    ]
    assert isinstance(refused, NoAnswer)
    assert refused.reason is Reason.POWER


# --- where the model does not hold


def reason_of(cell: Cell, *phases: MissionPhase, **more: float) -> Reason:
    found = fly(cell, phases, Conditions(**more))[0]
    return found.reason if isinstance(found, NoAnswer) else Reason.NONE


def test_a_burst_above_the_sustained_rate_may_last_240_s() -> None:
    assert reason_of(CHEN_3V0, MissionPhase("climb", 30.0, 240)) is Reason.NONE
    assert reason_of(CHEN_3V0, MissionPhase("climb", 30.0, 245)) is Reason.RATE


def test_no_burst_of_an_energy_cell_is_answered_above_3_and_none_of_a_power_cell_above_5() -> None:
    assert reason_of(CHEN_3V0, MissionPhase("take-off", 60.0, 20)) is Reason.RATE
    assert reason_of(MOHTAT, MissionPhase("take-off", 60.0, 20)) is Reason.NONE
    assert reason_of(MOHTAT, MissionPhase("take-off", 100.0, 20)) is Reason.RATE


def test_a_phase_that_is_not_reached_does_not_count() -> None:
    assert (
        reason_of(CHEN_3V0, MissionPhase("cruise", 10.0, 6000), MissionPhase("climb", 30.0, 500))
        is Reason.NONE
    )


def test_a_cold_flight_is_not_answered() -> None:
    assert reason_of(CHEN_3V0, MissionPhase("cruise", 10.0, 60), temperature=277.0) is Reason.COLD
    assert reason_of(CHEN_3V0, MissionPhase("cruise", 10.0, 60), temperature=340.0) is Reason.TEMPERATURE


def test_a_column_says_itself_what_stands_where_no_answer_is() -> None:
    runs = fly(CHEN_3V0, [MissionPhase("cruise", np.array([10.0, 30.0]), 600)], Conditions())
    assert list(runs.column("time", otherwise=-1.0)) == pytest.approx([600.0, -1.0])
    assert list(runs.answered) == [True, False]
    assert len(runs) == 2


@pytest.mark.parametrize(
    ("phases", "message"),
    [
        (
            [MissionPhase("a", 9.0), MissionPhase("b", 9.0, 10)],
            "the phase 'a' has no duration and is not the last",
        ),
        ([MissionPhase("a", -9.0, 10)], "the power of the phase 'a' is negative or no number"),
        ([MissionPhase("a", 9.0, -10)], "the duration of the phase 'a' is negative or no number"),
        ([MissionPhase("a", 0.0)], "has no duration and no power, and would never end"),
        ([MissionPhase("a", 1e-6)], "the phase 'a' goes on for more than 200 h"),
    ],
)
def test_phases_that_cannot_be_flown_are_refused(phases: list[MissionPhase], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        fly(CHEN_3V0, phases, Conditions(), step=600.0)
    assert message in str(refused.value)


# --- phase by phase


BURSTS = [
    MissionPhase("ground", 2.2, 60.0),
    MissionPhase("climb", 31.0, 200.0),
    MissionPhase("cruise", 11.0, 900.0),
]


def test_the_heat_of_the_phases_adds_up_to_that_of_the_flight() -> None:
    flight = flown(*BURSTS)
    assert sum(one.heat for one in flight.phases) == pytest.approx(flight.heat, rel=1e-12)


def test_the_lowest_voltage_of_the_flight_is_that_of_a_phase() -> None:
    flight = flown(*BURSTS)
    assert min(one.lowest_voltage for one in flight.phases) == pytest.approx(flight.lowest_voltage, rel=1e-12)


def test_a_cell_recovers_after_a_burst_so_its_lowest_voltage_is_not_at_the_end() -> None:
    flight = flown(MissionPhase("climb", 31.0, 200.0), MissionPhase("cruise", 11.0, 300.0))
    cruise = flight.phases[1]
    assert cruise.lowest_voltage < cruise.voltage


def test_the_heat_of_a_steady_phase_by_hand() -> None:
    # a flat cell of 3.7 V and 20 mΩ, all of it at once, at 10 A: 37 W less 2 W at the terminals,
    # 2 W for 100 s
    cell = flat(3.7, 0.020, 20 * AH, lowest=2.5)
    found = answered(fly(cell, [MissionPhase("all", 35.0, 100.0)], Conditions(), slow_part=QUICK)[0])
    assert isinstance(found, Flight)
    assert found.phases[0].heat == pytest.approx(200.0, rel=1e-9)
    assert found.phases[0].lowest_voltage == pytest.approx(3.5, rel=1e-9)


def test_the_heat_of_each_phase_agrees_with_a_solver_in_time() -> None:
    state, flight = [1.0, 0.0, 0.0], flown(*BURSTS)
    for phase, one in zip(BURSTS, flight.phases, strict=True):

        def rates(_t: float, y: np.ndarray, power: float = float(np.asarray(phase.power))) -> list[float]:
            U = float(np.interp(y[0], CHEN_3V0.rest.x, CHEN_3V0.rest.y))
            R = float(np.interp(y[0], CHEN_3V0.resistance.x, CHEN_3V0.resistance.y))
            E = U - y[1]
            V = (E + sqrt(E * E - 4 * power * AT_ONCE * R)) / 2
            current = power / V
            slow = (current * (1 - AT_ONCE) * R - y[1]) / SLOWNESS
            return [-current / CHEN_3V0.capacity, slow, current * (U - V)]

        span = (0.0, float(np.asarray(phase.duration)))
        run = solve_ivp(rates, span, [*state[:2], 0.0], rtol=1e-9, atol=1e-11, max_step=5.0)
        state = [float(value[-1]) for value in run.y]
        assert one.heat == pytest.approx(state[2], rel=1e-3)
