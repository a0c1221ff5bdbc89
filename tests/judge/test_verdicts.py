"""Verdicts on an invented serial, state by state, and what a measurement must be to show something."""

from __future__ import annotations

from dataclasses import asdict
from json import dumps
from typing import Any

import pytest
from invented import e_1, serial, verdict

from dossier.judge.evidence import ESTIMATE
from dossier.judge.verdict import State

US, UK = "us-14-cfr-103", "uk-single-seat-deregulated"


def test_a_value_that_keeps_the_limit_with_its_guard_band_conforms(judged: Any) -> None:
    assert e_1(judged, "250 lb ± 1 lb").verdict is State.CONFORMS


def test_a_value_within_its_guard_band_of_the_limit_is_inconclusive(judged: Any) -> None:
    assert e_1(judged, "253.5 lb ± 1 lb").verdict is State.INCONCLUSIVE


def test_an_inconclusive_verdict_says_what_this_measuring_can_prove(judged: Any) -> None:
    # w = 1.645 x 0.5 lb = 0.82 lb; 254 - 0.8224 = 253.1776, rounded down
    assert e_1(judged, "253.5 lb ± 1 lb").reason == (
        "253.5 lb is within the guard band of 0.82 lb of the limit, 254 lb: neither is shown. "
        "The largest value that this measuring can prove is 253.17 lb."
    )


def test_a_value_beyond_the_limit_by_more_than_its_guard_band_does_not_conform(judged: Any) -> None:
    assert e_1(judged, "255.5 lb ± 1 lb").verdict is State.DOES_NOT_CONFORM


def test_254_lb_weighed_under_the_simple_rule_do_not_conform(judged: Any) -> None:
    assert e_1(judged, "254 lb ± 1 lb", rule="simple").reason == "254.0 lb is not less than 254 lb."


def test_a_value_just_under_the_limit_is_not_rounded_onto_it(judged: Any) -> None:
    assert e_1(judged, "253.996 lb ± 1 lb", rule="simple").reason == "253.996 lb is less than 254 lb."


def test_a_missing_figure_is_not_shown_and_says_what_would_give_it(judged: Any) -> None:
    missing = verdict(judged(US, serial(figures={"stall_speed": ""})), "e-4")
    assert (missing.verdict, missing.reason) == (
        State.NOT_SHOWN,
        "The figure 'stall_speed' is missing: a flight test that measures the stall speed would give it.",
    )


def test_what_is_for_others_is_not_applicable(judged: Any) -> None:
    assert verdict(judged(US), "d").verdict is State.NOT_APPLICABLE


def test_an_electric_aircraft_has_no_fuel_limit_and_does_not_pass_one(judged: Any) -> None:
    fuel = verdict(judged(US), "e-2")
    assert (fuel.verdict, fuel.reason) == (State.NOT_APPLICABLE, "It carries no liquid fuel.")


def test_indicated_airspeed_does_not_show_a_limit_in_calibrated_airspeed(judged: Any) -> None:
    speed = verdict(judged(US, serial(bases={"stall_speed": "IAS"})), "e-4")
    assert (speed.verdict, speed.reason) == (
        State.NOT_SHOWN,
        "The figure 'stall_speed' is IAS, and CAS is due.",
    )


def test_calibrated_airspeed_does_not_show_a_limit_in_indicated_airspeed(judged: Any) -> None:
    assert verdict(judged("ca-basic-ultra-light"), "stall").verdict is State.NOT_SHOWN


def test_an_airspeed_of_unknown_basis_shows_nothing(judged: Any) -> None:
    assert verdict(judged(US, serial(bases={"stall_speed": ""})), "e-4").verdict is State.NOT_SHOWN


@pytest.mark.parametrize("speed", ["10 kt ± 1 kt", "40 kt ± 1 kt"])
def test_a_physical_estimate_shows_nothing_either_way(judged: Any, speed: str) -> None:
    estimate = serial(figures={"stall_speed": speed}, bases={"stall_speed": ESTIMATE})
    assert verdict(judged(US, estimate), "e-4").verdict is State.NOT_SHOWN


def test_a_rule_agreed_after_the_measurement_shows_nothing(judged: Any) -> None:
    late = verdict(judged(US, rule="late"), "e-1")
    assert (late.verdict, late.reason) == (
        State.NOT_SHOWN,
        "The decision rule 'late' was agreed on 2026-05-20, after the measurement of 2026-04-02.",
    )


def test_a_rule_agreed_on_the_day_of_the_measurement_is_early_enough(judged: Any) -> None:
    same_day = serial(measured_on={"empty_mass": "2026-05-20"})
    assert verdict(judged(US, same_day, rule="late"), "e-1").verdict is State.CONFORMS


def test_a_rule_may_be_given_for_one_requirement(judged: Any) -> None:
    rules = {
        name: verdict(judged(US, more="decision_rules: {e-1: simple}"), name).decision_rule
        for name in ("e-1", "e-4")
    }
    assert rules == {"e-1": "simple", "e-4": "guarded"}


def test_a_measurement_without_uncertainty_cannot_be_guarded(judged: Any) -> None:
    bare = serial(figures={"stall_speed": "22 kt"})
    assert verdict(judged(US, bare), "e-4").verdict is State.NOT_SHOWN


def test_a_measurement_without_uncertainty_passes_the_simple_rule_without_a_probability(judged: Any) -> None:
    bare = verdict(judged(US, serial(figures={"stall_speed": "22 kt"}), rule="simple"), "e-4")
    assert (bare.verdict, bare.probability) == (State.CONFORMS, None)


def test_a_value_that_the_design_sets_needs_no_date(judged: Any) -> None:
    assert verdict(judged(UK), "mass-land").verdict is State.CONFORMS


def test_24_kt_exactly_conform_under_the_simple_rule(judged: Any) -> None:
    exactly = serial(figures={"stall_speed": "44.448 km/h ± 1 km/h"})
    assert verdict(judged(US, exactly, rule="simple"), "e-4").verdict is State.CONFORMS


def test_the_verdict_is_in_the_unit_of_the_law(judged: Any) -> None:
    one = e_1(judged, "113.4 kg ± 0.4 kg")
    assert one.value == pytest.approx(250.0042, abs=1e-4)
    assert one.unit == "lb"


def test_the_margin_is_positive_inside_the_limit(judged: Any) -> None:
    assert e_1(judged, "250 lb ± 1 lb").margin == pytest.approx(4.0)


def test_every_requirement_of_the_rule_set_gets_a_verdict(judged: Any) -> None:
    assert [one.requirement.partition("/")[2] for one in judged(US).verdicts] == [
        "a",
        "b",
        "c",
        "d",
        "e-1",
        "e-2",
        "e-3",
        "e-4",
    ]


def test_the_good_serial_has_nothing_open_under_part_103(judged: Any) -> None:
    assert {one.verdict for one in judged(US).verdicts} == {State.CONFORMS, State.NOT_APPLICABLE}


def test_the_good_serial_has_no_findings(judged: Any) -> None:
    assert judged(US).findings == ()


def test_a_verdict_is_plain_data(judged: Any) -> None:
    verdicts = [asdict(one) for one in judged(US).verdicts]
    assert "counted_mass.us-14-cfr-103.e-1" in dumps(verdicts)


def test_the_date_of_a_measurement_follows_a_figure_that_is_made_from_it(judged: Any) -> None:
    # the mass that counts is made from the empty mass, and the decision rule is checked against its day
    late = judged(US, serial(allowances={"parachute": ["20 lb"]}), rule="late")
    assert verdict(late, "e-1").verdict is State.NOT_SHOWN
