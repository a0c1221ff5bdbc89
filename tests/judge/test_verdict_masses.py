"""What a law leaves out of a mass or counts in, the battery, and limits that depend on something."""

from __future__ import annotations

from typing import Any

import pytest
from invented import e_1, serial, verdict
from published import as_printed, example, number

from dossier.judge.verdict import State

US, UK, EU, DE = "us-14-cfr-103", "uk-single-seat-deregulated", "eu-2018-1139-annex-i", "de-120-kg"
LETTER = "battery_basis: not-counted\nauthority_letter: Invented letter of 1 May 2026"


def test_of_a_parachute_no_more_than_its_allowance_is_left_out(judged: Any) -> None:
    # AC 103-7 as reported: 24 lb; 270 - min(26, 24) = 246
    assert e_1(judged, "270 lb ± 1 lb", allowances={"parachute": ["26 lb"]}).value == pytest.approx(246.0)


def test_a_light_parachute_takes_off_its_own_mass_alone(judged: Any) -> None:
    assert e_1(judged, "270 lb ± 1 lb", allowances={"parachute": ["20 lb"]}).value == pytest.approx(250.0)


def test_of_two_parachutes_the_heavier_alone_is_left_out(judged: Any) -> None:
    assert e_1(judged, "270 lb ± 1 lb", allowances={"parachute": ["12 lb", "20 lb"]}).value == pytest.approx(
        250.0
    )


def test_each_outrigger_is_left_out(judged: Any) -> None:
    assert e_1(judged, "270 lb ± 1 lb", allowances={"outrigger": ["9 lb", "11 lb"]}).value == pytest.approx(
        251.0
    )


def test_the_mass_that_counts_is_a_figure_with_its_working(judged: Any) -> None:
    judgement = judged(US, serial(allowances={"parachute": ["20 lb"]}))
    names = [figure.name for figure in judgement.figures]
    assert names == ["counted_mass.us-14-cfr-103.e-1", "counted_mass.us-14-cfr-103.e-1.battery_not_counted"]


def test_an_allowance_from_memory_is_not_used_where_it_would_decide(judged: Any) -> None:
    floats = e_1(judged, "300 lb ± 1 lb", allowances={"float": ["28 lb", "28 lb"]})
    assert floats.verdict is State.NOT_SHOWN
    assert floats.value == pytest.approx(300.0)


def test_an_allowance_from_memory_does_not_harm_what_conforms_without_it(judged: Any) -> None:
    assert e_1(judged, "250 lb ± 1 lb", allowances={"float": ["28 lb"]}).verdict is State.CONFORMS


def test_the_german_empty_mass_is_not_shown_without_the_rescue_system_that_counts_in_it(judged: Any) -> None:
    assert verdict(judged(DE), "empty-mass").verdict is State.NOT_SHOWN


def test_the_german_empty_mass_takes_nothing_off_for_the_rescue_system(judged: Any) -> None:
    one = verdict(judged(DE, serial(allowances={"parachute": ["20 lb"]})), "empty-mass")
    assert one.verdict is State.CONFORMS
    assert one.value == pytest.approx(250 * 0.45359237)


def test_the_battery_counts_unless_the_builder_says_otherwise(judged: Any) -> None:
    assert e_1(judged, "250 lb ± 1 lb").battery_basis == "counted"


def test_the_other_basis_is_carried_along(judged: Any) -> None:
    other = e_1(judged, "260 lb ± 1 lb").on_other_basis
    assert other is not None
    assert (other.battery_basis, other.verdict) == ("not-counted", State.CONFORMS)
    assert other.value == pytest.approx(205.0)


def test_a_battery_left_out_without_a_letter_is_not_shown(judged: Any) -> None:
    assert e_1(judged, "260 lb ± 1 lb", more="battery_basis: not-counted").verdict is State.NOT_SHOWN


def test_a_battery_left_out_by_a_letter_conforms(judged: Any) -> None:
    one = e_1(judged, "260 lb ± 1 lb", more=LETTER)
    assert (one.verdict, one.battery_basis) == (State.CONFORMS, "not-counted")


def test_with_a_letter_the_counted_battery_is_the_other_basis(judged: Any) -> None:
    other = e_1(judged, "260 lb ± 1 lb", more=LETTER).on_other_basis
    assert other is not None
    assert (other.battery_basis, other.verdict) == ("counted", State.DOES_NOT_CONFORM)


def test_the_open_question_of_the_battery_is_printed_with_the_verdict(judged: Any) -> None:
    assert any(
        "Whether traction batteries count" in point for point in e_1(judged, "250 lb ± 1 lb").unsettled
    )


@pytest.mark.parametrize(
    ("landing", "parachute", "limit"),
    [
        ("land", "none", 300),
        ("land", "airframe", 315),
        ("water", "none", 330),
        ("water", "airframe", 345),
    ],
)
def test_the_european_limit_grows_for_water_and_for_a_parachute(
    judged: Any, landing: str, parachute: str, limit: float
) -> None:
    fitted = serial(allowances={"parachute": ["9 kg"]})
    assert verdict(judged(EU, fitted, landing=landing, parachute=parachute), "mass-one-seat").limit == limit


@pytest.mark.parametrize(
    ("landing", "parachute", "permit", "line"),
    [
        ("land", "none", "no", "mass-land"),
        ("land", "airframe", "no", "mass-parachute"),
        ("water", "none", "no", "mass-water"),
        ("water", "airframe", "no", "mass-water"),
        ("land", "none", "yes", "mass-permit-before-2003"),
        ("land", "airframe", "yes", "mass-permit-before-2003"),
    ],
)
def test_one_british_mass_line_alone_applies(
    judged: Any, landing: str, parachute: str, permit: str, line: str
) -> None:
    fitted = serial(allowances={"parachute": ["9 kg"]})
    judgement = judged(UK, fitted, landing=landing, parachute=parachute, permit_before_2003=permit)
    lines = [
        one.requirement
        for one in judgement.verdicts
        if "/mass-" in one.requirement and one.verdict is not State.NOT_APPLICABLE
    ]
    assert lines == [f"{UK}/{line}"]


def test_a_parachute_that_this_serial_lacks_raises_no_limit(judged: Any) -> None:
    assert (
        verdict(judged(UK, serial(), parachute="airframe"), "mass-parachute").verdict is State.NOT_APPLICABLE
    )


def test_the_canadian_useful_load_in_kilograms_grows_with_power_as_printed(judged: Any) -> None:
    table = example("rules", "RB-004")
    one = verdict(judged("ca-basic-ultra-light"), "useful-load-one-seat")  # 20 kW
    assert one.limit == as_printed(table.expect["mu_kg"])


def test_the_canadian_useful_load_in_pounds_is_another_line_as_printed(judged: Any) -> None:
    table = example("rules", "RB-004")
    power = serial(figures={"maximum_power": f"{table.given['power_bhp']} hp"})
    one = verdict(judged("ca-basic-ultra-light", power), "useful-load-one-seat-pounds")
    assert one.limit == as_printed(table.expect["wu_lb"])


def test_the_two_canadian_lines_differ_by_the_printed_half_kilogram() -> None:
    expect = example("rules", "RB-004").expect
    assert number(expect["wu_lb"]) * 0.45359237 == as_printed(expect["wu_in_kg"])


def test_the_uncertainty_of_the_power_widens_the_doubt_about_the_useful_load(judged: Any) -> None:
    # u² = 0.25² + (0.3 x 0.5)² kg²
    one = serial(figures={"maximum_power": "20 kW ± 1 kW"})
    found = verdict(judged("ca-basic-ultra-light", one), "useful-load-one-seat")
    assert found.standard_uncertainty == pytest.approx((0.25**2 + 0.15**2) ** 0.5)


def test_a_useful_load_below_the_line_does_not_conform(judged: Any) -> None:
    low = serial(figures={"useful_load": "80 kg ± 0.5 kg"})
    assert verdict(judged("ca-basic-ultra-light", low), "useful-load-one-seat").reason == (
        "80.0 kg is less than 86 kg, by more than its guard band of 0.41 kg."
    )


def test_without_the_power_the_useful_load_is_not_shown(judged: Any) -> None:
    one = serial(figures={"maximum_power": ""})
    assert verdict(judged("ca-basic-ultra-light", one), "useful-load-one-seat").verdict is State.NOT_SHOWN


def test_the_verdict_says_what_was_left_out_of_which_mass_and_by_whose_word(judged: Any) -> None:
    one = e_1(judged, "270 lb ± 1 lb", allowances={"parachute": ["26 lb ± 0.2 lb"]})
    assert one.whole == pytest.approx(270.0)
    (left_out,) = one.left_out
    assert (left_out.amount, left_out.mass, left_out.allowance) == pytest.approx((24.0, 26.0, 24.0))
    assert left_out.source.startswith("AC 103-7")


def test_the_uncertainty_of_what_is_left_out_is_counted(judged: Any) -> None:
    # sqrt(0.5² + 0.3²) lb: two independent masses, one taken from the other (JCGM 100:2008, 5.1.2)
    one = e_1(judged, "270 lb ± 1 lb", allowances={"parachute": ["20 lb ± 0.6 lb"]})
    assert one.standard_uncertainty == pytest.approx((0.5**2 + 0.3**2) ** 0.5)


def test_beyond_the_allowance_the_uncertainty_of_the_item_does_not_matter(judged: Any) -> None:
    one = e_1(judged, "270 lb ± 1 lb", allowances={"parachute": ["26 lb ± 0.6 lb"]})
    assert one.standard_uncertainty == pytest.approx(0.5)


def test_a_piece_that_was_weighed_leaves_nothing_to_say(judged: Any) -> None:
    judgement = judged(US, serial(allowances={"parachute": ["20 lb ± 0.2 lb"]}))
    assert judgement.findings == ()
    assert "left out" not in verdict(judgement, "e-1").reason


def test_a_mass_of_the_types_list_is_told_in_the_verdict(judged: Any) -> None:
    one = e_1(judged, "270 lb ± 1 lb", allowances={"parachute": ["20 lb"]})
    assert one.verdict is State.CONFORMS
    assert one.reason.endswith(
        "What is left out of it, parachute, 20.0 lb, is by the type's list: the piece that is fitted was not "
        "weighed, and no uncertainty of it is counted."
    )
