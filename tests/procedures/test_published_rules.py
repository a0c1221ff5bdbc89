"""Torque table and team lifting against what is published; the numbers stand in
``tests/references/rigging_rules.yaml``."""

from __future__ import annotations

import pytest
from published import as_printed, number, read

from dossier.procedures.rules.lifting import team_limit
from dossier.procedures.torque_table import INCH_POUND, TABLE

RULES = read("rigging_rules")


@pytest.mark.parametrize("thread", RULES["torques"])
def test_a_row_of_the_torque_table_is_as_printed(thread: str) -> None:
    row, printed = TABLE[thread], RULES["torques"][thread]
    assert row.tension == tuple(map(number, printed["tension"]))
    assert row.shear == tuple(map(number, printed["shear"]))
    assert [row.largest_tension, row.largest_shear] == [number(one) for one in printed["largest"]]


@pytest.mark.parametrize("thread", RULES["torques"])
def test_a_range_in_newton_metres_is_as_printed(thread: str) -> None:
    row = TABLE[thread]
    printed = RULES["torques"][thread]["newton_metres"]
    assert [*row.range_of("tension"), *row.range_of("shear")] == [as_printed(one) for one in printed]


def test_an_inch_pound_is_as_defined() -> None:
    assert number(RULES["inch_pound"]["inch_pounds"]) * INCH_POUND == as_printed(
        RULES["inch_pound"]["newton_metres"]
    )


@pytest.mark.parametrize("thread", ["10-32", "1/4-28", "5/16-24", "3/8-24", "7/16-20", "1/2-20"])
def test_shear_is_about_three_fifths_of_tension_in_each_row_of_the_fine_series(thread: str) -> None:
    low, high = number(RULES["shear_to_tension"]["lowest"]), number(RULES["shear_to_tension"]["highest"])
    row = TABLE[thread]
    for shear, tension in zip(
        (*row.shear, row.largest_shear), (*row.tension, row.largest_tension), strict=True
    ):
        assert low - 0.005 <= shear / tension <= high + 0.005


@pytest.mark.parametrize(
    "case", RULES["team_lifts"], ids=lambda case: f"{case['people']} people of {case['one_person']} kg"
)
def test_a_team_may_lift_as_much_as_published(case: dict[str, str]) -> None:
    assert team_limit(number(case["one_person"]), int(case["people"])) == as_printed(case["limit"])


def test_more_than_four_people_cannot_share_a_load() -> None:
    assert team_limit(25.0, 5) is None
