"""Critical steps of the assembly record: an independent second check, and controls that go the right way."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from dossier.model.movement import Movement, expected_way, movement_words
from dossier.model.record import AssemblyEntry
from dossier.results.assembly import PASSED, StepRecord
from dossier.results.assembly_step_checks import Problem

Ways = Mapping[str, Sequence[Movement]]
"""Connection or check of rigging.yaml -> its movements."""


def same_person(one: str, other: str) -> bool:
    """Whether two entries may name one person: capitals, points and spaces do not count, and a name that
    stands among several is one of them."""
    first, second = (re.sub(r"[\W_]+", " ", text).casefold().strip() for text in (one, other))
    return f" {first} " in f" {second} " or f" {second} " in f" {first} "


def critical_problems(record: StepRecord, ways: Ways) -> Iterator[Problem]:
    """Find a critical step without its second check, a control that was seen to go wrong or not looked at.

    Source: ATSB 199504285 (crossed ailerons passed four inspections); the second person: common practice, no
    source.
    """
    step, entry = record.step, record.entry
    if step is None or entry is None or not step.critical:
        return
    if entry.result in PASSED:
        yield from _second_check(record, entry)
    if entry.result != "open":
        yield from _senses(record, entry, ways)


def _second_check(record: StepRecord, entry: AssemblyEntry) -> Iterator[Problem]:
    by, second = entry.by, entry.checked_by
    if by and second and not same_person(str(by), str(second)):
        return
    lack = f"by {second}, who did it" if by and second else "by nobody"
    check = record.step.second_check if record.step else None
    yield Problem(
        "A026",
        f"the critical step {record.name!r} was checked {lack}",
        f"have another person make the second check: {str(check or '').rstrip('.')}",
        entry.place_of_key("checked_by") or entry.place,
        "second check missing",
        subject=record.title,
    )


def _senses(record: StepRecord, entry: AssemblyEntry, ways: Ways) -> Iterator[Problem]:
    assert record.step is not None, "only a step of the type is critical"
    asked = [way for name in record.step.senses for way in ways.get(str(name), ())]
    for one in entry.seen:
        right = expected_way(one.surface, one.control, one.moves, asked)
        if right is None or one.goes != right:
            wanted = f"rigging.yaml has it go {right}" if right else "rigging.yaml has no such movement here"
            yield Problem(
                "A027",
                f"{record.name!r} saw {movement_words(one)}, and {wanted}",
                "look at the aircraft again: a control that is crossed is taken apart, a slip of the pen "
                "corrected",
                one.place,
                "control seen to go the wrong way" if right else "movement that is none of the type's",
                subject=record.title,
            )
    if entry.result in PASSED:
        yield from _not_seen(record, entry, asked)


def _not_seen(record: StepRecord, entry: AssemblyEntry, asked: Sequence[Movement]) -> Iterator[Problem]:
    """Each surface was seen with its control, one way at least: the other follows."""
    missing = [movement_words(one) for one in asked if not any(_is_of(seen, one) for seen in entry.seen)]
    if missing:
        listed = "; ".join(dict.fromkeys(missing))
        yield Problem(
            "A026",
            f"{record.name!r} does not state which way was seen of: {listed}",
            "look, and add  seen: [{control: ..., moves: ..., surface: ..., goes: ...}]",
            entry.place,
            "sense of a control not stated",
            fails=False,
            subject=record.title,
        )


def _is_of(seen: Movement, asked: Movement) -> bool:
    return expected_way(seen.surface, seen.control, seen.moves, [asked]) is not None
