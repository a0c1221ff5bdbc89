"""Declared facts: what the builder answers to a question of a rule set, and what applies by it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from dossier.judge.case import Case, warning
from dossier.judge.verdict import Obstacle
from dossier.model.rule_set import Condition, Fact


def answer(case: Case, name: str) -> str | Obstacle:
    """Return the answer to a question: by what is fitted where the fact says so, else as declared."""
    fact = case.rule_set.facts[name]
    if fact.without_items and not any(case.evidence.allowances.get(item) for item in fact.items):
        return str(fact.without_items)
    declared = case.compliance.declared.get(name)
    if declared is None:
        return Obstacle(
            f"The fact {name!r} is not declared.",
            warning(
                "J001",
                f"the rule set {case.name!r} asks for the fact {name!r}, which is not declared",
                f"add under declared:  {name}: {{value: ..., ground: ...}}  {_question(fact)}",
                case.place,
            ),
        )
    if fact.answers and declared.value not in fact.answers:
        return not_an_answer(case, name, f"write one of: {', '.join(fact.answers)}")
    return str(declared.value)


def _question(fact: Fact) -> str:
    known = f" Answers: {', '.join(fact.answers)}." if fact.answers else ""
    return f"({fact.asks}{known})"


def not_an_answer(case: Case, name: str, remedy: str) -> Obstacle:
    """Say that the declared value does not answer the question."""
    declared = case.compliance.declared[name]
    return Obstacle(
        f"The declared answer {str(declared.value)!r} to {name!r} is not known.",
        warning(
            "J002",
            f"{str(declared.value)!r} does not answer the question {str(case.rule_set.facts[name].asks)!r}",
            remedy,
            declared.place_of_key("value"),
        ),
    )


def holds(case: Case, condition: Condition) -> bool | Obstacle:
    """Whether a condition holds, as far as the declared facts tell."""
    said = answer(case, condition.fact)
    if isinstance(said, Obstacle):
        return said
    if condition.one_of:
        return said in condition.one_of
    try:
        day = date.fromisoformat(said)
    except ValueError:
        return not_an_answer(case, condition.fact, "write a date, such as 2026-05-14")
    return (condition.on_or_after is None or day >= condition.on_or_after) and (
        condition.before is None or day < condition.before
    )


def first_failing(case: Case, conditions: Iterable[Condition]) -> Condition | Obstacle | None:
    """Return the first condition that fails, else what leaves one open, else nothing: all hold.

    A condition that certainly fails settles the matter, whatever another leaves open.
    """
    found = [(condition, holds(case, condition)) for condition in conditions]
    failing = next((condition for condition, held in found if held is False), None)
    return failing or next((held for _, held in found if isinstance(held, Obstacle)), None)
