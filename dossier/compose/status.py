"""The state of a dossier in one line: what fails and what is open, in words."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.open_items import open_items
from dossier.dossier import Dossier
from dossier.findings import Severity
from dossier.judge.verdict import State


@dataclass(frozen=True)
class Status:
    """The state in words, and which of three marks stands beside them."""

    words: str
    kind: str
    """``conforms``, ``fails`` or ``open``."""


def status(dossier: Dossier) -> Status:
    """Sum up the requirements; what else is open is counted behind them."""
    count = Counter(verdict.verdict for verdict in dossier.verdicts)
    fails, unsettled, missing, met = (
        count[state]
        for state in (State.DOES_NOT_CONFORM, State.INCONCLUSIVE, State.NOT_SHOWN, State.CONFORMS)
    )
    other = sum(not item.address.startswith(links.CONFORMITY) for item in open_items(dossier))
    warnings = sum(finding.severity is Severity.WARNING for finding in dossier.findings)
    parts = [
        (unsettled, "inconclusive"),
        (missing, "not shown"),
        (other, "other point open" if other == 1 else "other points open"),
        (warnings, "warning" if warnings == 1 else "warnings"),
    ]
    rest = [f"{number} {words}" for number, words in parts if number]
    if fails:
        return Status("; ".join([f"Does not conform: {_requirements(fails)}", *rest]), "fails")
    if unsettled or missing or not met:
        return Status(f"Open: {', '.join(rest) or 'no requirement was judged'}", "open")
    return Status("; ".join([f"Conforms to {_requirements(met)}", *rest]), "open" if rest else "conforms")


def _requirements(number: int) -> str:
    return f"{number} {'requirement' if number == 1 else 'requirements'}"
