"""What a phase of constant power takes from a cell, against scipy's solver and against exact limits."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from battery_cells import CHEN
from scipy.integrate import solve_ivp

from dossier.compute.charge_taken import charge_after_power
from dossier.compute.open_circuit import cell_energy_between_charges
from dossier.figures import OutsideRange

z, U, R = CHEN.nodes()
TABLE: dict[str, Any] = {"z_i": list(z), "U_i": list(U), "R_i": list(R)}
WARM: dict[str, Any] = {"T_b": 298.15, "Q_cell": CHEN.capacity, "G": 1.2, "R_x": 0.002, "b": 3000.0}


@pytest.mark.parametrize(
    ("power", "time", "start"), [(18.0, 240.0, 1.0), (40.0, 60.0, 0.6), (5.0, 3000.0, 0.9)]
)
def test_the_charge_left_is_that_of_a_solver_of_differential_equations(
    power: float, time: float, start: float
) -> None:
    def fall(_t: float, charge: Any) -> list[float]:
        rest, ohm = float(np.interp(charge[0], z, U)), float(np.interp(charge[0], z, R)) * 1.2 + 0.002
        current = (rest - (rest**2 - 4 * power * ohm) ** 0.5) / (2 * ohm)
        return [-current / CHEN.capacity]

    solved = solve_ivp(fall, (0.0, time), [start], rtol=1e-11, atol=1e-12, max_step=time / 500)
    found = charge_after_power(power, time, start, **WARM, **TABLE)
    assert found == pytest.approx(float(solved.y[0][-1]), abs=1e-7)


def test_without_resistance_the_energy_taken_is_the_area_below_the_rest_voltage() -> None:
    free = TABLE | {"R_i": [0.0] * len(z)}
    left = charge_after_power(18.0, 600.0, 0.9, **WARM | {"R_x": 0.0}, **free)
    area = cell_energy_between_charges(CHEN.capacity, 0.9, left, z_i=list(z), U_i=list(U))
    assert area == pytest.approx(18.0 * 600.0, rel=1e-7)


@pytest.mark.parametrize(("power", "time"), [(0.0, 600.0), (18.0, 0.0)])
def test_no_power_or_no_time_takes_nothing(power: float, time: float) -> None:
    assert charge_after_power(power, time, 0.7, **WARM, **TABLE) == 0.7


def test_a_resistance_takes_more_than_none() -> None:
    without = charge_after_power(18.0, 240.0, 1.0, **WARM | {"G": 1.0, "R_x": 0.0}, **TABLE)
    assert charge_after_power(18.0, 240.0, 1.0, **WARM, **TABLE) < without


def test_more_charge_than_there_is_is_refused() -> None:
    with pytest.raises(OutsideRange, match="more charge than the battery holds"):
        charge_after_power(18.0, 3600.0, 0.3, **WARM, **TABLE)


def test_a_power_that_no_voltage_gives_is_refused() -> None:
    with pytest.raises(OutsideRange, match="a cell cannot give 150 W"):
        charge_after_power(150.0, 10.0, 0.5, **WARM, **TABLE)
