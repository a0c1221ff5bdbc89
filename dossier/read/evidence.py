"""Evidence files: found, measured and fingerprinted, never parsed here."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from dossier.findings import Finding, Place, Rejected
from dossier.read.published import published_path


@dataclass(frozen=True)
class EvidenceFile:
    """A file that the record cites."""

    path: str
    """Relative to the folder of the serial, as cited."""
    shows: str
    size: int
    sha256: str
    cited_at: Place | None
    located: Path
    """Where the bytes are."""


def read_evidence(folder: Path, path: str, shows: str, cited_at: Place | None) -> EvidenceFile:
    """Fingerprint one evidence file.

    Raises:
        Rejected: the file is not there, is no plain file, or leads out of the folder through a link.
    """
    located = folder / path
    if not located.resolve().is_relative_to(folder.resolve()):
        raise Rejected(
            [
                Finding(
                    "R013",
                    f"the evidence file {path!r} leads out of the serial's folder",
                    "copy the file into the folder",
                    cited_at,
                )
            ]
        )
    if not located.is_file():
        near = sorted(file.name for file in located.parent.glob("*"))[:8] if located.parent.is_dir() else []
        remedy = (
            f"files in {located.parent.name}/: {', '.join(near)}"
            if near
            else "put the file there, or correct the path"
        )
        raise Rejected([Finding("R014", f"the evidence file {path!r} is not there", remedy, cited_at)])
    content = located.read_bytes()
    return EvidenceFile(path, shows, len(content), hashlib.sha256(content).hexdigest(), cited_at, located)


def same_names(files: Iterable[EvidenceFile]) -> Iterator[Finding]:
    """Say which files would be published under one name, as on a disk that does not tell capitals
    from small letters."""
    taken: dict[str, EvidenceFile] = {}
    for file in files:
        first = taken.setdefault(published_path(file.path).lower(), file)
        if first is not file:
            yield Finding(
                "R024",
                f"the evidence files {first.path!r} and {file.path!r} would be published under one name",
                "give one of them another name",
                file.cited_at,
            )
