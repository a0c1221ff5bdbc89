"""Nonconformities: open ones, those closed without a decision, and rework that nobody entered."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.model.record import Nonconformity
from dossier.results.assembly import PASSED, AssemblyRecord, StepRecord
from dossier.results.assembly_step_checks import Problem


def nonconformity_problems(one: Nonconformity, made: AssemblyRecord) -> Iterator[Problem]:
    """Check one nonconformity against the record of its step."""
    name = f"the nonconformity {str(one.number)!r}"
    if one.closed is None:
        yield Problem(
            "A007",
            f"{name} is open: {one.description}",
            "decide on it, do the work, and write the day, such as  closed: 2026-05-14",
            one.place,
            "open nonconformity",
            blocks=False,
        )
    elif one.disposition is None or not one.reason or not one.decided_by:
        words = ("disposition", "reason", "decided_by")
        missing = [word for word in words if not getattr(one, word)]
        yield Problem(
            "A008",
            f"{name} was closed without {', '.join(missing)}",
            "say what was decided, why, and who decided it",
            one.place,
            "closed without a decision",
            subject=f"Nonconformity {one.number}",
        )
    elif one.disposition in ("rework", "scrap") and one.step is not None:
        for step in made.steps:
            if str(one.step) in (step.name, step.title):
                yield from _not_done_again(one, step)


def _not_done_again(one: Nonconformity, step: StepRecord) -> Iterator[Problem]:
    """Rework and scrap are closed by work: an entry of the step between the finding and the closing."""
    entry = step.entry
    if entry is None or entry.result not in PASSED or entry.date is None:
        return  # told as open, out of tolerance or without a date
    begun_again = entry.date > one.found or (entry.date == one.found and len(step.entries) > 1)
    if begun_again and (one.closed is None or entry.date <= one.closed):
        return
    when = "after it was closed" if begun_again else "before it was found"
    yield Problem(
        "A016",
        f"the nonconformity {str(one.number)!r} was closed by {one.disposition}, and the last entry of "
        f"{step.name or step.title!r}, {entry.date}, stands {when}",
        "enter the step as it was done again, on a day between the finding and the closing",
        one.place_of_key("closed"),
        "not done again",
        subject=f"Nonconformity {one.number}",
    )
