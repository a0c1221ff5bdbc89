"""Claims of an invented builder, held against figures."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented import compliance, serial

from dossier.judge.claim_result import ClaimResult, Support
from dossier.judge.claims import judge_claims

GUARD = 1.6448536 / 2  # of an expanded uncertainty (k = 2) at 95 %, one-sided


@pytest.fixture
def judged(tmp_path: Path) -> Any:
    def judge(
        value: str, relation: str, *, figure: str = "stall_speed", has: str = "22 kt ± 1 kt", **changes: str
    ) -> ClaimResult:
        extra = "".join(f", {key}: {text}" for key, text in changes.items() if key != "rule")
        names = f", figure: {figure}" if figure else ""
        line = f'  slow: {{text: "slow, {{value}}", where: page 1, value: "{value}", relation: {relation}'
        line += f"{names}{extra}}}"
        file = compliance(tmp_path, "us-14-cfr-103", claims=line, rule=changes.get("rule", "guarded"))
        return serial(figures={figure: has} if figure else {}).claims(file).results[0]

    return judge


@pytest.mark.parametrize(
    ("claimed", "relation", "result"),
    [
        ("23 kt", "at most", Support.SUPPORTED),
        ("22.5 kt", "at most", Support.NOT_SUPPORTED),
        ("21.5 kt", "at most", Support.NOT_SUPPORTED),
        ("21 kt", "at most", Support.CONTRADICTED),
        ("21 kt", "at least", Support.SUPPORTED),
        ("22 kt", "at least", Support.NOT_SUPPORTED),
        ("23 kt", "at least", Support.CONTRADICTED),
    ],
)
def test_a_bound_is_held_against_figure_and_guard_band(
    judged: Any, claimed: str, relation: str, result: Support
) -> None:
    assert judged(claimed, relation).result is result


@pytest.mark.parametrize(
    ("claimed", "result"),
    [
        ("22 kt", Support.SUPPORTED),
        ("23 kt", Support.SUPPORTED),
        ("24 kt", Support.NOT_SUPPORTED),
        ("26 kt", Support.CONTRADICTED),
    ],
)
def test_about_is_held_against_its_tolerance(judged: Any, claimed: str, result: Support) -> None:
    assert judged(claimed, "about", tolerance="10 %").result is result


@pytest.mark.parametrize("claimed", ["110 kt", "90 kt"])
def test_about_includes_the_ends_of_its_tolerance(judged: Any, claimed: str) -> None:
    share = {"110 kt": "10 %", "90 kt": "10 %"}[claimed]
    assert judged("100 kt", "about", has=claimed, tolerance=share).result is Support.SUPPORTED


def test_the_number_that_would_be_true_is_the_figure_less_its_guard_band(judged: Any) -> None:
    assert judged("24 kt", "at least").would_be_true == pytest.approx(22 - GUARD, abs=1e-6)


def test_the_number_that_would_be_true_is_supported_if_claimed(judged: Any) -> None:
    bold = judged("21 kt", "at most").would_be_true
    assert judged(f"{bold} kt", "at most").result is Support.SUPPORTED


def test_a_claim_says_how_far_off_it_is(judged: Any) -> None:
    assert judged("24 kt", "at least").off_by == pytest.approx(-2)


def test_a_claim_is_judged_in_its_own_unit(judged: Any) -> None:
    # 22 kt = 40.744 km/h
    assert judged("42 km/h", "at most").value == pytest.approx(40.744)


def test_a_claim_without_a_figure_is_not_shown(judged: Any) -> None:
    one = judged("20 min", "at most", figure="")
    assert (one.result, one.reason) == (Support.NOT_SHOWN, "Nothing in the record computes it.")


def test_a_claim_about_a_figure_that_is_not_there_is_not_shown(judged: Any) -> None:
    assert judged("24 kt", "at most", has="").result is Support.NOT_SHOWN


def test_a_claim_of_another_kind_than_its_figure_is_not_shown(judged: Any) -> None:
    assert judged("24 kg", "at most").result is Support.NOT_SHOWN


def test_about_without_a_tolerance_is_not_shown(judged: Any) -> None:
    assert judged("22 kt", "about").result is Support.NOT_SHOWN


def test_a_claim_needs_its_guard_band_even_where_the_usual_rule_is_simple(judged: Any) -> None:
    assert judged("22.5 kt", "at most", rule="simple").result is Support.NOT_SUPPORTED


def test_a_figure_without_uncertainty_says_so(judged: Any) -> None:
    assert judged("23 kt", "at most", has="22 kt").reason == (
        "The figure of 22.0 kt, whose uncertainty is not stated, supports at most 23 kt."
    )


def test_the_value_stands_in_the_text_of_the_claim(judged: Any) -> None:
    assert judged("23 kt", "at most").text == "slow, 23 kt"


@given(st.floats(10, 40), st.floats(0.1, 5), st.sampled_from(["at most", "at least"]))
def test_nothing_is_both_supported_and_contradicted_by_its_contrary(
    tmp_path_factory: Any, claimed: float, spread: float, relation: str
) -> None:
    folder = tmp_path_factory.mktemp("claim")
    contrary = {"at most": "at least", "at least": "at most"}[relation]
    lines = "\n".join(
        f'  {name}: {{text: t, where: w, value: "{claimed} kt", relation: {words}, figure: stall_speed}}'
        for name, words in (("one", relation), ("other", contrary))
    )
    one = serial(figures={"stall_speed": f"22 kt ± {spread} kt"})
    results = {
        result.result
        for result in judge_claims(compliance(folder, "us-14-cfr-103", claims=lines), one.made).results
    }
    assert results in ({Support.SUPPORTED, Support.CONTRADICTED}, {Support.NOT_SUPPORTED})
