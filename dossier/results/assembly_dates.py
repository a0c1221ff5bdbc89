"""Dates of an assembly record that cannot follow each other as they are written."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from dossier.findings import Place
from dossier.model.record import AssemblyEntry, LotUsed, Nonconformity, SerialRecord
from dossier.results.assembly import PASSED, AssemblyRecord, StageRecord, StepRecord
from dossier.results.assembly_step_checks import Problem

DAY = 86_400.0
"""Seconds."""


def date_problems(made: AssemblyRecord, record: SerialRecord) -> Iterator[Problem]:
    """Check every date against those that must come before it."""
    for stage in made.stages:
        for step in stage.steps:
            yield from _step(step, stage, record)
    yield from _acceptance(made)
    for one in made.nonconformities:
        yield from _nonconformity(one, record)


def _step(step: StepRecord, stage: StageRecord, record: SerialRecord) -> Iterator[Problem]:
    for entry in step.entries:
        yield from _entry(entry, stage, record)
    for before, after in pairwise(entry for entry in step.entries if entry.date):
        yield from _order(
            after.date,
            before.date,
            "this entry",
            "an earlier one of the same step",
            after.place_of_key("date"),
        )


def _acceptance(made: AssemblyRecord) -> Iterator[Problem]:
    """Acceptance looks at the finished aircraft: no work of the assembly is younger (ASTM F3035 as read in a
    summary: ground and flight acceptance after the last assembly step)."""
    work = [
        (step.entry.date, step)
        for stage in made.stages
        if not stage.acceptance
        for step in stage.steps
        if step.entry and step.entry.date and step.entry.result in PASSED
    ]
    last = max(work, key=lambda one: one[0], default=None)
    for stage in made.stages:
        for step in stage.steps if stage.acceptance and last else ():
            accepted = step.entry.date if step.entry else step.event.date if step.event else None
            part = step.entry or step.event
            if last and accepted and accepted < last[0]:
                yield Problem(
                    "A003",
                    f"{step.name!r} of {accepted} accepts an aircraft on which {last[1].name!r} was done "
                    f"later, on {last[0]}",
                    "accept it again after the last work, or correct the date that is wrong",
                    part.place_of_key("date") if part else None,
                    "accepted before the last work",
                    subject=step.title,
                )


def _entry(entry: AssemblyEntry, stage: StageRecord, record: SerialRecord) -> Iterator[Problem]:
    completed, place = record.build.completed, entry.place_of_key("date")
    yield from _order(entry.date, record.build.started, "this entry", "the start of the build", place)
    if not stage.acceptance:
        yield from _order(completed, entry.date, "the completion of the build", "this entry", place)
    yield from _order(
        entry.checked, entry.date, "the check", "the work that was checked", entry.place_of_key("checked")
    )
    for used in entry.materials:
        yield from _lot(used, entry)
    yield from _cure(entry)


def _cure(entry: AssemblyEntry) -> Iterator[Problem]:
    """A cure that begins on the day of the work is over some whole days later at the earliest."""
    signed = entry.checked or entry.date
    if entry.cure and entry.date and signed and entry.checked_by:
        days = (signed - entry.date).days + 1
        if entry.cure.time.value > days * DAY:
            yield Problem(
                "A003",
                f"this entry was checked on {signed}, and a cure of {entry.cure.time.text} from {entry.date} "
                "was not over by then",
                "write the day of the check as  checked: ...  or correct the cure",
                entry.place_of_key("checked" if entry.checked else "date"),
                "dates out of order",
                blocks=False,
            )


def _lot(used: LotUsed, entry: AssemblyEntry) -> Iterator[Problem]:
    yield from _order(
        entry.date, used.made, "this entry", "the making of a lot that it used", used.place_of_key("made")
    )
    yield from _order(
        used.expires, used.made, "the last day of a lot", "its making", used.place_of_key("expires")
    )


def _nonconformity(one: Nonconformity, record: SerialRecord) -> Iterator[Problem]:
    yield from _order(
        one.found,
        record.build.started,
        "the finding of this nonconformity",
        "the start of the build",
        one.place_of_key("found"),
    )
    yield from _order(
        one.closed, one.found, "the closing of this nonconformity", "its finding", one.place_of_key("closed")
    )


def _order(
    later: date | None, earlier: date | None, name: str, before: str, place: Place | None
) -> Iterator[Problem]:
    if later and earlier and later < earlier:
        yield Problem(
            "A003",
            f"the date of {name}, {later}, stands before {before}, {earlier}",
            "correct the date that is wrong",
            place,
            "dates out of order",
            blocks=False,
        )
