"""From pack to cell and back, and partly filled boxes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import pack, pack_share
from dossier.figures import OutsideRange

COUNT = st.integers(1, 60)


def test_the_power_of_a_cell_by_hand() -> None:
    # 18 kW over 28 x 16 cells
    assert pack_share.cell_power(18e3, 28, 16) == pytest.approx(40.18, abs=0.005)


def test_three_quarters_of_16_strings_are_12() -> None:
    assert pack_share.strings_fitted(16, 0.75) == 12


def test_half_of_a_box_with_an_odd_number_of_strings_is_refused() -> None:
    with pytest.raises(OutsideRange, match=r"0\.5 of 15 strings are 7\.5, and only whole strings"):
        pack_share.strings_fitted(15, 0.5)


@pytest.mark.parametrize("part", [0.0, 1.1, -0.5])
def test_a_part_of_the_strings_is_above_0_and_at_most_1(part: float) -> None:
    with pytest.raises(OutsideRange, match="must be above 0 and at most 1"):
        pack_share.strings_fitted(16, part)


@given(COUNT, COUNT, st.floats(0, 0.5), st.floats(1, 300))
def test_the_wiring_loses_the_same_at_the_cells_as_at_the_pack(
    series: int, strings: int, wiring: float, amperes: float
) -> None:
    at_cell = pack_share.wiring_at_cell(wiring, series, strings)
    per_cell = (amperes / strings) ** 2 * at_cell
    assert per_cell * series * strings == pytest.approx(amperes**2 * wiring)


@given(COUNT, COUNT, st.floats(1e-3, 0.1), st.floats(0, 0.5))
def test_the_resistance_of_a_pack_counts_its_wiring_once(
    series: int, strings: int, cell: float, wiring: float
) -> None:
    shape = pack_share.PackShape(series, strings, wiring)
    whole = pack.pack_resistance(series, strings, cell + shape.wiring_at_cell)
    assert whole == pytest.approx(pack.pack_resistance(series, strings, cell) + wiring)


@given(COUNT, COUNT, st.floats(1, 1e5))
def test_all_cells_together_give_the_power_of_the_pack(series: int, strings: int, power: float) -> None:
    shape = pack_share.PackShape(series, strings)
    assert pack_share.cell_power(power, series, strings) * shape.cells == pytest.approx(power)
