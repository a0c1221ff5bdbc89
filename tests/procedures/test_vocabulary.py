"""What the checks on words read out of a text: sides, numbers, threads."""

from __future__ import annotations

import pytest

from dossier.procedures.rules.vocabulary import SIDES, counted_in, numbers_in, tokens
from dossier.procedures.torque_table import Nut, names_table, nut_of

BOTH = {side for pair in SIDES for side in pair}


@pytest.mark.parametrize(("text", "sides"), [
    ("Push the left main pin in.", {"left"}),
    ("Move the stick fully left.", set()),
    ("Push the left pedal fully forward.", set()),
    ("Turn the key to the right.", set()),
    ("Count what is left on the cloth.", set()),
    ("Press the stick left and right while Ben holds the left aileron.", {"left"}),
    ("Hold the right tip with the left hand.", {"right"}),
    ("Pull both panels, left and right.", set()),
    ("Fit the upper strut ring.", {"upper"}),
])  # fmt: skip
def test_a_side_of_the_aircraft_is_told_from_a_way_and_from_a_rest(text: str, sides: set[str]) -> None:
    assert tokens(text) & BOTH == sides


@pytest.mark.parametrize(("text", "numbers"), [
    ("Ten pieces and 6 tools.", [10, 6]),
    ("Two latch rings, one plug ring.", [2, 1]),
    ("Less than 12 kt at 2 m height.", []),
    ("Battens 7 to 9.", [7, 9]),
    ("A 1/4-28 bolt, torqued to 35 in-lb.", []),
    ("Nothing.", []),
])  # fmt: skip
def test_numbers_that_count_are_told_from_measured_values(text: str, numbers: list[int]) -> None:
    assert numbers_in(text) == numbers


def test_what_a_number_counts_ends_at_the_next_number_or_comma() -> None:
    assert counted_in("Two safety pins, one castle nut and three seals.") == [
        (2, frozenset({"safety", "pin"})),
        (1, frozenset({"castle", "nut"})),
        (3, frozenset({"seal"})),
    ]


@pytest.mark.parametrize(("text", "nut"), [
    ("1/4-28 bolt with a shear castle nut, dry", Nut("1/4-28", "shear")),
    ("10-32 screw; AC 43.13-1B, table 7-1, tension nut, paragraph 7-40", Nut("10-32", "tension")),
    ("9/16-18 bolt, tension", Nut("9/16-18", "tension")),
    ("M6 bolt, class 8.8", Nut("M6", "")),
    ("a bolt; AC 43.13-1B, table 7-1", Nut("", "")),
    ("1/4-28 in tension or shear", Nut("1/4-28", "")),
])  # fmt: skip
def test_thread_and_nut_are_read_out_of_words(text: str, nut: Nut) -> None:
    assert nut_of(text) == nut


@pytest.mark.parametrize(("source", "names"), [
    ("AC 43.13-1B, table 7-1", True), ("AC 43.13-1B table 7-1, 100 to 140 in-lb", True),
    ("drawing 7-1", False), ("AC 43.13-1B, table 7-2", False),
])  # fmt: skip
def test_the_table_is_known_by_its_name(source: str, names: bool) -> None:
    assert names_table(source) is names
