"""Evidence files in the packet, under names that a browser opens as what they are, never as a page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import PurePosixPath
from urllib.parse import quote

from dossier.compose.packet import Asset
from dossier.compose.printer import Printer
from dossier.dossier import Dossier
from dossier.model.events import Evidence

_PASSIVE = frozenset(
    {
        ".csv",
        ".tsv",
        ".txt",
        ".log",
        ".json",
        ".dat",
        ".igc",
        ".gpx",
        ".pdf",
        ".png",
        ".jpg",
        ".jpeg",
        ".webp",
        ".gif",
    }
    | {".heic", ".wav", ".mp3", ".mp4", ".mov", ".zip", ".gz", ".xlsx", ".ods", ".docx", ".odt", ".bin"}
)
"""Endings that a browser shows as a picture or plain text, or hands to another program."""
_TEXT = frozenset(
    {".md", ".htm", ".html", ".xhtml", ".shtml", ".mht", ".svg", ".xml", ".xsl", ".js", ".mjs", ".css"}
    | {".yaml", ".yml", ".py", ".sh"}
)
"""Endings that would run, style or load something, or become a page: published as plain text, unchanged."""


@dataclass(frozen=True)
class EvidenceLink:
    """A file on a page."""

    name: str
    """As the record cites it."""
    shows: str
    link: str
    size: str
    sha256: str


def published_path(cited: str) -> str:
    """Return where a cited file stands in the packet; one from outside ``evidence/`` gets its own folder."""
    base = cited if cited.startswith("evidence/") else f"evidence-elsewhere/{cited}"
    ending = PurePosixPath(base).suffix.lower()
    if ending in _PASSIVE:
        return base
    return f"{base}.txt" if ending in _TEXT else f"{base}.bin"


def assets(dossier: Dossier) -> tuple[Asset, ...]:
    """Read every evidence file once."""
    return tuple(Asset(published_path(file.path), file.located.read_bytes()) for file in dossier.evidence)


def evidence_links(at: Printer, cited: Iterable[Evidence]) -> tuple[EvidenceLink, ...]:
    """Link to the files that an event cites."""
    known = {file.path: file for file in at.dossier.evidence}
    return tuple(
        EvidenceLink(file.path, str(one.shows), address(at, file.path), size_words(file.size), file.sha256)
        for one in cited
        for file in [known.get(str(one.file))]
        if file
    )


def address(at: Printer, cited: str) -> str:
    """Link to a file, whatever signs its name holds."""
    return quote(at.to(published_path(cited)))


def size_words(size: int) -> str:
    """Print a size in bytes."""
    return f"{size:,}\u00a0bytes".replace(",", "\u202f")
