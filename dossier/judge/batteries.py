"""A requirement that counts the battery, asked of every battery that the serial may carry."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from dossier.findings import Finding
from dossier.judge.case import warning
from dossier.judge.question import Judged, Question
from dossier.judge.verdict import State, Verdict

Judge = Callable[[Question, str, str, str], Judged]
"""From a question, the name of a figure, the basis of the battery and the key of a battery to a verdict."""


def with_each_battery(question: Question, judged: Judged, judge: Judge) -> Judged:
    """Carry along how the requirement would stand with each battery of the type.

    The verdict itself stays that of the aircraft as it is. Nothing is added where the figure does not depend
    on the battery, or where the type has one battery and it is fitted.
    """
    verdict, evidence, test = judged.verdict, question.case.evidence, question.requirement.figure
    assert test is not None, "only a figure is held against a limit"
    names = {option: f"{test.name}.{option}" for option in evidence.batteries}
    asked = {option: name for option, name in names.items() if name in evidence.figures}
    if not asked or (len(asked) == 1 and verdict.value is not None):
        return judged
    each = [judge(question, name, verdict.battery_basis, option) for option, name in asked.items()]
    return Judged(
        replace(verdict, with_each_battery=tuple(one.verdict for one in each)),
        (*judged.figures, *(figure for one in each for figure in one.figures)),
        (*judged.findings, *_not_with(question, verdict, each)),
    )


def _not_with(question: Question, verdict: Verdict, each: list[Judged]) -> list[Finding]:
    """Tell the batteries with which the aircraft would not keep what it keeps as it is."""
    others = [one.verdict for one in each if one.verdict.verdict is not State.CONFORMS]
    return [_finding(question, one) for one in others] if verdict.verdict is State.CONFORMS else []


def _finding(question: Question, one: Verdict) -> Finding:
    name = question.case.evidence.batteries[one.battery]
    would = "would not be kept" if one.verdict is State.DOES_NOT_CONFORM else f"would be {one.verdict}"
    return warning(
        "J016",
        f"with {name}, which the type may carry, {one.clause} of {question.case.name} {would}: "
        f"{one.reason.rstrip('.')}",
        "tell the owner with which battery the declaration holds, or take that battery out of battery.yaml",
        question.case.place,
    )
