"""Resistance from a discharge curve, and with temperature and age."""

from __future__ import annotations

import numpy as np
import pytest
from battery_cells import CHEN
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.cell_resistance import (
    resistance_at,
    resistance_curve,
    resistance_factor,
    resistance_from_discharge,
)
from dossier.compute.curve import curve
from dossier.figures import OutsideRange


def test_a_resistance_by_hand() -> None:
    # 3.75 V at rest, 3.50 V at 5 A: 50 milliohm
    assert resistance_from_discharge(3.75, 3.50, 5.0) == pytest.approx(0.050)


@pytest.mark.parametrize(("voltage", "current"), [(3.8, 5.0), (3.75, 5.0), (3.5, 0.0), (3.5, -5.0)])
def test_a_curve_above_the_rest_voltage_or_without_current_has_no_resistance(
    voltage: float, current: float
) -> None:
    with pytest.raises(OutsideRange, match="must be positive"):
        resistance_from_discharge(3.75, voltage, current)


def test_a_makers_curve_gives_back_the_resistance_that_made_it() -> None:
    current, capacity = 5.0, CHEN.capacity
    taken = [part * capacity for part in np.linspace(0.02, 0.9, 23)]
    volts = [
        CHEN.rest.at(1 - charge / capacity, "") - current * CHEN.resistance.at(1 - charge / capacity, "")
        for charge in taken
    ]
    found = resistance_curve(CHEN.rest, curve(taken, volts), current=current, capacity=capacity)
    for charge in taken:
        z = 1 - charge / capacity
        assert found.at(z, "") == pytest.approx(CHEN.resistance.at(z, ""), rel=1e-9)


def test_beyond_a_makers_curve_its_nearest_resistance_is_held() -> None:
    rest = curve([0, 1], [3.0, 4.0])
    found = resistance_curve(rest, curve([100, 900], [3.7, 2.9]), current=2.0, capacity=1000.0)
    # at 90 %: (3.9 - 3.7)/2 = 0.10; at 10 %: (3.1 - 2.9)/2 = 0.10
    assert (found.x[0], found.x[-1]) == (0.0, 1.0)
    assert found.y == pytest.approx([0.1] * 4)


def test_a_curve_that_takes_more_than_the_capacity_is_refused() -> None:
    with pytest.raises(OutsideRange, match="takes 1100 C from a cell of 1000 C"):
        resistance_curve(
            curve([0, 1], [3.0, 4.0]), curve([0, 1100], [3.9, 2.9]), current=1.0, capacity=1000.0
        )


def test_at_25_degrees_and_new_the_resistance_is_that_of_the_table() -> None:
    assert resistance_at(0.05, 3000, 298.15, 1.0) == 0.05


def test_the_cold_by_hand() -> None:
    # exp(3000 (1/273.15 - 1/298.15)) = exp(0.92093) = 2.5116
    assert resistance_at(1.0, 3000, 273.15, 1.0) == pytest.approx(2.5116, abs=5e-5)


@pytest.mark.parametrize("temperature", [253.1, 333.2])
def test_the_law_ends_at_minus_20_and_60_degrees(temperature: float) -> None:
    with pytest.raises(OutsideRange, match="holds from -20 to 60 °C"):
        resistance_at(0.05, 3000, temperature, 1.0)


@given(st.floats(254, 332), st.floats(254, 332), st.floats(1, 3))
def test_the_colder_the_larger_and_age_multiplies(one: float, other: float, growth: float) -> None:
    cold, warm = sorted((one, other))
    assert resistance_at(0.05, 3000, cold, growth) >= resistance_at(0.05, 3000, warm, growth)
    assert resistance_at(0.05, 3000, cold, growth) == pytest.approx(
        growth * resistance_at(0.05, 3000, cold, 1.0)
    )


@given(st.floats(254, 332), st.floats(1, 3), st.floats(2500, 5000))
def test_many_scenarios_and_one_agree(temperature: float, growth: float, constant: float) -> None:
    many = resistance_factor(np.array([constant]), np.array([temperature]), np.array([growth]))
    assert many[0] == pytest.approx(resistance_at(1.0, constant, temperature, growth), rel=1e-13)
