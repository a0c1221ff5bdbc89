"""Events and evidence: every kind of event has words, and every event of a demonstration serial is told."""

from __future__ import annotations

from datetime import date
from typing import get_args

import pytest
from packet_reading import SERIALS, made, text_of

from dossier.compose.event_words import _own, _text, event_facts
from dossier.compose.printer import Printer
from dossier.model.events import AnyEvent, Event

everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])
KINDS = get_args(get_args(AnyEvent)[0])


@pytest.mark.parametrize("kind", KINDS, ids=[kind.__name__ for kind in KINDS])
def test_every_kind_of_event_has_words_of_its_own(kind: type[Event]) -> None:
    has_words = [words.dispatch(kind) is not words.dispatch(Event) for words in (_own, _text)]
    assert sorted(has_words) == [False, True]


@everyone
def test_every_fact_of_every_event_stands_on_the_page(project: str, number: str) -> None:
    at = Printer(made(project, number), "records.md")
    facts = [text for event in at.dossier.state.events for _, text in event_facts(at, event)]
    shown = text_of(project, number, "records.md")
    assert [text for text in facts if " ".join(text.split()) not in shown] == []


@everyone
def test_every_event_names_its_line_of_the_record(project: str, number: str) -> None:
    shown = text_of(project, number, "records.md")
    places = [event.place for event in made(project, number).state.events]
    assert [place for place in places if place is None or f"{place.file}:{place.line}" not in shown] == []


def test_hours_flights_tasks_and_glides_are_told() -> None:
    shown = text_of("quillet-e1", "0003", "records.md")
    assert "Flight time since the build 24.6 h" in shown
    assert "Flights since the build 97" in shown
    assert "Task done Yearly inspection" in shown
    assert "Glide 8 47.30 kt" in shown
    assert "Errors that the glides share air motion 0.10 m/s, scale of the airspeed 1.5 %" in shown


def test_what_went_in_is_named_with_its_number_lot_and_day() -> None:
    at = Printer(made("quillet-e1", "0005"), "records.md")
    change = next(
        event for event in at.dossier.state.events if event.event == "equipment-change" and event.fitted
    )
    piece = change.model_copy(update={"serial_number": "TW-1", "lot": "L-2", "made": date(2026, 1, 5)})
    facts = dict(event_facts(at, piece))
    assert (facts["Serial number"], facts["Lot"], facts["Made"]) == ("TW-1", "L-2", "2026-01-05")
