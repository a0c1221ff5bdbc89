"""What a law leaves out of a mass, said with the verdict that rests on it."""

from __future__ import annotations

from dataclasses import replace

from dossier.figures import Figure
from dossier.findings import Finding, Place, Severity
from dossier.judge.decision import in_unit
from dossier.judge.limits import excluded
from dossier.judge.question import Judged, Question
from dossier.judge.verdict import LeftOut


def with_left_out(question: Question, judged: Judged, figure: Figure) -> Judged:
    """Carry along what is left out; an item of unknown mass is told in the verdict and as a note.

    Args:
        question: what is asked.
        judged: the verdict on the mass that counts.
        figure: the mass before anything is left out of it.
    """
    test, verdict = question.requirement.figure, judged.verdict
    assert test is not None, "only a figure is held against a limit"
    pairs = excluded(question.case, test)
    if not pairs or verdict.value is None:
        return judged
    items = tuple(left_out for _, left_out in pairs)
    reason = " ".join(
        [verdict.reason, *(f"{_sentence(one, verdict.unit)}." for one in items if _is_doubtful(one))]
    )
    whole = in_unit(figure.value, test.limit.kind, test.limit.unit)
    notes = [_note(question, verdict.unit, place, one) for place, one in pairs if _is_doubtful(one)]
    return Judged(
        replace(verdict, whole=whole, left_out=items, reason=reason),
        judged.figures,
        (*judged.findings, *notes),
    )


def _is_doubtful(item: LeftOut) -> bool:
    return not item.is_of_piece or not item.standard_uncertainty


def _sentence(item: LeftOut, unit: str) -> str:
    return (
        f"What is left out of it, {item.name[:1].lower()}{item.name[1:]}, {item.mass:.1f} {unit}, "
        f"{_how_known(item)}"
    )


def _how_known(item: LeftOut) -> str:
    if item.is_of_piece:
        return "is by the record without ±: no uncertainty of it is counted"
    counted = "" if item.standard_uncertainty else ", and no uncertainty of it is counted"
    return f"is by the type's list: the piece that is fitted was not weighed{counted}"


def _note(question: Question, unit: str, place: Place | None, item: LeftOut) -> Finding:
    mass, spread = f"{item.mass:.1f}", f"{max(item.mass / 100, 0.1):.1f}"
    return Finding(
        "J017",
        f"the mass of {item.name!r}, {mass} {unit}, that {question.blank.clause} of {question.case.name} "
        f"leaves out {_how_known(item)}",
        "weigh the piece and write its mass where the serial's record says that it was fitted: "
        f'mass: "{mass} {unit} ± {spread} {unit}"',
        place or question.case.place,
        Severity.NOTE,
    )
