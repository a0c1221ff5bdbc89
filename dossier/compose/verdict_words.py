"""How verdicts and results of claims are shown: the words are the verdict, the mark helps."""

from __future__ import annotations

from dossier.compose.grid import Mark
from dossier.judge.claim_result import Support
from dossier.judge.verdict import State

_VERDICTS = {
    State.CONFORMS: Mark("Conforms", "conforms"),
    State.DOES_NOT_CONFORM: Mark("Does not conform", "fails"),
    State.INCONCLUSIVE: Mark("Inconclusive", "inconclusive"),
    State.NOT_SHOWN: Mark("Not shown", "not-shown"),
    State.NOT_APPLICABLE: Mark("Not applicable", "not-applicable"),
}
_CLAIMS = {
    Support.SUPPORTED: Mark("Supported", "conforms"),
    Support.NOT_SUPPORTED: Mark("Not supported", "inconclusive"),
    Support.CONTRADICTED: Mark("Contradicted", "fails"),
    Support.NOT_SHOWN: Mark("Not shown", "not-shown"),
}
OPEN = (State.DOES_NOT_CONFORM, State.INCONCLUSIVE, State.NOT_SHOWN)
"""What a reader must not overlook, the gravest first."""


def verdict_mark(verdict: State) -> Mark:
    """Show a verdict."""
    return _VERDICTS[verdict]


def claim_mark(result: Support) -> Mark:
    """Show the result of a claim."""
    return _CLAIMS[result]


def yes_no(good: bool, yes: str, no: str) -> Mark:
    """Show something that holds or does not."""
    return Mark(yes, "conforms") if good else Mark(no, "fails")
