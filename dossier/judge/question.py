"""A requirement that is in force and applies, on its way to a verdict."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dossier.figures import Figure
from dossier.findings import Finding
from dossier.judge import decision_rules, words
from dossier.judge.case import Case
from dossier.judge.decision import Decision, Limit
from dossier.judge.verdict import Obstacle, State, Verdict
from dossier.model.compliance import DecisionRule
from dossier.model.rule_set import Requirement


@dataclass(frozen=True)
class Question:
    """What is asked, and the verdict as far as it is known."""

    case: Case
    name: str
    requirement: Requirement
    blank: Verdict


@dataclass(frozen=True)
class Judged:
    """A verdict with what was made and found on the way."""

    verdict: Verdict
    figures: tuple[Figure, ...] = ()
    findings: tuple[Finding, ...] = ()


def stopped(verdict: Verdict, obstacle: Obstacle, figures: tuple[Figure, ...] = ()) -> Judged:
    """Say that nothing is shown, and why."""
    findings = (obstacle.finding,) if obstacle.finding else ()
    return Judged(replace(verdict, verdict=State.NOT_SHOWN, reason=obstacle.reason), figures, findings)


def decided(verdict: Verdict, decision: Decision, limit: Limit, rule: DecisionRule) -> Verdict:
    """Write a decision into a verdict that holds value, unit and limit."""
    by_draws = decision.distribution == "sampled"
    return replace(
        verdict,
        verdict=State(decision.outcome),
        reason=_sentence(verdict, decision, limit),
        margin=decision.margin,
        guard_band=decision.guard_band,
        acceptance_limit=decision.acceptance_limit,
        probability=decision.probability,
        distribution=decision.distribution,
        decision_rule_words=decision_rules.words(rule, by_draws=by_draws),
    )


def _sentence(verdict: Verdict, decision: Decision, limit: Limit) -> str:
    number = verdict.value or 0.0
    value = f"{words.telling(number, limit)} {verdict.unit}" if verdict.unit else words.plain(number)
    band = words.unit_behind(words.short(decision.guard_band), verdict.unit)
    if decision.outcome == "conforms":
        more = f", and still with its guard band of {band}" if decision.guard_band else ""
        return f"{value} {words.KEEPS[limit.relation]} {verdict.limit_text}{more}."
    if decision.outcome == "does not conform":
        band = words.unit_behind(words.short(decision.rejection_band), verdict.unit)
        more = f", by more than its guard band of {band}" if decision.rejection_band else ""
        return f"{value} {words.FAILS[limit.relation]} {verdict.limit_text}{more}."
    provable = words.unit_behind(
        words.on_the_safe_side(decision.acceptance_limit, decision.guard_band, limit), verdict.unit
    )
    worst = "largest" if limit.is_upper else "smallest"
    return (
        f"{value} is within the guard band of {band} of the limit, {verdict.limit_text}: neither is shown. "
        f"The {worst} value that this measuring can prove is {provable}."
    )
