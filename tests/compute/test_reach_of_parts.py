"""Reaches and sizes of a packed trailer. Plain geometry: the checks are hand-made."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.packing import (
    far_end,
    overhang,
    packed_size,
    reach_to_left,
    reach_to_right,
    room_to_limit,
)

LENGTH = st.floats(0.01, 20)
PLACE = st.floats(-10, 10)


def test_a_part_right_of_the_centre_line_reaches_farther_right_than_left() -> None:
    # 0.4 m wide, its middle 0.9 m to the right: from 0.7 m to 1.1 m
    assert reach_to_right(0.9, 0.4) == pytest.approx(1.1)
    assert reach_to_left(0.9, 0.4) == pytest.approx(-0.7)


@given(place=PLACE, width=LENGTH)
def test_both_sides_of_a_part_add_up_to_its_width_wherever_it_lies(place: float, width: float) -> None:
    assert packed_size([reach_to_left(place, width), reach_to_right(place, width)]) == pytest.approx(width)


@given(place=PLACE, width=LENGTH)
def test_what_is_seen_from_behind_in_a_mirror_changes_sides(place: float, width: float) -> None:
    assert reach_to_left(place, width) == reach_to_right(-place, width)


@given(place=PLACE, length=LENGTH)
def test_a_part_is_as_long_as_its_far_end_is_from_its_front(place: float, length: float) -> None:
    assert packed_size([far_end(place, length), overhang(place)]) == pytest.approx(length)


def test_a_size_at_its_limit_leaves_nothing() -> None:
    # 102 in of 23 CFR 658.15(a), to the last digit of its metric value of 2.59 m
    assert room_to_limit(102 * 0.0254, 102 * 0.0254) == 0
    assert room_to_limit(2.60, 102 * 0.0254) == pytest.approx(0.01, abs=0.005)


def test_a_size_beyond_its_limit_leaves_less_than_nothing() -> None:
    assert room_to_limit(2.55, 2.60) == pytest.approx(-0.05)
