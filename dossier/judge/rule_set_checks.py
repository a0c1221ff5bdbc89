"""What a rule-set file must keep beyond its shape: what it names exists, every test says what it compares."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dossier.findings import Finding, Place
from dossier.judge.decision_rules import near
from dossier.model.rule_set import Addition, Condition, DeclaredTest, FigureTest, Requirement, RuleSet
from dossier.quantities import Quantity


def check(name: str, rule_set: RuleSet) -> tuple[Finding, ...]:
    """List what is wrong with a rule set that stands in the file ``name``."""
    findings = list(_name(name, rule_set))
    for requirement in rule_set.requirements.values():
        findings += _requirement(rule_set, requirement)
    return tuple(findings)


def _name(name: str, rule_set: RuleSet) -> Iterator[Finding]:
    if rule_set.rule_set != name:
        yield Finding(
            "J020",
            f"the rule set {str(rule_set.rule_set)!r} stands in the file {name}.yaml",
            f"write  rule_set: {name}  or rename the file",
            rule_set.place_of_key("rule_set"),
        )


def _requirement(rule_set: RuleSet, requirement: Requirement) -> Iterator[Finding]:
    yield from _source(rule_set, requirement.source, requirement.place_of_key("source"))
    for method in requirement.unread_methods:
        yield from _source(rule_set, method.source, method.place_of_key("source"))
    yield from _conditions(rule_set, requirement.applies_if)
    if (requirement.figure is None) == (requirement.declared is None):
        yield Finding(
            "J022",
            "a requirement compares either a figure or a declared fact",
            "write one of the keys  figure:  and  declared:",
            requirement.place,
        )
    if requirement.figure:
        yield from _figure_test(rule_set, requirement.figure)
    if requirement.declared:
        yield from _declared_test(rule_set, requirement.declared)


def _source(rule_set: RuleSet, name: str, place: Place | None) -> Iterator[Finding]:
    if name not in rule_set.sources:
        yield Finding(
            "J021",
            f"the source {str(name)!r} is not in the list of sources",
            near(name, rule_set.sources, "sources"),
            place,
        )


def _fact(rule_set: RuleSet, name: str, place: Place | None) -> Iterator[Finding]:
    if name not in rule_set.facts:
        yield Finding(
            "J023",
            f"the fact {str(name)!r} is not in the list of facts",
            near(name, rule_set.facts, "facts"),
            place,
        )


def _answers(rule_set: RuleSet, fact: str, answers: Iterable[str], place: Place | None) -> Iterator[Finding]:
    """Check that an answer can be given: a misspelt one would make a condition that never holds."""
    known = rule_set.facts[fact].answers if fact in rule_set.facts else []
    for answer in answers:
        if known and answer not in known:
            yield Finding(
                "J024",
                f"{str(answer)!r} is no answer to the fact {str(fact)!r}",
                near(answer, known, "answers"),
                place,
            )


def _conditions(rule_set: RuleSet, conditions: Iterable[Condition]) -> Iterator[Finding]:
    for condition in conditions:
        place = condition.place_of_key("fact")
        yield from _fact(rule_set, condition.fact, place)
        yield from _answers(rule_set, condition.fact, condition.one_of, condition.place_of_key("one_of"))
        if bool(condition.one_of) == bool(condition.on_or_after or condition.before):
            yield Finding(
                "J025",
                "a condition asks either for answers or for a date",
                "write  one_of:  or  on_or_after:  and  before:",
                place,
            )


def _figure_test(rule_set: RuleSet, test: FigureTest) -> Iterator[Finding]:
    yield from _exact(test.limit)
    for exclusion in test.exclusions:
        yield from _source(rule_set, exclusion.source, exclusion.place_of_key("source"))
    for addition in test.additions:
        yield from _addition(rule_set, test, addition)


def _addition(rule_set: RuleSet, test: FigureTest, addition: Addition) -> Iterator[Finding]:
    yield from _conditions(rule_set, addition.applies_if)
    if (addition.per is None) != (addition.figure is None):
        yield Finding(
            "J026",
            "per and figure belong together",
            "write both:  per: 1 kW  and  figure: maximum_power",
            addition.place,
        )
    if addition.amount.kind != test.limit.kind:
        yield Finding(
            "J027",
            f"{addition.amount.text!r} cannot be added to the limit {test.limit.text!r}",
            "write both in units of the same kind",
            addition.amount.place,
        )


def _declared_test(rule_set: RuleSet, test: DeclaredTest) -> Iterator[Finding]:
    place = test.place_of_key("fact")
    yield from _fact(rule_set, test.fact, place)
    yield from _answers(rule_set, test.fact, test.one_of, test.place_of_key("one_of"))
    if bool(test.one_of) == bool(test.limit) or bool(test.relation) != bool(test.limit):
        yield Finding(
            "J028",
            "a declared fact is held against answers or against a limit with its relation",
            "write  one_of: [...]  or both  relation: <=  and  limit: 5 US gal",
            place,
        )
    if test.limit:
        yield from _exact(test.limit)


def _exact(limit: Quantity) -> Iterator[Finding]:
    if limit.standard_uncertainty:
        yield Finding(
            "J029",
            f"the limit {limit.text!r} carries an uncertainty, and a limit of a law is exact",
            "write it without ±",
            limit.place,
        )
