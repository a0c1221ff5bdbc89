"""The numbers beside a verdict never tell another story than the verdict."""

from __future__ import annotations

from typing import Any

import pytest

from dossier.compose import verdict_numbers
from dossier.compose.claims import would_be_true
from dossier.judge.claim_result import ClaimResult, Support
from dossier.judge.verdict import State, Verdict


def verdict(**numbers: Any) -> Verdict:
    base = {
        "unit": "lb",
        "limit": 254.0,
        "limit_text": "254 lb",
        "comparison": "<",
        "standard_uncertainty": 0.5,
    }
    return Verdict(
        requirement="invented/a",
        rule_set="invented",
        clause="a",
        statement="Invented.",
        source="invented",
        source_basis="read",
        last_checked="2026-01-01",
        unsettled=(),
        place=None,
        verdict=State.INCONCLUSIVE,
        **{**base, **numbers},
    )


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (253.26, "253.3 lb ± 1.0 lb (k = 2)"),
        (253.98, "253.98 lb ± 1.0 lb (k = 2)"),
        (254.004, "254.004 lb ± 1.0 lb (k = 2)"),
        (254.0, "254.0 lb ± 1.0 lb (k = 2)"),
    ],
)
def test_a_value_is_printed_on_its_own_side_of_the_limit(value: float, shown: str) -> None:
    assert plain(verdict_numbers.value(verdict(value=value))) == shown


@pytest.mark.parametrize(
    ("margin", "shown"), [(0.74, "0.7 lb"), (0.004, "0.004 lb"), (-0.004, "\u22120.004 lb"), (0.0, "0.0 lb")]
)
def test_a_margin_keeps_its_sign_in_print(margin: float, shown: str) -> None:
    assert plain(verdict_numbers.margin(verdict(margin=margin))) == shown


@pytest.mark.parametrize(
    ("comparison", "margin", "words"),
    [
        ("<", 0.74, "0.7 lb below the limit of 254 lb"),
        ("<", -0.74, "0.7 lb above the limit of 254 lb"),
        ("<", 0.0, "at the limit of 254 lb"),
        (">=", 0.74, "0.7 lb above the limit of 254 lb"),
        (">=", -0.74, "0.7 lb below the limit of 254 lb"),
    ],
)
def test_a_margin_says_on_which_side_of_the_limit(comparison: str, margin: float, words: str) -> None:
    assert plain(verdict_numbers.margin_words(verdict(comparison=comparison, margin=margin))) == words


@pytest.mark.parametrize(
    ("comparison", "limit", "words"),
    [
        ("<", "254 lb", "less than 254 lb"),
        ("<=", "55 kt", "no more than 55 kt"),
        (">=", "20 kt", "at least 20 kt"),
        (">", "1 kg", "more than 1 kg"),
    ],
)
def test_the_comparison_of_the_law_is_said_in_words(comparison: str, limit: str, words: str) -> None:
    assert plain(verdict_numbers.limit(verdict(comparison=comparison, limit_text=limit))) == words


def test_what_the_scales_can_prove_is_rounded_away_from_the_limit() -> None:
    # 254 lb less 1.645 standard uncertainties of 1.004 lb are 252.3486 lb: 252.4 lb would be too much
    shown = verdict_numbers.acceptance(verdict(acceptance_limit=252.3486, guard_band=1.6514))
    assert plain(shown) == "252.3 lb"


@pytest.mark.parametrize(
    ("share", "shown"),
    [(0.9999, "more than 99.9 %"), (0.0001, "less than 0.1 %"), (0.767, "76.7 %"), (0.5, "50.0 %")],
)
def test_a_probability_is_never_rounded_to_certainty(share: float, shown: str) -> None:
    assert plain(verdict_numbers.probability(verdict(probability=share))) == shown


def claim(relation: str, would_be: float, **more: Any) -> ClaimResult:
    return ClaimResult(
        claim="c",
        text="Invented",
        where="nowhere",
        relation=relation,
        claimed=230.0,
        unit="Wh/kg",
        result=Support.CONTRADICTED,
        value=would_be,
        guard_band=1.8,
        would_be_true=would_be,
        **more,
    )


def test_what_would_be_true_at_least_is_rounded_down() -> None:
    assert plain(would_be_true(claim("at least", 177.096))) == "at least 177.0 Wh/kg"


def test_what_would_be_true_at_most_is_rounded_up() -> None:
    assert plain(would_be_true(claim("at most", 177.005))) == "at most 177.1 Wh/kg"


def test_what_is_about_true_is_rounded_to_the_nearest() -> None:
    assert plain(would_be_true(claim("about", 177.096))) == "about 177.1 Wh/kg"


def test_a_probability_by_draws_says_so() -> None:
    shown = verdict_numbers.probability(verdict(probability=0.7667, distribution="sampled"))
    assert plain(shown) == "76.7 %, by draws"


def test_a_normal_probability_says_nothing_of_draws() -> None:
    assert plain(verdict_numbers.probability(verdict(probability=0.7667, distribution="normal"))) == "76.7 %"
