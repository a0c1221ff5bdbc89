"""A declared fact held against a requirement: one of some answers, or a quantity against a limit."""

from __future__ import annotations

from dataclasses import replace

from dossier import quantities
from dossier.figures import given
from dossier.judge import decision_rules
from dossier.judge.decision import Limit, decide, in_unit, spread_in_unit
from dossier.judge.facts import answer, not_an_answer
from dossier.judge.near_limit import draws_near
from dossier.judge.question import Judged, Question, decided, stopped
from dossier.judge.verdict import Obstacle, State, Verdict
from dossier.model.rule_set import DeclaredTest
from dossier.quantities import NotAQuantity, Quantity


def judge_declared(question: Question) -> Judged:
    """Judge what the builder declares. The declaration is the evidence: its ground is printed with it."""
    test, case = question.requirement.declared, question.case
    assert test is not None, "a rule set is checked before it is used"
    verdict = replace(question.blank, fact=str(test.fact), basis="declared")
    said = answer(case, test.fact)
    if question.blank.source_basis == "memory":
        return stopped(
            verdict,
            Obstacle(
                "The requirement could not be read from a source: it is recalled, and nothing is shown by it."
            ),
        )
    if isinstance(said, Obstacle):
        return stopped(verdict, said)
    declared = case.compliance.declared.get(test.fact)
    verdict = replace(verdict, declared=f"{said} ({declared.ground})" if declared else said)
    return (
        _judge_quantity(question, test, verdict, said)
        if test.limit
        else Judged(_judge_answer(test, verdict, said))
    )


def _judge_answer(test: DeclaredTest, verdict: Verdict, said: str) -> Verdict:
    allowed = " or ".join(map(str, test.one_of))
    if said in test.one_of:
        return replace(verdict, verdict=State.CONFORMS, reason=f"Declared: {said}.")
    return replace(
        verdict, verdict=State.DOES_NOT_CONFORM, reason=f"Declared is {said}, and it must be {allowed}."
    )


def _judge_quantity(question: Question, test: DeclaredTest, verdict: Verdict, said: str) -> Judged:
    limit_is = test.limit
    assert limit_is is not None
    try:
        found: Quantity = quantities.parse(said, limit_is.kind)
    except NotAQuantity as error:
        return stopped(verdict, not_an_answer(question.case, test.fact, error.right))
    name, rule = decision_rules.rule_for(question.case, question.name)
    kind, unit = limit_is.kind, limit_is.unit
    limit = Limit(in_unit(limit_is.value, kind, unit), str(test.relation))
    verdict = replace(
        verdict,
        value=in_unit(found.value, kind, unit),
        unit=unit,
        limit=limit.value,
        limit_text=str(limit_is.text),
        standard_uncertainty=spread_in_unit(found.standard_uncertainty, kind, unit),
        comparison=limit.relation,
        decision_rule=name,
        decision_rule_words=decision_rules.words(rule),
    )
    value, uncertainty = verdict.value or 0.0, verdict.standard_uncertainty or 0.0
    draws = draws_near(value, uncertainty, limit, ((1.0, given(found, "declared")),), unit)
    decision = decide(value, uncertainty, limit, decision_rules.coverage(rule), draws)
    return Judged(decided(verdict, decision, limit, rule))
