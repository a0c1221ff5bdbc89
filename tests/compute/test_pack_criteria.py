"""What a battery still has: hand-made cases, borders and a law of each formula. No published case:
definitions."""

from __future__ import annotations

import pytest

from dossier.compute.pack_criteria import apart, capacity_of_nominal, energy_of_nameplate, growth_by_step
from dossier.figures import OutsideRange


def test_the_capacity_of_a_pack_by_hand() -> None:
    # 63.9 Ah of 16 strings of 4.8 Ah, 76.8 Ah
    assert capacity_of_nominal(63.9 * 3600, 16, 4.8 * 3600) == pytest.approx(0.83203, abs=5e-6)


def test_a_new_battery_has_all_of_its_capacity() -> None:
    assert capacity_of_nominal(76.8, 16, 4.8) == pytest.approx(1.0)


def test_the_energy_of_a_test_by_hand() -> None:
    # 3.2 kWh of 14 x 16 cells of 3.6 V and 4.8 Ah, 3.870720 kWh
    assert energy_of_nameplate(3.2e3, N_s=14, N_p=16, U_nom=3.6, Q_nom=4.8) == pytest.approx(
        0.826720, abs=5e-7
    )


def test_the_growth_of_a_resistance_by_hand() -> None:
    # 25 mΩ by the step, 20 mΩ by the table, 5 mΩ of it wiring: 20 over 15
    assert growth_by_step(25.0, 20.0, 5.0) == pytest.approx(4 / 3)


def test_without_wiring_the_growth_is_the_ratio() -> None:
    assert growth_by_step(30.0, 20.0, 0.0) == pytest.approx(1.5)


def test_the_spread_is_the_highest_less_the_lowest() -> None:
    assert apart(4.209, 4.169) == pytest.approx(0.040)


def test_twice_the_strings_halve_the_share() -> None:
    assert capacity_of_nominal(50.0, 8, 5.0) == pytest.approx(2 * capacity_of_nominal(50.0, 16, 5.0))


@pytest.mark.parametrize("wrong", [(-1.0, 16, 4.8), (76.8, 0, 4.8), (76.8, 16, 0.0)])
def test_a_capacity_outside_the_range_is_refused(wrong: tuple[float, float, float]) -> None:
    with pytest.raises(OutsideRange):
        capacity_of_nominal(*wrong)


def test_a_negative_energy_is_refused() -> None:
    with pytest.raises(OutsideRange):
        energy_of_nameplate(-1.0, N_s=14, N_p=16, U_nom=3.6, Q_nom=4.8)


def test_a_step_below_the_wiring_is_refused() -> None:
    with pytest.raises(OutsideRange, match="by the step"):
        growth_by_step(4.0, 20.0, 5.0)
