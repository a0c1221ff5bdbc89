"""One requirement: is it in force, does it apply, and what shows it."""

from __future__ import annotations

from dataclasses import replace

from dossier.judge.case import Case
from dossier.judge.declared import judge_declared
from dossier.judge.facts import first_failing
from dossier.judge.figure_test import judge_figure
from dossier.judge.question import Judged, Question, stopped
from dossier.judge.verdict import Obstacle, State, Verdict
from dossier.model.rule_set import Requirement


def judge_requirement(case: Case, name: str) -> Judged:
    """Judge one requirement of a rule set that the builder relies on."""
    requirement = case.rule_set.requirements[name]
    blank = _blank(case, name, requirement)
    reason = _not_in_force(case, requirement)
    if reason:
        return Judged(replace(blank, verdict=State.NOT_APPLICABLE, reason=reason))
    failing = first_failing(case, requirement.applies_if)
    if isinstance(failing, Obstacle):
        return stopped(blank, failing)
    if failing is not None:
        return Judged(replace(blank, verdict=State.NOT_APPLICABLE, reason=str(failing.otherwise)))
    question = Question(case, name, requirement, blank)
    return judge_declared(question) if requirement.declared else judge_figure(question)


def _blank(case: Case, name: str, requirement: Requirement) -> Verdict:
    rule_set = case.rule_set
    source = rule_set.sources[requirement.source]
    return Verdict(
        requirement=f"{rule_set.rule_set}/{name}",
        rule_set=str(rule_set.rule_set),
        clause=str(requirement.clause),
        statement=str(requirement.statement),
        source=f"{source.title}, {source.publisher}, {source.edition}, {requirement.clause}",
        source_basis=str(source.basis),
        last_checked=(requirement.last_checked or rule_set.last_checked).isoformat(),
        unsettled=tuple(map(str, requirement.unsettled)),
        place=case.place,
    )


def _not_in_force(case: Case, requirement: Requirement) -> str:
    day = case.evidence.as_of
    starts = max(
        (start for start in (requirement.valid_from, case.rule_set.valid_from) if start), default=None
    )
    if starts and day < starts:
        return f"It is in force from {starts.isoformat()}."
    if requirement.valid_until and day > requirement.valid_until:
        return f"It was in force until {requirement.valid_until.isoformat()}."
    return ""
