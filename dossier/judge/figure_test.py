"""A figure held against a limit, on each basis that the law leaves open."""

from __future__ import annotations

from dataclasses import replace

from dossier.figures import Figure
from dossier.judge import decision_rules
from dossier.judge.batteries import with_each_battery
from dossier.judge.case import Case, warning
from dossier.judge.decision import decide, in_unit
from dossier.judge.figure_origins import MEASURED_BY
from dossier.judge.left_out import with_left_out
from dossier.judge.limits import Measured, counted, measured, unread_allowances
from dossier.judge.near_limit import draws_near, unanswered
from dossier.judge.question import Judged, Question, decided, stopped
from dossier.judge.verdict import Obstacle, State, Verdict
from dossier.model.rule_set import FigureTest

COUNTED, NOT_COUNTED = "counted", "not-counted"


def judge_figure(question: Question) -> Judged:
    """Judge on the basis that the builder relies on, and carry the other one along."""
    test = _test(question)
    if test.without_battery is None:
        return with_each_battery(question, _judge_on(question, str(test.name), ""), _judge_on)
    on_each = {
        COUNTED: with_each_battery(question, _judge_on(question, str(test.name), COUNTED), _judge_on),
        NOT_COUNTED: _judge_on(question, str(test.without_battery), NOT_COUNTED),
    }
    basis = str(question.case.reliance.battery_basis)
    other = on_each[NOT_COUNTED if basis == COUNTED else COUNTED]
    relied_on = _without_letter(question.case, on_each[basis]) if basis == NOT_COUNTED else on_each[basis]
    return Judged(
        replace(relied_on.verdict, on_other_basis=other.verdict),
        (*relied_on.figures, *other.figures),
        relied_on.findings,
    )


def _without_letter(case: Case, judged: Judged) -> Judged:
    if case.reliance.authority_letter is not None:
        return judged
    verdict = replace(judged.verdict, margin=None, guard_band=None, acceptance_limit=None, probability=None)
    return stopped(
        verdict,
        Obstacle(
            "The battery is not counted, and no letter of the authority is cited that allows it.",
            warning(
                "J008",
                "the battery is not counted in the empty weight, and no letter of the authority is cited",
                "add  authority_letter:  with who wrote what, to whom, when, or  battery_basis: counted",
                case.reliance.place_of_key("battery_basis"),
            ),
        ),
        judged.figures,
    )


def _test(question: Question) -> FigureTest:
    assert question.requirement.figure is not None, "a rule set is checked before it is used"
    return question.requirement.figure


def _judge_on(question: Question, name: str, battery: str, option: str = "") -> Judged:
    """Judge one figure on one basis, of the aircraft as it is or with another battery."""
    case, test = question.case, _test(question)
    verdict = replace(
        question.blank,
        figure=name,
        unit=test.limit.unit,
        limit_text=str(test.limit.text),
        comparison=str(test.relation),
        limit=None if test.additions else in_unit(test.limit.value, test.limit.kind, test.limit.unit),
        basis=_basis(test, battery),
        battery_basis=battery,
        battery=option,
    )
    figure = case.evidence.figures.get(name)
    if verdict.source_basis == "memory":
        return stopped(
            verdict,
            Obstacle(
                "The limit could not be read from a source: it is recalled, and nothing is shown by it."
            ),
        )
    if figure is None:
        origin = f" {MEASURED_BY[name]} would give it" if name in MEASURED_BY else ""
        return stopped(
            verdict, Obstacle(f"The figure {name!r} is missing" + (f":{origin}." if origin else "."))
        )
    words = f", with {case.evidence.batteries[option]}" if option else ""
    mass = counted(case, test, figure, _counted_name(question, battery, option), words)
    if isinstance(mass, Obstacle):
        return stopped(verdict, mass)
    return with_left_out(question, _judge_measured(question, verdict, figure, mass), figure)


def _judge_measured(question: Question, verdict: Verdict, figure: Figure, mass: Figure) -> Judged:
    case, test = question.case, _test(question)
    made = (mass,) if mass is not figure else ()
    found = measured(case, test, mass)
    if isinstance(found, Obstacle):
        return stopped(verdict, found, made)
    verdict = replace(
        verdict,
        figure=mass.name,
        value=found.value,
        standard_uncertainty=found.uncertainty,
        limit=found.limit.value,
        limit_text=found.limit_text,
    )
    wrong = _wrong_basis(case, test, figure.name)
    if wrong:
        return stopped(verdict, wrong, made)
    return _decide(question, verdict, found, figure.name, made)


def _decide(
    question: Question, verdict: Verdict, found: Measured, name: str, made: tuple[Figure, ...]
) -> Judged:
    case = question.case
    agreed = decision_rules.rule_for(case, question.name)
    rule_name, rule = agreed
    verdict = replace(verdict, decision_rule=rule_name, decision_rule_words=decision_rules.words(rule))
    late = decision_rules.untimely(case, agreed, name, found.uncertainty)
    if late:
        return stopped(verdict, late, made)
    draws = draws_near(found.value, found.uncertainty, found.limit, found.parts, verdict.unit)
    lost = decision_rules.unanswered(rule, unanswered(draws))
    if lost:
        return stopped(verdict, lost, made)
    decision = decide(found.value, found.uncertainty, found.limit, decision_rules.coverage(rule), draws)
    outcome = decided(verdict, decision, found.limit, rule)
    bar = _bar(case, _test(question), outcome)
    return stopped(verdict, bar, made) if bar else Judged(outcome, made)


def _bar(case: Case, test: FigureTest, outcome: Verdict) -> Obstacle | None:
    """Say why the number alone does not settle the matter."""
    missing = [str(item) for item in test.includes if not case.evidence.allowances.get(item)]
    if missing and outcome.verdict is State.CONFORMS:
        return Obstacle(f"The law counts this in, and the serial has none: {', '.join(missing)}.")
    unread = unread_allowances(case, test)
    if unread and outcome.verdict is not State.CONFORMS:
        return Obstacle(
            f"Counted in full, as no source of its allowance was read: {', '.join(unread)}. {outcome.reason}"
        )
    return None


def _wrong_basis(case: Case, test: FigureTest, name: str) -> Obstacle | None:
    estimate = case.evidence.estimated_from(name)
    if estimate:
        return Obstacle(f"The figure {estimate!r} is a physical estimate, and an estimate shows nothing.")
    has = case.evidence.bases.get(name)
    if test.speed_basis is None or has == test.speed_basis:
        return None
    if has is None:
        return Obstacle(
            f"On which airspeed the figure {name!r} rests is not recorded, and {test.speed_basis} is due."
        )
    return Obstacle(f"The figure {name!r} is {has}, and {test.speed_basis} is due.")


def _basis(test: FigureTest, battery: str) -> str:
    battery_words = {COUNTED: "traction battery counted", NOT_COUNTED: "traction battery not counted"}
    mass = f"{test.mass_basis} mass" if test.mass_basis else None
    return ", ".join(
        str(part) for part in (mass, test.speed_basis, test.configuration, battery_words.get(battery)) if part
    )


def _counted_name(question: Question, battery: str, option: str) -> str:
    name = f"counted_mass.{question.case.rule_set.rule_set}.{question.name}"
    name = f"{name}.with.{option}" if option else name
    return f"{name}.battery_not_counted" if battery == NOT_COUNTED else name
