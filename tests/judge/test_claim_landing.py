"""Claims of endurance where a limit at which to land comes before the reserve: the stricter one decides."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest
from demos import demo
from invented import compliance, figure

from dossier.judge.claim_result import ClaimResult, Support
from dossier.judge.claims import judge_claims

GUARD = 1.6448536 / 2  # of an expanded uncertainty (k = 2) at 95 %, one-sided
FIGURES = {
    one.name: one
    for one in (
        figure("endurance.one", "40 min ± 2 min"),
        figure("endurance.one.lightest_pilot", "50 min ± 2 min"),
        figure("endurance.two", "40 min ± 2 min"),
        figure("range.one", "40 km ± 2 km"),
        figure("charging_time.one", "40 min"),
    )
}


@dataclass(frozen=True)
class Landing:
    """Level flight below a limit, in s."""

    early: float
    option: str = "one"
    words: str = "Charge at which to land, 35 %"

    @property
    def comes_early(self) -> bool:
        return self.early >= 60


def judged(
    folder: Path,
    value: str,
    *landing: Landing,
    figure: str = "endurance.one",
    relation: str = "at least",
) -> ClaimResult:
    line = f'  it: {{text: "{{value}}", where: page 1, value: "{value}", relation: {relation}'
    file = compliance(folder, "us-14-cfr-103", claims=f"{line}, figure: {figure}, tolerance: 5 %}}")
    return judge_claims(file, FIGURES, batteries=("one", "two"), landing=landing).results[0]


FOUR = Landing(240.0)
"""Four of the forty minutes."""


@pytest.mark.parametrize(
    ("value", "result"),
    [("34 min", Support.SUPPORTED), ("37 min", Support.NOT_SUPPORTED), ("38 min", Support.CONTRADICTED)],
)
def test_an_endurance_is_held_down_to_the_limit_at_which_to_land(
    value: str, result: Support, tmp_path: Path
) -> None:
    # 36 min with a guard band of 0.9 x 1.64 min
    assert judged(tmp_path, value, FOUR).result is result


def test_without_a_limit_it_is_held_down_to_the_reserve(tmp_path: Path) -> None:
    assert judged(tmp_path, "38 min").result is Support.SUPPORTED
    assert judged(tmp_path, "38 min").below_landing_limit is None


def test_the_sentence_says_how_many_minutes_and_what_the_result_would_be(tmp_path: Path) -> None:
    reason = judged(tmp_path, "38 min", FOUR).reason
    assert "Charge at which to land, 35 %" in reason
    assert "Of the 40.0 min down to the reserve, 4 min of level flight" in reason
    assert reason.endswith("with them the claim would be supported.")


def test_what_would_be_true_is_left_down_to_the_limit(tmp_path: Path) -> None:
    one = judged(tmp_path, "38 min", FOUR)
    assert one.value == pytest.approx(36)
    assert one.below_landing_limit == pytest.approx(4)
    # the doubt is that of a power, so it shrinks with the time: 0.9 of 2 min
    assert one.would_be_true == pytest.approx(36 - 0.9 * 2 * GUARD, abs=1e-5)


def test_a_range_loses_the_same_part_as_the_endurance(tmp_path: Path) -> None:
    # the energy of the cruise is the same: a tenth of it lies below the limit
    one = judged(tmp_path, "38 km", FOUR, figure="range.one")
    assert one.value == pytest.approx(36)
    assert one.result is Support.CONTRADICTED


def test_an_endurance_of_a_lighter_pilot_loses_the_same_part(tmp_path: Path) -> None:
    one = judged(tmp_path, "44 min", FOUR, figure="endurance.one.lightest_pilot")
    assert one.value == pytest.approx(45)


def test_of_two_limits_the_one_that_comes_first_decides(tmp_path: Path) -> None:
    one = judged(tmp_path, "38 min", FOUR, Landing(120.0, words="By voltage, 80 V"))
    assert one.value == pytest.approx(36)
    assert "35 %" in one.reason


def test_about_is_held_down_to_the_limit_as_well(tmp_path: Path) -> None:
    assert judged(tmp_path, "40 min", FOUR, relation="about").value == pytest.approx(36)


@pytest.mark.parametrize(
    ("landing", "figure", "relation"),
    [
        (FOUR, "endurance.two", "at least"),
        (FOUR, "charging_time.one", "at least"),
        (FOUR, "endurance.one", "at most"),
        (Landing(59.0), "endurance.one", "at least"),
    ],
)
def test_a_limit_changes_nothing_where_it_takes_nothing_away(
    landing: Landing, figure: str, relation: str, tmp_path: Path
) -> None:
    one = judged(tmp_path, "38 min", landing, figure=figure, relation=relation)
    assert one.value == pytest.approx(40)
    assert one.below_landing_limit is None


def test_the_claim_of_a_demonstration_aircraft_counts_what_its_note_tells() -> None:
    dossier = demo("barrow-t2")["T2-007"]
    (claim,) = [one for one in dossier.claims if one.claim == "endurance-long"]
    early = max(one.early for one in dossier.modelled.landing)
    assert claim.result is Support.NOT_SUPPORTED
    assert claim.below_landing_limit == pytest.approx(early / 60)
    assert claim.value == pytest.approx((dossier.figures["endurance.long-pack"].value - early) / 60)
