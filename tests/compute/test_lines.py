"""Straight lines between points, against numpy's interpolation and trapezoids."""

from __future__ import annotations

from itertools import accumulate

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import lines
from dossier.figures import OutsideRange

TABLES = st.lists(st.tuples(st.floats(0.01, 5), st.floats(-5, 5)), min_size=2, max_size=9).map(
    lambda steps: (list(accumulate(step for step, _ in steps)), [y for _, y in steps])
)
SHARE = st.floats(0, 1)


def inside(x_i: list[float], share: float) -> float:
    return min(max(x_i[0] + share * (x_i[-1] - x_i[0]), x_i[0]), x_i[-1])


@given(TABLES, SHARE)
def test_a_value_is_that_of_numpy(table: tuple[list[float], list[float]], share: float) -> None:
    x = inside(table[0], share)
    assert lines.value_at(x, *table, "x") == pytest.approx(np.interp(x, *table), abs=1e-12)


@given(TABLES)
def test_every_point_of_the_table_is_met_exactly(table: tuple[list[float], list[float]]) -> None:
    assert [lines.value_at(x, *table, "x") for x in table[0]] == table[1]


@given(TABLES)
def test_the_whole_area_is_that_of_numpys_trapezoids(table: tuple[list[float], list[float]]) -> None:
    x_i, y_i = table
    whole = lines.area_between(x_i[0], x_i[-1], x_i, y_i, "x")
    assert whole == pytest.approx(np.trapezoid(y_i, x_i), abs=1e-12)


@given(TABLES, SHARE, SHARE, SHARE)
def test_areas_add_up_and_change_sign_with_their_direction(
    table: tuple[list[float], list[float]], a: float, b: float, c: float
) -> None:
    first, middle, last = (inside(table[0], share) for share in (a, b, c))
    whole = lines.area_between(first, last, *table, "x")
    parts = lines.area_between(first, middle, *table, "x") + lines.area_between(middle, last, *table, "x")
    assert parts == pytest.approx(whole, abs=1e-12)
    assert lines.area_between(last, first, *table, "x") == -whole


def test_an_area_by_hand() -> None:
    # a triangle of height 2 over a base of 2, from a quarter to three quarters of it: 2 - 2 x 0.25
    assert lines.area_between(0.5, 1.5, [0, 1, 2], [0, 2, 0], "x") == pytest.approx(1.5)


@pytest.mark.parametrize("x", [-0.001, 2.001])
def test_a_place_beyond_the_ends_is_refused(x: float) -> None:
    with pytest.raises(OutsideRange, match=r"the height .* is outside the table, which goes from 0 to 2"):
        lines.value_at(x, [0, 1, 2], [0, 2, 0], "height")


def test_an_area_beyond_the_ends_is_refused() -> None:
    with pytest.raises(OutsideRange, match="outside the table"):
        lines.area_between(1, 3, [0, 1, 2], [0, 2, 0], "height")


@pytest.mark.parametrize("x_i", [[0, 2, 1], [0, 1, 1]])
def test_a_column_that_does_not_rise_is_refused_with_its_row(x_i: list[float]) -> None:
    with pytest.raises(OutsideRange, match=rf"height must rise .* row 3 has 1 behind {x_i[1]}"):
        lines.value_at(0.5, x_i, [0, 0, 0], "height")
