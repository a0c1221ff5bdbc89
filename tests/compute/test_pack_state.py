"""A pack as it is: capacity by test or age, energy at the terminals, volume."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, example, number

from dossier.compute import pack, pack_state
from dossier.figures import OutsideRange


def test_the_worked_knock_downs_of_an_energy_give_the_worked_endurance() -> None:
    table = example("packs", "BAT-X01-ENDURANCE")
    usable = pack.usable_energy(number(table.given["E_nom_kwh"]) * 3.6e6, 1 - number(table.given["usable"]))
    delivered = pack_state.delivered_energy(usable, number(table.given["k_rate"]))
    assert delivered / number(table.given["P_kw"]) / 1e3 / 60 == as_printed(table.expect["t_min"])


def test_a_measured_pack_by_hand() -> None:
    # 76 Ah from 16 strings: 4.75 Ah a cell
    assert pack_state.cell_capacity(76 * 3600, 16) / 3600 == pytest.approx(4.75)


def test_an_aged_cell_by_hand() -> None:
    assert pack_state.aged_capacity(5.0 * 3600, 0.9) / 3600 == pytest.approx(4.5)


def test_a_box_by_hand() -> None:
    # 400 mm x 250 mm x 380 mm are 38 litres
    assert pack_state.box_volume(0.400, 0.250, 0.380) == pytest.approx(0.038)


@pytest.mark.parametrize("health", [0.0, 1.1001])
def test_a_health_beyond_its_range_is_refused(health: float) -> None:
    assert pack_state.aged_capacity(1.0, 1.1) == 1.1
    with pytest.raises(OutsideRange, match=r"must be above 0 and at most 1\.1"):
        pack_state.aged_capacity(1.0, health)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: pack_state.cell_capacity(1.0, 0), "number of strings is 0, and must be positive"),
        (lambda: pack_state.delivered_energy(1.0, 1.01), "efficiency is 1.01, and must be above 0"),
        (lambda: pack_state.resistance_growth(4.0, 5.0, 0.49, 1.0), "is 0.49, and goes from 0.5 to 5"),
        (lambda: pack_state.resistance_growth(4.0, 5.0, 5.01, 1.0), "is 5.01, and goes from 0.5 to 5"),
        (lambda: pack_state.resistance_growth(0.0, 5.0, 2.0, 1.0), "capacity of a cell is 0 C"),
        (lambda: pack_state.resistance_growth(4.0, 0.0, 2.0, 1.0), "nominal capacity is 0 C"),
        (lambda: pack_state.resistance_growth(4.0, 5.0, 2.0, 0.0), "growth of resistance is 0,"),
        (lambda: pack_state.box_volume(0.0, 1.0, 1.0), "length is 0 m, and must be positive"),
        (lambda: pack_state.box_volume(1.0, -1.0, 1.0), "width is -1 m, and must be positive"),
        (lambda: pack_state.box_volume(1.0, 1.0, 0.0), "height is 0 m, and must be positive"),
    ],
)
def test_each_border_of_validity_is_named(call: Any, message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)


def test_the_resistance_of_an_aged_cell_by_hand() -> None:
    # a tenth lost, three times as much of the resistance gained: 1.3 times
    assert pack_state.resistance_growth(4.5 * 3600, 5 * 3600, 3.0, 1.0) == pytest.approx(1.3)


def test_at_the_usual_end_of_life_the_upper_end_of_the_range_is_twice_the_resistance() -> None:
    end = example("cells", "CELL-END-OF-LIFE").expect
    grown = pack_state.resistance_growth(number(end["health"]), 1.0, pack_state.GROWTH_PER_LOSS[1], 1.0)
    assert grown == as_printed(end["resistance"])


def test_a_cell_that_holds_its_nominal_capacity_counts_as_new() -> None:
    assert pack_state.resistance_growth(5.1, 5.0, 5.0, 1.0) == 1.0


@given(st.floats(0.5, 1.1), st.floats(0.5, 1.1), st.floats(0.5, 5.0), st.floats(1.0, 3.0))
def test_a_resistance_never_falls_below_what_was_measured_and_grows_with_the_loss(
    one: float, other: float, per_loss: float, before: float
) -> None:
    low, high = sorted((one, other))
    aged, newer = (pack_state.resistance_growth(each, 1.0, per_loss, before) for each in (low, high))
    assert aged >= newer >= before


@given(st.floats(1e3, 1e6), st.integers(1, 60))
def test_the_cells_in_parallel_make_the_measured_capacity_again(charge: float, strings: int) -> None:
    assert pack.pack_capacity(strings, pack_state.cell_capacity(charge, strings)) == pytest.approx(charge)


@given(st.floats(1e3, 1e6), st.floats(0.1, 1.1), st.floats(0.5, 2))
def test_aged_capacity_scales_with_the_nominal_one(charge: float, health: float, by: float) -> None:
    once = pack_state.aged_capacity(charge, health)
    assert pack_state.aged_capacity(by * charge, health) == pytest.approx(by * once)


@given(st.floats(0, 1e8), st.floats(0.1, 1))
def test_no_more_is_delivered_than_the_cells_release(energy: float, efficiency: float) -> None:
    assert pack_state.delivered_energy(energy, efficiency) <= energy


@given(st.floats(0.05, 1), st.floats(0.05, 1), st.floats(0.05, 1))
def test_a_turned_box_has_the_same_volume(x: float, y: float, z: float) -> None:
    assert pack_state.box_volume(x, y, z) == pytest.approx(pack_state.box_volume(z, x, y))
