"""The event that a completed list is, as the text of its file."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence

from dossier.compose.operating.list_text import Tick
from dossier.model.completed_list import CompletedList, TakenBack, TickMade


def event_text(one: CompletedList, ticks: Sequence[Tick], evidence: str) -> str:
    """Write the event of a list that was found right.

    Args:
        one: the list.
        ticks: those of the procedure, in the same order.
        evidence: where its record file is kept, relative to the folder of the serial.
    """
    return "\n".join(_lines(one, {tick.name: tick.words for tick in ticks}, evidence)) + "\n"


def _lines(one: CompletedList, words: dict[str, str], evidence: str) -> Iterator[str]:
    yield "# Written by dossier add-record. The record file in evidence/lists holds every tick."
    yield "event: list-completed"
    yield f"date: {one.day.isoformat()}"
    yield f"by: {_quoted(' and '.join(one.people))}"
    yield "evidence:"
    yield f"  - file: {_quoted(evidence)}"
    yield f"    shows: {_quoted(f'Record file of the list: {one.title}')}"
    yield f"procedure: {_quoted(one.procedure)}"
    yield f"digest: {one.digest}"
    yield f"people: [{', '.join(map(_quoted, one.people))}]"
    yield f"steps_done: {sum(tick.kind == 'step' for tick in one.done)}"
    yield f"second_checks_done: {sum(_by_another(tick) for tick in one.done)}"
    yield from _list("steps_open", [_quoted(words[name]) for name in one.open])
    yield from _list("overrides", [_override(tick, words) for tick in one.done if tick.override])
    yield from _list("notes", [_note(tick, words) for tick in one.ticks if tick.note])
    yield from _list("taken_back", [_withdrawn(back, words) for back in one.taken_back])


def _by_another(tick: TickMade) -> bool:
    return tick.kind == "second-check" and not (tick.override and tick.override.same_person)


def _override(tick: TickMade, words: dict[str, str]) -> str:
    assert tick.override
    return f"{{tick: {_quoted(words[tick.tick])}, reason: {_quoted(tick.override.reason)}}}"


def _note(tick: TickMade, words: dict[str, str]) -> str:
    return f"{{tick: {_quoted(words[tick.tick])}, note: {_quoted(str(tick.note))}}}"


def _withdrawn(back: TakenBack, words: dict[str, str]) -> str:
    at = _quoted(back.at.replace("T", " "))
    return f"{{tick: {_quoted(words[back.tick])}, at: {at}, ticks: {back.ticks}}}"


def _list(key: str, items: list[str]) -> Iterator[str]:
    if items:
        yield f"{key}:"
        yield from (f"  - {item}" for item in items)


def _quoted(text: str) -> str:
    return json.dumps(str(text), ensure_ascii=False)  # a string of JSON is one of YAML
