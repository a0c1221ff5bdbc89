"""Charging: arithmetic, and the circuit with its taper against a solver in time."""

from __future__ import annotations

from dataclasses import replace
from math import log, sqrt

import numpy as np
import pytest
from battery_cells import CHEN, flat, without_resistance
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from dossier.compute.charging import Charge, charge, charging_rate, socket_energy
from dossier.compute.curve import curve
from dossier.compute.open_circuit import cell_energy_between_charges
from dossier.figures import OutsideRange

USUAL = Charge(power=6.0, voltage=4.15, last_current=0.25, start=0.2)


def test_the_energy_from_the_socket_by_hand() -> None:
    assert socket_energy(6.56, 0.92) == pytest.approx(7.1304, abs=5e-5)


def test_the_charging_rate_by_hand() -> None:
    # 3 kW at 92 % into 8.2 kWh
    assert charging_rate(3000, 0.92, 8.2 * 3.6e6) == pytest.approx(0.3366, abs=5e-5)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: socket_energy(-1.0, 0.9), "the energy to refill is -1 J"),
        (lambda: socket_energy(1.0, 1.1), "the efficiency is 1.1"),
        (lambda: charging_rate(1.0, 0.9, 0.0), "the nameplate energy is 0 J"),
        (lambda: charge(CHEN, replace(USUAL, power=0.0)), "the charging power is 0 W"),
        (lambda: charge(CHEN, replace(USUAL, start=1.0)), "must start below full"),
        (lambda: charge(CHEN, replace(USUAL, last_current=5.0)), "would stop before it starts to taper"),
        (lambda: charge(CHEN, replace(USUAL, start=0.98)), "or the cell too full"),
        (
            lambda: charge(CHEN, replace(USUAL, last_current=0.0)),
            "the current at which the charger stops is 0 A",
        ),
    ],
)
def test_each_border_of_validity_is_named(call: object, message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()  # type: ignore[operator]
    assert message in str(refused.value)


def by_solver(how: Charge) -> tuple[float, float]:
    """Charge in time: at each moment the smaller of the current of the power and that of the voltage."""

    def current(z: float) -> float:
        U, R = np.interp(z, CHEN.rest.x, CHEN.rest.y), np.interp(z, CHEN.resistance.x, CHEN.resistance.y)
        return float(min(how.power / ((U + sqrt(U * U + 4 * how.power * R)) / 2), (how.voltage - U) / R))

    def stops(_t: float, z: np.ndarray) -> float:
        return current(z[0]) - how.last_current

    stops.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(
        lambda _t, z: [current(z[0]) / CHEN.capacity],
        (0, 1e6),
        [how.start],
        rtol=1e-9,
        atol=1e-11,
        events=stops,
        max_step=20,
    )
    return float(run.t_events[0][0]), float(run.y_events[0][0][0])


@pytest.mark.parametrize("how", [USUAL, replace(USUAL, power=12.0), replace(USUAL, start=0.9, power=15.0)])
def test_the_circuit_and_a_solver_in_time_agree(how: Charge) -> None:
    made = charge(CHEN, how)
    time, end = by_solver(how)
    assert made.bulk_time + made.taper_time == pytest.approx(time, rel=1e-5)
    assert made.end == pytest.approx(end, abs=1e-6)


def test_a_taper_into_a_straight_cell_has_the_closed_form() -> None:
    # U = 3 + z, R = 0.1, kept at 3.9 V: z runs to 0.9 with the time constant Q R, so t = Q R ln(I_knee /
    # I_last)
    cell = replace(
        flat(4.0, 0.1, 1000.0, lowest=2.5),
        rest=curve([0, 1], [3.0, 4.0]),
        resistance=curve([0, 1], [0.1, 0.1]),
    )
    made = charge(cell, Charge(power=3.9, voltage=3.9, last_current=0.05, start=0.1))
    # the knee: 1 A at 3.9 V, so U = 3.8 V
    assert made.taper_time == pytest.approx(1000.0 * 0.1 * log(1.0 / 0.05), rel=1e-6)


@given(st.floats(2, 15), st.floats(0.05, 0.5))
def test_what_goes_in_is_stored_or_lost(power: float, start: float) -> None:
    made = charge(CHEN, Charge(power, 4.15, 0.2, start))
    z, U, _ = CHEN.nodes()
    stored = cell_energy_between_charges(CHEN.capacity, made.end, start, z_i=list(z), U_i=list(U))
    assert made.energy - made.heat == pytest.approx(stored, rel=1e-9)


@given(st.floats(2, 15), st.floats(2, 15))
def test_more_power_charges_no_slower(one: float, other: float) -> None:
    slow, fast = (charge(CHEN, replace(USUAL, power=power)) for power in sorted((one, other)))
    assert fast.bulk_time + fast.taper_time <= (slow.bulk_time + slow.taper_time) * (1 + 1e-9)


def test_an_almost_empty_resistance_charges_almost_without_taper() -> None:
    little = replace(without_resistance(CHEN), resistance=curve([0, 1], [1e-6, 1e-6]))
    made = charge(little, USUAL)
    assert made.taper_time < 1.0
    assert made.end == pytest.approx(curve(list(CHEN.rest.y), list(CHEN.rest.x)).at(4.15, ""), abs=1e-4)


def test_a_charge_that_starts_beyond_the_knee_only_tapers() -> None:
    made = charge(CHEN, replace(USUAL, start=0.93, power=15.0))
    assert made.bulk_time == 0.0
    assert made.highest_current < 15.0 / 4.15
