"""The state of a dossier in one line: what fails and what is open, in words."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.open_items import open_items
from dossier.compose.words import listed
from dossier.dossier import Dossier
from dossier.findings import Severity
from dossier.judge.claim_result import Support
from dossier.judge.verdict import State


@dataclass(frozen=True)
class Status:
    """The state in words, and which of three marks stands beside them."""

    words: str
    kind: str
    """``conforms``, ``fails`` or ``open``."""


def status(dossier: Dossier) -> Status:
    """Sum up the requirements; what else is open is counted behind them.

    What takes the aircraft out of a law is counted apart: keeping it is no conformity with that law.
    """
    kept, scope = _counts(dossier)
    both = [
        (kept[State.DOES_NOT_CONFORM], "requirement"),
        (scope[State.DOES_NOT_CONFORM], "condition of scope"),
    ]
    failing = [_counted(number, noun) for number, noun in both if number]
    missing = [(kept[state] + scope[state], str(state)) for state in (State.INCONCLUSIVE, State.NOT_SHOWN)]
    contradicted = sum(claim.result is Support.CONTRADICTED for claim in dossier.claims)
    other = sum(not item.address.startswith(links.CONFORMITY) for item in open_items(dossier)) - contradicted
    warnings = sum(finding.severity is Severity.WARNING for finding in dossier.findings)
    parts = [
        *missing,
        (contradicted, "claim contradicted" if contradicted == 1 else "claims contradicted"),
        (other, "other point open" if other == 1 else "other points open"),
        (warnings, "warning" if warnings == 1 else "warnings"),
    ]
    rest = [f"{number} {words}" for number, words in parts if number]
    met = [
        *([f"Conforms to {_counted(kept[State.CONFORMS], 'requirement')}"] if kept[State.CONFORMS] else []),
        *([_holding(scope[State.CONFORMS])] if scope[State.CONFORMS] else []),
    ]
    if failing:
        return Status("; ".join([f"Does not conform: {listed(failing)}", *rest]), "fails")
    if not met or any(number for number, _ in missing):
        return Status(f"Open: {', '.join(rest) or 'no requirement was judged'}", "open")
    return Status("; ".join([*met, *rest]), "open" if rest else "conforms")


def _counts(dossier: Dossier) -> tuple[Counter[State], Counter[State]]:
    """Count the verdicts: on requirements, and on conditions of scope."""
    kept: Counter[State] = Counter()
    scope: Counter[State] = Counter()
    for verdict in dossier.verdicts:
        rule_set = dossier.rule_sets.get(verdict.rule_set)
        (scope if rule_set and rule_set.lies_outside else kept)[verdict.verdict] += 1
    return kept, scope


def _holding(number: int) -> str:
    return f"{_counted(number, 'condition')} of scope {'holds' if number == 1 else 'hold'}"


def _counted(number: int, noun: str) -> str:
    """Count in figures, such as ``2 conditions of scope``: the status is one line, and is compared."""
    first, _, rest = noun.partition(" ")
    return f"{number} {first}{'' if number == 1 else 's'} {rest}".rstrip()
