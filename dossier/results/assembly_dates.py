"""Dates of an assembly record that cannot follow each other as they are written."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from dossier.findings import Place
from dossier.model.record import AssemblyEntry, LotUsed, Nonconformity, SerialRecord
from dossier.results.assembly import AssemblyRecord, StageRecord, StepRecord
from dossier.results.assembly_step_checks import Problem


def date_problems(made: AssemblyRecord, record: SerialRecord) -> Iterator[Problem]:
    """Check every date against those that must come before it."""
    for stage in made.stages:
        for step in stage.steps:
            yield from _step(step, stage, record)
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


def _lot(used: LotUsed, entry: AssemblyEntry) -> Iterator[Problem]:
    yield from _order(
        entry.date, used.made, "this entry", "the making of a lot that it used", used.place_of_key("made")
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
