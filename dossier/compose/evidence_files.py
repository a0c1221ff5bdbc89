"""Evidence files in the packet, under names that a browser opens as what they are, never as a page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import quote

from dossier.compose.packet import Asset
from dossier.compose.printer import Printer
from dossier.dossier import Dossier
from dossier.model.events import Evidence
from dossier.read.published import published_path


@dataclass(frozen=True)
class EvidenceLink:
    """A file on a page."""

    name: str
    """As the record cites it."""
    shows: str
    link: str
    size: str
    sha256: str


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
