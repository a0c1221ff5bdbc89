"""References of the compliance file: rule sets and decision rules."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from dossier.findings import Finding
from dossier.judge import rule_set_checks
from dossier.model.compliance import QUANTITIES
from dossier.project import Project
from dossier.references.names import unknown


def check(project: Project, shipped: Collection[str]) -> Iterator[Finding]:
    """Check rule sets and decision rules by name."""
    compliance = project.compliance
    rules = compliance.decision_rules
    yield from unknown(compliance.usual_decision_rule, rules, "decision rule", "decision_rules")
    known = sorted({*shipped, *project.rule_sets})
    for reliance in compliance.relies_on:
        yield from unknown(reliance.rule_set, known, "rule set", "the tool and rule_sets/ together")
        for rule in reliance.decision_rules.values():
            yield from unknown(rule, rules, "decision rule", "decision_rules")
    for own in project.rule_sets:
        if own in shipped:
            yield Finding(
                "P030",
                f"the tool already has a rule set {own!r}",
                "give the project's own rule set another name",
                project.rule_sets[own].place,
            )
    for name, rule_set in project.rule_sets.items():
        yield from rule_set_checks.check(name, rule_set)
    yield from _claims(project)
    for name, decision in rules.items():
        if decision.kind == "guarded" and decision.coverage is None:
            yield Finding(
                "P031",
                f"the guarded decision rule {name!r} states no coverage",
                "add for example  coverage: 95 %",
                decision.place,
            )
        if decision.coverage is not None and not 0.5 <= decision.coverage.value < 1:
            yield Finding(
                "P031",
                f"a coverage of {decision.coverage.text} makes no guard band",
                "write a value from 50 % to below 100 %",
                decision.coverage.place,
            )


def _claims(project: Project) -> Iterator[Finding]:
    for name, claim in project.compliance.claims.items():
        if claim.battery is not None:
            yield from unknown(claim.battery, project.battery.options, "battery", "options in battery.yaml")
        kinds = QUANTITIES.get(str(claim.quantity), ()) if claim.quantity else ()
        if kinds and claim.value.kind not in kinds:
            yield Finding(
                "P032",
                f"the claim {name!r} is of {str(claim.quantity)!r}, and {claim.value.text!r} is no "
                f"{kinds[0]}",
                f"write a {kinds[0]}, or name another quantity",
                claim.value.place,
            )
