"""Events and evidence: every kind of event has words, and every event of a demonstration serial is told."""

from __future__ import annotations

from typing import get_args

import pytest
from packet_reading import SERIALS, made, text_of

from dossier.compose.event_words import _own, event_facts
from dossier.compose.printer import Printer
from dossier.model.events import AnyEvent, Event

everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])
KINDS = get_args(get_args(AnyEvent)[0])


@pytest.mark.parametrize("kind", KINDS, ids=[kind.__name__ for kind in KINDS])
def test_every_kind_of_event_has_words_of_its_own(kind: type[Event]) -> None:
    assert _own.dispatch(kind) is not _own.dispatch(Event)


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
