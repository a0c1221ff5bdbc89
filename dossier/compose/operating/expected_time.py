"""How long a list takes: as its head says, and as its steps add up."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.limit_text import printed
from dossier.compose.operating.lists import List
from dossier.display import Preference

_NUMBERS = ("nobody", "one person", "two people", "three people", "four people", "five people", "six people")


@dataclass(frozen=True)
class ExpectedTime:
    """In words; all are empty where neither the list nor a step says anything."""

    amount: str
    """Such as ``about 25 min``."""
    people: str
    """Such as ``two people``."""
    note: str
    """What the steps add up to."""

    @property
    def first(self) -> str:
        """In one piece, such as ``about 25 min with two people``."""
        return f"{self.amount} with {self.people}" if self.amount else ""

    @property
    def beside(self) -> str:
        """What stands below the time."""
        return "; ".join(filter(None, (f"with {self.people}", self.note)))


def expected_time(one: List, preference: Preference) -> ExpectedTime:
    """Say how long a list takes. What its steps state is added up for the steps of this serial.

    They are done one after the other, whoever does them, so that times add and are not shared among people.
    """
    times = [numbered.step.time.value for numbered in one.steps if numbered.step.time]
    duration, steps = one.procedure.duration, len(one.steps)
    total, whole = minutes(sum(times)), len(times) == steps
    note = _sum(total, len(times), steps) if times else ""
    if duration is not None:
        return ExpectedTime(f"about {printed(duration, preference)}", _people(one), note)
    if times and whole:
        return ExpectedTime(f"about {total}", _people(one), "")
    return ExpectedTime("", _people(one), note)


def minutes(seconds: float) -> str:
    """Print a time as a crew says it: whole minutes, hours from two hours on."""
    whole = max(1, round(seconds / 60))
    return f"{whole}\u00a0min" if whole < 120 else f"{seconds / 3600:.1f}\u00a0h"


def _sum(total: str, stated: int, steps: int) -> str:
    return (
        f"the times of its steps add up to {total}"
        if stated == steps
        else (f"{stated} of {steps} steps state a time, together {total}")
    )


def _people(one: List) -> str:
    count = one.procedure.people
    return _NUMBERS[count] if count < len(_NUMBERS) else f"{count} people"
