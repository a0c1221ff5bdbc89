"""Heat and cooling, an estimate: hand-made cases, borders and laws; worked cases in tests/references."""

from __future__ import annotations

import pytest
from published import number
from references.test_battery_examples import stored

from dossier.compute.cooling import air_mass_flow, heat_of_phases, rise_of_cells
from dossier.figures import OutsideRange


def test_the_heat_of_a_take_off_warms_the_cells_as_worked() -> None:
    given = stored("BAT-HEAT-002").given
    heat = heat_of_phases([number(given["q_w"])], [number(given["t_s"])])
    rise = rise_of_cells(heat, number(given["n_cells"]), number(given["m_kg"]), number(given["cp"]))
    assert rise == pytest.approx(number(stored("BAT-HEAT-002").expect["dT_k"]), rel=0.001)


def test_the_heat_of_two_phases_by_hand() -> None:
    # 500 W for 25 s and 100 W for 2400 s
    assert heat_of_phases([500.0, 100.0], [25.0, 2400.0]) == pytest.approx(252_500.0)


def test_the_rise_by_hand() -> None:
    # 134 Wh, 482.4 kJ, in 224 cells of 70 g and 950 J/(kg K), 14.896 kJ/K
    assert rise_of_cells(482_400.0, 224, 0.070, 950.0) == pytest.approx(32.3845, abs=5e-5)


def test_twice_the_cells_halve_the_rise() -> None:
    assert rise_of_cells(1e5, 448, 0.07, 950) == pytest.approx(rise_of_cells(1e5, 224, 0.07, 950) / 2)


def test_no_heat_needs_no_air() -> None:
    assert air_mass_flow(0.0, 10.0) == 0.0


@pytest.mark.parametrize("wrong", [(-1.0, 1), (1.0, 0)])
def test_a_rise_outside_the_range_is_refused(wrong: tuple[float, float]) -> None:
    heat, cells = wrong
    with pytest.raises(OutsideRange):
        rise_of_cells(heat, cells, 0.07, 950)


def test_a_negative_time_is_refused() -> None:
    with pytest.raises(OutsideRange, match="time"):
        heat_of_phases([1.0], [-1.0])
