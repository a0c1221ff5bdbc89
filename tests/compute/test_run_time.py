"""The run time as a formula: the same as the discharge, with the doubt of its inputs, refused by name."""

from __future__ import annotations

from typing import Any

import pytest
from battery_cells import CHEN, MOHTAT, limited
from uncertainties import ufloat

from dossier.compute.cell import Cell
from dossier.compute.discharge import discharge
from dossier.compute.run_time import time_at_power
from dossier.compute.scenarios import scenarios
from dossier.figures import Input, OutsideRange, evaluate


def inputs(cell: Cell, power: float, **more: float) -> dict[str, Any]:
    z, U, R = (list(column) for column in cell.nodes())
    return {
        "P_cell": power, "z_1": 1.0, "z_2": 0.0, "T_b": 298.15, "U_min": 3.0,
        "Q_cell": cell.capacity, "G": 1.0, "R_x": 0.0, "b": 3000.0,
        "E_nom": cell.nominal_energy, "C_lim": cell.rates.sustained, "z_i": z, "U_i": U, "R_i": R,
    } | more  # fmt: skip


@pytest.mark.parametrize(("cell", "power"), [(CHEN, 9.0), (MOHTAT, 40.0)])
def test_the_formula_is_the_discharge(cell: Cell, power: float) -> None:
    run = discharge(limited(cell, 3.0), scenarios([power])).computed["time"][0]
    assert time_at_power(**inputs(cell, power)) == run


def test_wiring_age_and_cold_count() -> None:
    cases = scenarios([9.0], growth=1.3, wiring=0.004, temperature=285.0)
    run = discharge(limited(CHEN, 3.0), cases).computed["time"][0]
    assert time_at_power(**inputs(CHEN, 9.0, G=1.3, R_x=0.004, T_b=285.0)) == run


def test_the_charge_that_is_kept_ends_the_run() -> None:
    run = discharge(limited(CHEN, 3.0), scenarios([9.0], floor=0.4)).computed["time"][0]
    assert time_at_power(**inputs(CHEN, 9.0, z_2=0.4)) == run


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"P_cell": 36.0}, "36 W a cell are a nominal rate of 2 per hour"),
        ({"T_b": 275.0}, "only a band can be given"),
        ({"C_lim": 2.0}, "to a nominal rate of 1 or 3, not 2"),
        ({"U_min": 2.0}, "half of the highest rest voltage"),
        ({"G": 0.0}, "the growth of resistance is 0"),
    ],
)
def test_each_border_of_validity_is_named(change: dict[str, float], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        time_at_power(**inputs(CHEN, 9.0) | change)
    assert message in str(refused.value)


def test_a_percent_of_capacity_is_a_percent_of_time() -> None:
    given: dict[str, Any] = {}
    for key, value in inputs(CHEN, 9.0).items():
        one = ufloat(value, 0.01 * value) if key == "Q_cell" else value
        given[key] = (
            [Input(key, "number", x, "") for x in value]
            if isinstance(value, list)
            else Input(key, "number", one, "")
        )
    figure = evaluate(time_at_power, "time", "Time", "time", given)
    assert figure.standard_uncertainty == pytest.approx(0.01 * figure.value, rel=1e-6)
