"""A claim of how long rigging takes: no event measures it, and the lists state their times."""

from __future__ import annotations

from collections.abc import Iterable

from dossier.model.procedure import Procedure

RIGGING_TIME = "rigging_time"
"""The quantity."""
RIGGING = "rigging"
MINUTE = 60.0


def rigging_words(lists: Iterable[Procedure]) -> str:
    """Say what the rigging lists of a type state together; a statement of the type shows no claim.

    Args:
        lists: all lists of the type.
    """
    stated = [_seconds(one) for one in lists if one.kind == RIGGING]
    known = [seconds for seconds in stated if seconds is not None]
    unmeasured = "Not measured: no event of a serial records it"
    if not stated:
        return f"{unmeasured}, and the type has no list of rigging."
    if len(known) < len(stated):
        return f"{unmeasured}; {len(known)} of the {len(stated)} rigging lists of the type state a time."
    minutes = f"{sum(known) / MINUTE:.0f} min"
    if len(stated) == 1:
        return f"{unmeasured}; the rigging list of the type states {minutes}."
    return f"{unmeasured}; the {len(stated)} rigging lists of the type state {minutes} together."


def _seconds(one: Procedure) -> float | None:
    """How long a list takes: as its head says, else as its steps add up; None where a step says nothing."""
    if one.duration is not None:
        return one.duration.value
    times = [step.time for section in one.sections for step in section.steps]
    stated = [time.value for time in times if time is not None]
    return sum(stated) if stated and len(stated) == len(times) else None
