"""Rules of thumb held against the formulas and against a serial. Every rule: common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import pytest

from dossier.judge.trade_facts import Agreement, HeldRule, agreement, hold_trade_rules
from dossier.judge.trade_rules import TRADE_RULES, TradeRule

BY_KEY = {rule.key: rule for rule in TRADE_RULES}
ANY_RULE = pytest.mark.parametrize("rule", TRADE_RULES, ids=[rule.key for rule in TRADE_RULES])


@dataclass(frozen=True)
class Own:
    key: str
    low: float = 0.0
    high: float = 0.0
    words: str = "a number"
    figure: str = ""
    missing: str = ""


def held(key: str, low: float, high: float | None = None, missing: str = "") -> HeldRule:
    """Hold one rule against a number; nothing is known for the others."""
    numbers = {rule.key: Own(rule.key, missing="nothing") for rule in TRADE_RULES}
    numbers[key] = Own(key, low, low if high is None else high, missing=missing)
    return next(one for one in hold_trade_rules(numbers.values()) if one.rule.key == key)


@ANY_RULE
def test_the_number_of_the_rule_itself_bears_it_out(rule: TradeRule) -> None:
    assert agreement(rule.said, rule.band) is Agreement.INSIDE


@ANY_RULE
def test_a_number_above_or_below_the_band_differs(rule: TradeRule) -> None:
    low, high = rule.band
    assert held(rule.key, 0.9 * low).result is Agreement.OUTSIDE
    if high != inf:
        assert held(rule.key, 1.1 * high).result is Agreement.OUTSIDE


@ANY_RULE
def test_a_range_across_an_end_of_the_band_is_not_excluded(rule: TradeRule) -> None:
    low = rule.band[0]
    assert held(rule.key, 0.9 * low, 1.0001 * low).result is Agreement.ACROSS


@ANY_RULE
def test_where_the_record_gives_nothing_the_rule_is_not_held(rule: TradeRule) -> None:
    one = held(rule.key, 0.0, missing="no such number")
    assert one.result is Agreement.NOT_HELD
    assert one.own.missing == "no such number"
    assert one.off_by is None


@pytest.mark.parametrize(
    ("key", "low", "high", "result"),
    [
        # 76 V / 18 = 4.22 V, 67 V / 18 = 3.72 V, 54 V / 18 = 3.0 V: by hand
        ("series_of_marks", 18, 18, Agreement.INSIDE),
        ("full_of_18", 18 * 4.05, 18 * 4.25, Agreement.INSIDE),
        ("half_of_18", 18 * 3.55, 18 * 3.75, Agreement.INSIDE),
        ("empty_of_18", 18 * 2.5, 18 * 3.3, Agreement.INSIDE),
        # (6.7 kWh - 0.5 kWh) / 3 kW + 2 min = 2.1 h of 2.2333 h: by hand
        ("flight_of_quotient", 2.1 / (6.7 / 3), 2.1 / (6.7 / 3), Agreement.INSIDE),
        ("sustain_share", 0.2, 0.2, Agreement.INSIDE),
        # (3.35 - 0.5) / (6.7 - 0.5): by hand
        ("half_pack", 2.85 / 6.2, 2.85 / 6.2, Agreement.INSIDE),
        # 5 x 231 in³ x 0.72 kg/L, the inch 25.4 mm: by hand
        ("petrol", 5 * 3.785411784 * 0.72, 5 * 3.785411784 * 0.72, Agreement.INSIDE),
        # 1600 h at 100 h a year are 16 years: by hand
        ("cycles_in_years", 16 * 365 * 86400, 16 * 365 * 86400, Agreement.INSIDE),
    ],
)
def test_what_the_formulas_make_of_a_rule(key: str, low: float, high: float, result: Agreement) -> None:
    one = held(key, 1.0)
    assert one.formula == pytest.approx((low, high), rel=1e-9)
    assert one.by_formula is result


def test_the_one_model_tested_at_both_rates_gives_more_than_twice_the_cycles() -> None:
    # by hand from the constants of Wang 2014 (tests/references/ageing.yaml): exp(0.34343 x (3 - 0.5)), with
    # 0.34343 = 2.347 - 6.72e-3 x 298.15
    one = held("cycles_by_rate", 1.0)
    assert one.formula == pytest.approx((2.360, 2.360), abs=0.0005)
    assert one.by_formula is Agreement.INSIDE


def test_that_50_to_60_percent_remain_is_not_excluded_since_models_end_at_70_percent() -> None:
    one = held("remaining", 1.0)
    assert one.formula[0] == 0
    assert 0.7 < one.formula[1] < 1
    assert one.by_formula is Agreement.ACROSS


def test_how_far_off_is_told_of_one_number_beside_one_number() -> None:
    assert held("sustain_share", 0.3).off_by == pytest.approx(0.5)
    assert held("sustain_share", 0.2, 0.3).off_by is None
    assert held("remaining", 0.55).off_by is None


def test_a_number_one_percent_above_the_mark_at_half_lies_inside_its_band() -> None:
    one = held("half_of_18", 67.67)
    assert one.off_by == pytest.approx(0.01, abs=1e-4)
    assert one.result is Agreement.INSIDE


def test_the_band_of_the_mark_at_half_lies_about_it_and_ends_at_both_ends() -> None:
    low, high = BY_KEY["half_of_18"].band
    assert (low + high) / 2 == pytest.approx(67.0)
    # by hand: 18 x 3.55 V = 63.9 V, and 67 V + 3.1 V
    assert (low, high) == pytest.approx((63.9, 70.1))


def test_an_eighth_to_a_third_is_the_band_of_the_share_that_sustains() -> None:
    assert BY_KEY["sustain_share"].band == pytest.approx((1 / 8, 1 / 3))
    assert held("sustain_share", 0.338).result is Agreement.OUTSIDE  # 69 % off a fifth
    assert "an eighth to a third" in BY_KEY["sustain_share"].basis


def test_no_result_contradicts_how_far_off_a_number_is() -> None:
    assert {str(one) for one in Agreement} == {
        "inside its band", "outside its band", "across an end of its band", "not held",
    }  # fmt: skip


def test_each_rule_has_a_name_of_its_own() -> None:
    assert len(BY_KEY) == len(TRADE_RULES)
