"""Pictures of steps: found, measured and fingerprinted. PNG and JPEG alone: every browser shows them, and
neither can run anything, as a drawing in SVG can."""

from __future__ import annotations

import hashlib
import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from dossier.findings import Finding, Place, Rejected

LARGEST_FILE = 400_000
"""Bytes. A list of thirty pictures then is no heavier than a telephone takes from a memory stick."""
LARGEST_SIDE = 4000
"""Pixels: more than a sheet of paper shows, and little enough for a telephone's memory."""
_PNG = b"\x89PNG\r\n\x1a\n"
_ENDINGS = {"PNG": (".png",), "JPEG": (".jpg", ".jpeg")}
_WITHOUT_LENGTH = frozenset({0x01, *range(0xD0, 0xD8)})
_FRAME = frozenset({0xC0, 0xC1, 0xC2})
"""Start of a frame, baseline, extended or progressive: ITU-T T.81, table B.1."""


@dataclass(frozen=True)
class PictureFile:
    """A picture that a step shows."""

    path: str
    """Relative to the project, as the step names it."""
    kind: str
    """``PNG`` or ``JPEG``."""
    width: int
    """Pixels."""
    height: int
    size: int
    sha256: str
    located: Path
    """Where the bytes are."""


def read_picture(folder: Path, path: str, cited_at: Place | None) -> PictureFile:
    """Fingerprint one picture.

    Raises:
        Rejected: it is not there, leads out of the folder, is no PNG or JPEG, or is too large.
    """
    located = folder / path
    if not located.resolve().is_relative_to(folder.resolve()):
        raise _rejected(
            "R017", f"the picture {path!r} leads out of the project", "copy it into the project", cited_at
        )
    if not located.is_file():
        near = sorted(file.name for file in located.parent.glob("*"))[:8] if located.parent.is_dir() else []
        remedy = (
            f"files in {located.parent.name}/: {', '.join(near)}"
            if near
            else "put it there, or correct the path"
        )
        raise _rejected("R016", f"the picture {path!r} is not there", remedy, cited_at)
    content = located.read_bytes()
    found = _measured(content)
    if found is None:
        remedy = "save it as PNG or JPEG; a drawing in SVG can run programs, and is not taken"
        raise _rejected(
            "R018", f"the picture {path!r} is neither a whole PNG nor a whole JPEG", remedy, cited_at
        )
    kind, width, height = found
    if PurePosixPath(path).suffix.lower() not in _ENDINGS[kind]:
        remedy = f"give it the ending {_ENDINGS[kind][0]}"
        raise _rejected(
            "R018", f"the picture {path!r} is a {kind}, and its name says another kind", remedy, cited_at
        )
    if len(content) > LARGEST_FILE or max(width, height) > LARGEST_SIDE:
        told = f"{len(content)} bytes, {width} by {height} pixels"
        remedy = f"save it with {LARGEST_FILE} bytes or less, and {LARGEST_SIDE} pixels or less on each side"
        raise _rejected("R019", f"the picture {path!r} is too large: {told}", remedy, cited_at)
    return PictureFile(path, kind, width, height, len(content), hashlib.sha256(content).hexdigest(), located)


def _rejected(code: str, message: str, remedy: str, place: Place | None) -> Rejected:
    return Rejected([Finding(code, message, remedy, place)])


def _measured(content: bytes) -> tuple[str, int, int] | None:
    """Return kind, width and height; None for what is no whole picture of a kind taken here."""
    if content.startswith(_PNG):
        return _png(content)
    return _jpeg(content) if content.startswith(b"\xff\xd8\xff") else None


def _png(content: bytes) -> tuple[str, int, int] | None:
    """Source: PNG, 3rd edition (W3C), 5.2, 11.2.1 and 11.2.4: IHDR is the first chunk, IEND the last one."""
    is_whole = content[12:16] == b"IHDR" and content[-8:-4] == b"IEND" and len(content) >= 57
    if not is_whole:
        return None
    width, height = struct.unpack(">II", content[16:24])
    return ("PNG", width, height) if width and height else None


def _jpeg(content: bytes) -> tuple[str, int, int] | None:
    """Source: ITU-T T.81, B.1.1.2, B.2.1 and B.2.2: segments, the frame header, the end of the image."""
    if b"\xff\xd9" not in content[-64:]:
        return None
    for marker, segment in _segments(content):
        if marker in _FRAME and len(segment) >= 5:
            height, width = struct.unpack(">HH", segment[1:5])
            return ("JPEG", width, height) if width and height else None
    return None


def _segments(content: bytes) -> Iterator[tuple[int, bytes]]:
    at = 2
    while at + 4 <= len(content) and content[at] == 0xFF:
        marker = content[at + 1]
        if marker == 0xFF or marker in _WITHOUT_LENGTH:  # a fill byte, or a marker that stands alone
            at += 1 if marker == 0xFF else 2
            continue
        length = struct.unpack(">H", content[at + 2 : at + 4])[0]
        yield marker, content[at + 4 : at + 2 + length]
        if marker == 0xDA or length < 2:  # the picture itself begins
            return
        at += 2 + length
