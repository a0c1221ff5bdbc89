"""Every requirement of every rule set that the builder relies on, judged for one serial."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from types import MappingProxyType

from dossier.figures import Figure
from dossier.findings import Finding, in_order
from dossier.judge.case import Case, reliances, warning
from dossier.judge.decision_rules import near
from dossier.judge.evidence import Allowance, Evidence
from dossier.judge.figure_test import NOT_COUNTED
from dossier.judge.question import Judged
from dossier.judge.requirement import judge_requirement
from dossier.judge.verdict import Judgement
from dossier.model.compliance import Compliance
from dossier.model.rule_set import RuleSet


def judge_all(
    compliance: Compliance,
    rule_sets: Mapping[str, RuleSet],
    figures: Mapping[str, Figure],
    measured_on: Mapping[str, date],
    bases: Mapping[str, str],
    allowances: Mapping[str, tuple[Allowance, ...]],
    as_of: date,
    *,
    batteries: Mapping[str, str] = MappingProxyType({}),
) -> Judgement:
    """Judge one serial.

    Args:
        compliance: what the builder relies on, declares and agreed.
        rule_sets: those that the tool ships and those of the project, by name.
        figures: the computed figures by name. What is missing is not shown.
        measured_on: for each figure that was measured, the date. A figure made from it takes the earliest.
        bases: for a speed ``CAS``, ``IAS`` or ``TAS``; for any figure that was not measured but estimated,
            :data:`dossier.judge.evidence.ESTIMATE`.
        allowances: what a rule may leave out of a mass, or asks for, by kind: the mass of each item fitted.
        as_of: the date of the state that is judged.
        batteries: every battery that the type may carry, by its key: what it is called.

    Raises:
        KeyError: a rule set or decision rule that is relied on does not exist; references are checked before.
    """
    evidence = Evidence(figures, measured_on, bases, allowances, as_of, batteries)
    cases = [Case(compliance, one, rule_sets[one.rule_set], evidence) for one in reliances(compliance)]
    judged = [judge_requirement(case, name) for case in cases for name in case.rule_set.requirements]
    return Judgement(
        tuple(one.verdict for one in judged),
        tuple(figure for one in judged for figure in one.figures),
        in_order([*_twice(compliance), *_in_cases(cases), *_in_verdicts(judged)]),
    )


def _in_verdicts(judged: list[Judged]) -> Iterator[Finding]:
    for one in judged:
        yield from one.findings


def _twice(compliance: Compliance) -> Iterator[Finding]:
    seen: set[str] = set()
    for reliance in compliance.relies_on:
        name = str(reliance.rule_set)
        if name in seen:
            place = reliance.place_of_key("rule_set")
            yield warning(
                "J009",
                f"the rule set {name!r} is relied on twice; the first is used",
                "keep one of them",
                place,
            )
        seen.add(name)


def _in_cases(cases: list[Case]) -> Iterator[Finding]:
    for case in cases:
        yield from _unknown_requirements(case)
        if case.reliance.battery_basis == NOT_COUNTED and not _leaves_battery_open(case.rule_set):
            yield warning(
                "J011",
                f"the rule set {case.name!r} does not leave open whether the battery counts",
                "delete the key battery_basis",
                case.reliance.place_of_key("battery_basis"),
            )


def _unknown_requirements(case: Case) -> Iterator[Finding]:
    known = case.rule_set.requirements
    for requirement in case.reliance.decision_rules:
        if requirement not in known:
            yield warning(
                "J010",
                f"the rule set {case.name!r} has no requirement {str(requirement)!r}",
                near(requirement, known, "requirements"),
                case.reliance.place_of_key("decision_rules"),
            )


def _leaves_battery_open(rule_set: RuleSet) -> bool:
    return any(one.figure and one.figure.without_battery for one in rule_set.requirements.values())
