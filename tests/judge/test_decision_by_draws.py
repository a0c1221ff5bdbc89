"""Near a limit the distribution itself decides: rectangular and skewed values, draws without an answer."""

from __future__ import annotations

from math import exp, log, nan
from pathlib import Path
from statistics import NormalDist

import numpy as np
import pytest
from sample_project import Draft, pack_fitted, scale, support, weighing

from dossier import halton
from dossier.figures import Figure, Input, Working, error_source, propagate
from dossier.halton import COUNT, Array
from dossier.judge import decision_rules
from dossier.judge.decision import NEAR, Decision, Limit, decide
from dossier.judge.near_limit import draws_near, unanswered
from dossier.judge.verdict import State, Verdict
from dossier.model.compliance import DecisionRule

LAW = Limit(254.0, "<")
LEAST = Limit(2.0, ">=")


def rectangular(value: float, half_width: float) -> Array:
    return value + half_width / 3**0.5 * halton.rectangular(2)


def decided(value: float, half_width: float, coverage: float | None = 0.95) -> Decision:
    return decide(value, half_width / 3**0.5, LAW, coverage, rectangular(value, half_width))


def test_the_probability_of_a_rectangular_value_is_the_part_of_its_width_inside() -> None:
    # JCGM 106:2012, 7.2 (memory): the probability is the integral of the distribution over what conforms
    assert decided(253.2, 1.5).probability == pytest.approx((0.8 + 1.5) / 3, abs=1 / COUNT)


def test_the_guard_band_of_a_rectangular_value_leaves_the_same_share_beyond_it() -> None:
    found = decided(253.2, 1.5)
    assert found.guard_band == pytest.approx(1.5 * (2 * 0.95 - 1), abs=3 * 1.5 / COUNT)
    assert found.acceptance_limit == pytest.approx(254 - 1.35, abs=0.002)
    assert found.distribution == "sampled"


def test_a_rectangular_value_conforms_where_a_normal_guard_band_would_not_let_it() -> None:
    value = 254 - 1.38  # 1.35 lb hold 95 % of the rectangular value, and 1.645 u are 1.42 lb
    assert decided(value, 1.5).outcome == "conforms"
    assert decide(value, 1.5 / 3**0.5, LAW, 0.95).outcome == "inconclusive"


def test_a_rectangular_value_is_rejected_at_the_mirrored_distance() -> None:
    assert decided(254 + 1.38, 1.5).outcome == "does not conform"
    assert decided(254 + 1.33, 1.5).outcome == "inconclusive"


def test_draws_that_are_normal_change_nothing() -> None:
    draws = 253.0 + 0.5 * halton.normal(2)
    assert decide(253.0, 0.5, LAW, 0.95, draws) == decide(253.0, 0.5, LAW, 0.95)
    assert decide(253.0, 0.5, LAW, 0.95, draws).distribution == "normal"


def test_without_uncertainty_there_is_no_distribution() -> None:
    assert decide(253.0, 0.0, LAW, None).distribution is None


def test_by_simple_acceptance_the_value_alone_decides_and_the_draws_tell_the_probability() -> None:
    found = decided(253.2, 1.5, None)
    assert (found.outcome, found.guard_band) == ("conforms", 0.0)
    assert found.probability == pytest.approx(2.3 / 3, abs=1 / COUNT)


def skewed(median: float, spread: float) -> Array:
    """Draws of a value whose logarithm is normal."""
    return np.exp(log(median) + spread * halton.normal(2))


def test_a_skewed_value_has_another_band_on_each_side() -> None:
    draws = skewed(2.4, 0.4)
    found = decide(2.4, 0.96, LEAST, 0.95, draws)
    z = NormalDist().inv_cdf(0.95)
    assert found.guard_band == pytest.approx(2.4 * (1 - exp(-0.4 * z)), rel=0.01)
    assert found.rejection_band == pytest.approx(2.4 * (exp(0.4 * z) - 1), rel=0.01)


def test_the_probability_of_a_skewed_value_is_that_of_its_distribution() -> None:
    found = decide(2.4, 0.96, LEAST, 0.95, skewed(2.4, 0.4))
    assert found.probability == pytest.approx(NormalDist().cdf(log(2.4 / 2.0) / 0.4), abs=0.003)


def test_a_draw_without_an_answer_never_conforms() -> None:
    draws = np.where(np.arange(COUNT) < COUNT // 10, nan, 3.0)
    found = decide(3.0, 0.5, LEAST, 0.95, draws)
    assert found.probability == pytest.approx(0.9, abs=1 / COUNT)
    assert found.outcome == "inconclusive"
    assert unanswered(draws) == pytest.approx(0.1, abs=1 / COUNT)


def test_a_draw_without_an_answer_does_not_show_a_failure_either() -> None:
    draws = np.where(np.arange(COUNT) < COUNT // 10, nan, 1.0)
    assert decide(1.0, 0.5, LEAST, 0.95, draws).outcome == "inconclusive"


@pytest.mark.parametrize(("share", "stops"), [(0.04, False), (0.06, True)])
def test_a_rule_of_95_percent_bears_5_percent_of_draws_without_an_answer(share: float, stops: bool) -> None:
    rule = DecisionRule.model_construct(kind="guarded", coverage=type("Ratio", (), {"value": 0.95})())
    found = decision_rules.unanswered(rule, share)
    assert (found is not None) is stops


def figure(value: float, u: float) -> Figure:
    inputs = {"x": Input("x", "mass", value + error_source("x", u, bounded=True), "invented")}

    def as_it_is(x: float) -> float:
        return x

    return Figure("x", "x", "mass", propagate(as_it_is, inputs), Working(as_it_is, inputs))  # type: ignore[arg-type]


@pytest.mark.parametrize(("away", "drawn"), [(NEAR - 0.1, True), (NEAR + 0.1, False)])
def test_draws_are_made_near_a_limit_and_not_far_from_it(away: float, drawn: bool) -> None:
    value = 254.0 - 0.5 * away
    found = draws_near(value, 0.5, LAW, ((1.0, figure(value, 0.5)),), "kg")
    assert (found is not None) is drawn


def test_draws_stand_in_the_unit_of_the_law() -> None:
    one = figure(100.0, 1.0)
    pounds = 100 / 0.45359237
    found = draws_near(pounds, 1 / 0.45359237, Limit(220.0, "<"), ((1.0, one),), "lb")
    assert found is not None
    assert float(found.mean()) == pytest.approx(pounds, abs=0.01)
    assert float(np.ptp(found)) == pytest.approx(2 * 3**0.5 / 0.45359237, rel=0.001)


def test_a_limit_that_moves_with_the_same_error_is_drawn_with_it() -> None:
    one = figure(100.0, 1.0)
    found = draws_near(100.0, 0.5, Limit(100.5, "<="), ((1.0, one), (-0.5, one)), "kg")
    assert found is not None
    assert float(np.ptp(found)) == pytest.approx(0.5 * 2 * 3**0.5, rel=0.001)


def empty_weight(folder: Path, gross: str) -> Verdict:
    """Weigh on three scales of one certificate, whose errors add outright, and hold it against 254 lb."""
    draft = Draft()
    draft.record["items_left_out"] = ["parachute"]
    agreed = {"kind": "guarded", "coverage": "95 %", "agreed": "2026-01-10", "agreed_by": "A. Builder"}
    draft.compliance["decision_rules"] = {"rule": agreed}
    draft.compliance["usual_decision_rule"] = "rule"
    names = ("nose", "left", "right")
    scales = {name: scale(name=name, certificate="A", maximum_permissible_error="0.5 lb") for name in names}
    points = [support(name, gross, arm="20 in", scale=name) for name in names]
    draft.events.extend([pack_fitted("P-1", "40 lb"), weighing(*points, scales=scales)])
    made = draft.make(folder)
    return next(one for one in made.verdicts if one.requirement == "us-14-cfr-103/e-1")


def test_a_verdict_by_draws_says_so_in_its_rule(tmp_path: Path) -> None:
    found = empty_weight(tmp_path, "84.4 lb")
    assert found.distribution == "sampled"
    assert "95 % of the draws of its errors, one-sided, which are not normal" in found.decision_rule_words


def test_a_verdict_far_from_its_limit_stays_by_the_normal_distribution(tmp_path: Path) -> None:
    found = empty_weight(tmp_path, "80 lb")
    assert (found.verdict, found.distribution) == (State.CONFORMS, "normal")
    assert "1.645 standard uncertainties" in found.decision_rule_words
