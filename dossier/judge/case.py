"""One reliance on one rule set, with all that it is judged on."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.findings import Finding, Place, Severity
from dossier.judge.evidence import Evidence
from dossier.model.compliance import Compliance, Reliance
from dossier.model.rule_set import RuleSet


@dataclass(frozen=True)
class Case:
    """What every question about a requirement is asked of."""

    compliance: Compliance
    reliance: Reliance
    rule_set: RuleSet
    evidence: Evidence

    @property
    def name(self) -> str:
        """The name of the rule set."""
        return str(self.rule_set.rule_set)

    @property
    def place(self) -> Place | None:
        """Where the builder relies on the rule set."""
        return self.reliance.place_of_key("rule_set")


def reliances(compliance: Compliance) -> tuple[Reliance, ...]:
    """Take each rule set where it is relied on first."""
    first: dict[str, Reliance] = {}
    for reliance in compliance.relies_on:
        first.setdefault(str(reliance.rule_set), reliance)
    return tuple(first.values())


def warning(code: str, message: str, remedy: str, place: Place | None) -> Finding:
    """Make a finding of this room: the dossier is written and says so at its top."""
    return Finding(code, message, remedy, place, Severity.WARNING)
