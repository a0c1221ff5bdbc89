"""What the verdicts on the requirements of one rule set come to together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dossier.judge.verdict import State, Verdict
from dossier.model.rule_set import RuleSet

OPEN = (State.DOES_NOT_CONFORM, State.INCONCLUSIVE, State.NOT_SHOWN)
"""What keeps a rule set from being met as a whole, the gravest first."""
ARE = {
    State.DOES_NOT_CONFORM: ("does not conform", "do not conform"),
    State.INCONCLUSIVE: ("is inconclusive", "are inconclusive"),
    State.NOT_SHOWN: ("is not shown", "are not shown"),
}


@dataclass(frozen=True)
class Whole:
    """One rule set as a whole."""

    is_shown: bool
    """Whether every requirement that applies conforms, and at least one does."""
    words: str
    """One sentence that says what is shown by it, or why it is not."""


def as_a_whole(rule_set: RuleSet, verdicts: Iterable[Verdict]) -> Whole:
    """Sum up the verdicts on one rule set.

    Every requirement that applies must conform: alternatives of a law are requirements whose conditions
    exclude each other, so one of them applies.
    """
    own = [one for one in verdicts if one.rule_set == rule_set.rule_set]
    shows = str(rule_set.shows or "every requirement of it is met")
    left_open = [one for one in own if one.verdict in OPEN]
    if left_open:
        return Whole(False, f"As a whole it is not shown that {shows}, because {_because(left_open)}.")
    if not any(one.verdict is State.CONFORMS for one in own):
        return Whole(False, f"As a whole it is not shown that {shows}, because no requirement of it applies.")
    return Whole(True, f"As a whole it is shown that {shows}: every requirement that applies conforms.")


def _because(left_open: list[Verdict]) -> str:
    parts = []
    for state in OPEN:
        clauses = [one.clause for one in left_open if one.verdict is state]
        if clauses:
            *head, last = clauses
            named = f"{', '.join(head)} and {last}" if head else last
            parts.append(f"{named} {ARE[state][len(clauses) > 1]}")
    return ", and ".join(parts)
