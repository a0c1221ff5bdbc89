"""The state of charge that a power needs: by hand, against the stepped flight, by its borders and laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.cell import Cell, CellLimits
from dossier.compute.charge_left import charge_kept
from dossier.compute.curve import Curve
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase, SlowPart
from dossier.compute.power_floor import charge_for_power, charge_kept_for_power, power_floors
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange

Z, U, R = (0.0, 1.0), (3.0, 4.0), (0.050, 0.030)
"""An invented cell: straight lines."""
WARM = 298.15


def least(
    power: float, *, current: float = 1e6, volt: float = 2.5, growth: float = 1.0, cold: float = WARM
) -> float:
    return charge_for_power(power, volt, current, T_b=cold, G=growth, R_x=0.0, b=3000.0, z_i=Z, U_i=U, R_i=R)


def test_the_border_by_hand_where_the_voltage_binds() -> None:
    # 40 W at 2.5 V are 16 A; 3 + z - 16 (0.050 - 0.020 z) = 2.5 at z = 0.3 / 1.32
    assert least(40.0) == pytest.approx(0.3 / 1.32)


def test_the_border_by_hand_where_the_current_binds() -> None:
    # 40 W at 12 A are 3.3333 V; 3 + z - 12 (0.050 - 0.020 z) = 3.3333 at z = 0.93333 / 1.24
    assert least(40.0, current=12.0) == pytest.approx((0.6 + 1 / 3) / 1.24)


def test_a_power_that_even_an_empty_cell_gives_needs_nothing() -> None:
    assert least(10.0) == 0.0


def test_at_the_border_the_cell_gives_the_power_and_below_it_does_not() -> None:
    cell = Cell(Curve(Z, U), Curve(Z, R), 3600.0, 3.5, 3600.0, CellLimits(2.5), "power")
    border = least(40.0)
    for start, gives in ((border + 1e-4, True), (border - 1e-4, False)):
        _, given_ = power_floors(cell, scenarios([40.0], start=[start]))
        assert bool(given_[0]) is gives


def test_a_stepped_flight_ends_where_the_power_is_no_longer_given() -> None:
    # with no slow part both ask the whole resistance
    cell = Cell(Curve(Z, U), Curve(Z, R), 36000.0, 3.5, 36000.0, CellLimits(2.5), "power")
    flown = fly(cell, [MissionPhase("one", 40.0)], Conditions(start=1.0), slow_part=SlowPart(1.0))
    assert float(flown.computed["end_charge"][0]) == pytest.approx(least(40.0), abs=1e-4)


def test_a_full_cell_that_does_not_give_the_power_is_refused_in_words() -> None:
    with pytest.raises(OutsideRange, match=r"a full cell at -20 °C does not give 40 W within 2\.5 V"):
        least(40.0, cold=253.15, growth=3.0)


@given(st.floats(5, 45), st.floats(1, 1.4), st.floats(0, 15))
def test_more_power_age_or_cold_never_needs_less_charge(power: float, growth: float, colder: float) -> None:
    base = least(power)
    assert least(power * 1.05) >= base
    assert least(power, growth=growth) >= base
    assert least(power, cold=WARM - colder) >= base


def kept(by_energy: float, needs: list[float], energies: list[float]) -> float:
    return charge_kept_for_power(by_energy, needs, energies, eta_b=1.0, N=1.0, Q_cell=3600.0, z_i=Z, U_i=U)


def test_powers_that_need_no_charge_change_nothing() -> None:
    by_energy = charge_kept(3.1, 0.0, 1.0, [1000.0], eta_b=1.0, N=1.0, Q_cell=3600.0, z_i=Z, U_i=U)
    assert kept(by_energy, [0.0], [1000.0]) == by_energy


def test_a_go_around_begins_its_own_energy_above_where_its_power_ends() -> None:
    # from z = 0.3 the area 0.1 (3.3 + 3.4) / 2 = 0.335 V times 3600 C leads to 0.4
    assert kept(0.2, [0.3], [0.335 * 3600]) == pytest.approx(0.4)


def test_of_two_later_phases_the_more_demanding_decides() -> None:
    second = kept(0.0, [0.0, 0.3], [600.0, 400.0])
    assert second == pytest.approx(kept(0.0, [0.3], [1000.0]))
    assert kept(0.0, [0.5, 0.3], [600.0, 400.0]) == pytest.approx(kept(0.0, [0.5], [600.0]))


def test_more_kept_than_there_is_is_refused() -> None:
    with pytest.raises(OutsideRange, match="more is kept than the battery holds when full"):
        kept(0.0, [0.9], [3600.0])


def test_many_scenarios_at_once_are_as_one_by_one() -> None:
    cell = Cell(Curve(Z, U), Curve(Z, R), 3600.0, 3.5, 3600.0, CellLimits(2.5, 14.0), "power")
    powers = np.linspace(5, 45, 9)
    many, _ = power_floors(cell, scenarios(powers))
    assert many == pytest.approx([least(float(one), current=14.0) for one in powers])
