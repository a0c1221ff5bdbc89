"""A requirement that counts the battery, with each battery that the type may carry."""

from __future__ import annotations

from statistics import NormalDist
from typing import Any

import pytest
from invented import Serial, serial, verdict

from dossier.judge.verdict import State, Verdict

US, DE = "us-14-cfr-103", "de-120-kg"
BOTH = {"long": "Long pack", "short": "Short pack"}
LETTER = "battery_basis: not-counted\nauthority_letter: Invented letter of 1 May 2026"


def two_packs(fitted: str = "250 lb ± 1 lb", **packs: str) -> Serial:
    masses = {"empty_mass": fitted, "empty_mass.long": "261 lb ± 1 lb", "empty_mass.short": "250 lb ± 1 lb"}
    masses |= {f"empty_mass.{option}": mass for option, mass in packs.items()}
    days = {name: "2026-04-02" for name, mass in masses.items() if mass}
    return serial(figures=masses, measured_on=days, batteries=BOTH)


def e_1(judged: Any, one: Serial, **changes: Any) -> Verdict:
    return verdict(judged(US, one, **changes), "e-1")


def states(one: Verdict) -> dict[str, State]:
    return {each.battery: each.verdict for each in one.with_each_battery}


def test_each_battery_of_the_type_has_its_own_answer(judged: Any) -> None:
    one = e_1(judged, two_packs())
    assert states(one) == {"long": State.DOES_NOT_CONFORM, "short": State.CONFORMS}


def test_the_verdict_stays_that_of_the_battery_that_is_fitted(judged: Any) -> None:
    one = e_1(judged, two_packs())
    assert (one.verdict, one.battery, one.figure) == (State.CONFORMS, "", "counted_mass.us-14-cfr-103.e-1")


def test_a_margin_with_another_battery_is_the_limit_less_its_mass(judged: Any) -> None:
    margins = {each.battery: each.margin for each in e_1(judged, two_packs()).with_each_battery}
    # 14 CFR 103.1(e)(1): 254 lb
    assert margins == {"long": pytest.approx(-7.0), "short": pytest.approx(4.0)}


def test_the_same_decision_rule_holds_for_each_battery(judged: Any) -> None:
    # 253.5 lb with u = 0.5 lb is within z(95 %) u = 0.82 lb of 254 lb (JCGM 106:2012, 8.3)
    long = e_1(judged, two_packs(long="253.5 lb ± 1 lb")).with_each_battery[0]
    assert long.verdict is State.INCONCLUSIVE
    assert long.probability == pytest.approx(NormalDist().cdf(1.0))


def test_a_battery_that_would_break_what_is_kept_is_told(judged: Any) -> None:
    findings = [one for one in judged(US, two_packs()).findings if one.code == "J016"]
    assert [finding.message for finding in findings] == [
        (
            "with Long pack, which the type may carry, 103.1(e)(1) of us-14-cfr-103 would not be kept: "
            "261.0 lb is not less than 254 lb, by more than its guard band of 0.82 lb"
        )
    ]


def test_where_the_requirement_is_open_already_no_other_battery_is_told(judged: Any) -> None:
    heavy = two_packs(fitted="261 lb ± 1 lb")
    assert [one for one in judged(US, heavy).findings if one.code == "J016"] == []


def test_where_every_battery_keeps_it_nothing_is_told(judged: Any) -> None:
    assert [one for one in judged(US, two_packs(long="252 lb ± 1 lb")).findings if one.code == "J016"] == []


def test_a_type_with_one_battery_that_is_fitted_says_it_once(judged: Any) -> None:
    one = serial(figures={"empty_mass.long": "250 lb ± 1 lb"}, batteries={"long": "Long pack"})
    assert e_1(judged, one).with_each_battery == ()


def test_with_an_empty_bay_nothing_is_shown_and_every_battery_is_answered(judged: Any) -> None:
    one = e_1(judged, two_packs(fitted=""))
    assert one.verdict is State.NOT_SHOWN
    assert states(one) == {"long": State.DOES_NOT_CONFORM, "short": State.CONFORMS}


def test_where_the_battery_is_not_counted_the_answers_stand_on_the_other_basis(judged: Any) -> None:
    one = e_1(judged, two_packs(), more=LETTER)
    assert one.with_each_battery == ()
    assert one.on_other_basis is not None
    assert states(one.on_other_basis) == {"long": State.DOES_NOT_CONFORM, "short": State.CONFORMS}


def test_what_the_rule_leaves_out_is_left_out_with_each_battery(judged: Any) -> None:
    heavy = two_packs(long="270 lb ± 1 lb")
    one = Serial(**{**vars(heavy), "allowances": {"parachute": ["20 lb"]}})
    judgement = judged(US, one)
    long = verdict(judgement, "e-1").with_each_battery[0]
    assert long.value == pytest.approx(250.0)  # 270 lb less a parachute of 20 lb
    assert long.figure in {figure.name for figure in judgement.figures}


def test_a_figure_without_the_battery_in_it_is_asked_once(judged: Any) -> None:
    assert verdict(judged(DE, two_packs()), "ltf-l-stall").with_each_battery == ()


def test_a_useful_load_is_asked_of_each_battery_as_well(judged: Any) -> None:
    # 86 kg for one seat and 20 kW: 80 kg + 0.3 kg/kW (RB-004)
    loads = {
        "useful_load": "100 kg ± 1 kg",
        "useful_load.long": "84 kg ± 1 kg",
        "useful_load.short": "100 kg ± 1 kg",
    }
    one = serial(figures=loads, measured_on=dict.fromkeys(loads, "2026-04-02"), batteries=BOTH)
    found = verdict(judged("ca-basic-ultra-light", one), "useful-load-one-seat")
    assert found.verdict is State.CONFORMS
    assert states(found) == {"long": State.DOES_NOT_CONFORM, "short": State.CONFORMS}
