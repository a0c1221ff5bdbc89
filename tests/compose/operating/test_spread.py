"""Marks on the drawing from above: none covers another, and each stays near its place."""

from __future__ import annotations

from itertools import combinations
from math import hypot

import pytest
from demonstration import SERIALS, demonstration

from dossier.compose.operating.lists import lists
from dossier.compose.operating.plan_view import WIDTH, plan
from dossier.compose.operating.spread import RADIUS, spread


@pytest.mark.parametrize("serial", SERIALS)
def test_no_two_circles_of_a_plan_touch(serial):
    drawn = [plan(demonstration(*serial), one) for one in lists(demonstration(*serial))]
    plans = [one for one in drawn if one]
    assert plans
    for one in plans:
        middles = [(float(place.x), float(place.y)) for place in one.places]
        for (x, y), (other_x, other_y) in combinations(middles, 2):
            assert hypot(other_x - x, other_y - y) > 2 * RADIUS + 2  # the line round a circle is 2 wide


def test_marks_that_are_apart_stay_where_they_are():
    marks = [(100.0, 100.0), (200.0, 100.0), (100.0, 140.0)]
    assert spread(marks, WIDTH, 300) == marks


def test_marks_on_one_point_part_and_stay_inside():
    made = spread([(20.0, 20.0)] * 4, WIDTH, 300)
    assert all(hypot(x - a, y - b) > 2 * RADIUS for (x, y), (a, b) in combinations(made, 2))
    assert all(RADIUS < x < WIDTH - RADIUS and RADIUS < y < 300 - RADIUS for x, y in made)


def test_the_same_marks_part_the_same_way():
    marks = [(50.0, 50.0), (55.0, 50.0), (50.0, 58.0)]
    assert spread(marks, WIDTH, 300) == spread(marks, WIDTH, 300)
