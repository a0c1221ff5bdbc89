"""Where a limit was read, when it is in force, and what the builder declares."""

from __future__ import annotations

from typing import Any

import pytest
from invented import serial, verdict

from dossier.judge.verdict import State

US, EU, DE = "us-14-cfr-103", "eu-2018-1139-annex-i", "de-120-kg"


def test_a_limit_from_memory_shows_nothing(judged: Any) -> None:
    states = {one.verdict for one in judged("fai-microlight").verdicts}
    assert states == {State.NOT_SHOWN, State.NOT_APPLICABLE}


def test_the_recalled_limit_of_a_sailplane_shows_nothing(judged: Any) -> None:
    assert verdict(judged(EU, category="sailplane"), "mass-one-seat-sailplane").verdict is State.NOT_SHOWN


def test_a_limit_that_has_ended_is_not_applicable(judged: Any) -> None:
    ended = verdict(judged(DE), "ltf-l-mass")
    assert (ended.verdict, ended.reason) == (State.NOT_APPLICABLE, "It was in force until 2015-12-31.")


def test_a_limit_that_has_ended_applies_to_its_time(judged: Any) -> None:
    assert verdict(judged(DE, serial(as_of="2015-12-31")), "ltf-l-mass").verdict is State.CONFORMS


def test_a_rule_set_is_not_applicable_before_it_is_in_force(judged: Any) -> None:
    early = verdict(judged(EU, serial(as_of="2018-07-03")), "mass-one-seat")
    assert (early.verdict, early.reason) == (State.NOT_APPLICABLE, "It is in force from 2018-07-04.")


def test_a_date_of_registration_decides_on_the_wing_loading(judged: Any) -> None:
    found = [
        verdict(judged("au-cao-95-10", first_registered=day), "wing-loading").verdict
        for day in ("1990-02-28", "1990-03-01")
    ]
    assert found == [State.NOT_APPLICABLE, State.CONFORMS]


def test_a_declared_answer_conforms_with_its_ground(judged: Any) -> None:
    one = verdict(judged(US), "a")
    assert (one.verdict, one.declared) == (State.CONFORMS, "1 (drawing 1)")


def test_a_declared_answer_that_the_rule_does_not_take_does_not_conform(judged: Any) -> None:
    one = verdict(judged(US, purpose="other"), "b")
    assert (one.verdict, one.reason) == (
        State.DOES_NOT_CONFORM,
        "Declared is other, and it must be recreation or sport.",
    )


def test_an_undeclared_fact_is_not_shown(judged: Any) -> None:
    assert verdict(judged(US, occupants=""), "a").verdict is State.NOT_SHOWN


def test_a_condition_that_certainly_fails_settles_what_another_leaves_open(judged: Any) -> None:
    assert verdict(judged(US, powered="no", liquid_fuel=""), "e-2").verdict is State.NOT_APPLICABLE


@pytest.mark.parametrize(
    ("capacity", "state"), [("5 US gal", State.CONFORMS), ("5.0001 US gal", State.DOES_NOT_CONFORM)]
)
def test_a_declared_capacity_is_held_against_its_limit(judged: Any, capacity: str, state: State) -> None:
    assert verdict(judged(US, liquid_fuel="yes", fuel_capacity=capacity), "e-2").verdict is state


def test_a_count_is_printed_without_decimals(judged: Any) -> None:
    assert verdict(judged(EU), "seats").reason == "1 is no more than 2."
