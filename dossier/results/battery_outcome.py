"""How a battery, or one value of it, stands against a limit: the words of the one decision rule for
batteries."""

from __future__ import annotations

from enum import StrEnum


class Outcome(StrEnum):
    """How a battery, or one value of it, stands."""

    ACCEPTED = "accepted"
    REJECTED = "rejected"
    CLOSE = "too close to tell"
    """Neither is shown within the guard band of the decision rule."""
    NOT_SHOWN = "not shown"
    """Nobody measured it, or the log does not hold what it takes."""


OF_DECISION = {
    "conforms": Outcome.ACCEPTED,
    "does not conform": Outcome.REJECTED,
    "inconclusive": Outcome.CLOSE,
}
WORST_FIRST = (Outcome.REJECTED, Outcome.NOT_SHOWN, Outcome.CLOSE, Outcome.ACCEPTED)
