"""The life of the aircraft: every event in order, with who vouches for it and the files that show it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.event_words import event_facts, event_title
from dossier.compose.evidence_files import EvidenceLink, address, evidence_links, size_words
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.dossier import Dossier


@dataclass(frozen=True)
class EventPart:
    """One event. All ready strings."""

    title: str
    facts: tuple[tuple[str, str], ...]
    place: str
    evidence: tuple[EvidenceLink, ...]


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at = Printer(dossier, links.RECORDS)
    text = render(
        "records.md.jinja",
        top=notices(at),
        as_of=dossier.state.as_of.isoformat(),
        events=tuple(_events(at)),
        files=_files(at),
    )
    return (Page(links.RECORDS, "Events and evidence", "Record", text),)


def _events(at: Printer) -> Iterator[EventPart]:
    for event in at.dossier.state.events:
        place = f"{event.place.file}:{event.place.line}" if event.place else ""
        yield EventPart(
            f"{event.date.isoformat()} {event_title(event)}",
            tuple(event_facts(at, event)),
            place,
            evidence_links(at, event.evidence),
        )


def _files(at: Printer) -> Grid | None:
    rows = [
        row(
            Cell(file.path, address(at, file.path)),
            file.shows,
            size_words(file.size),
            file.sha256,
            f"{file.cited_at.file}:{file.cited_at.line}" if file.cited_at else "",
        )
        for file in at.dossier.evidence
    ]
    return grid("Evidence files", "File | Shows | # Size | SHA-256 | Cited at", rows) if rows else None
