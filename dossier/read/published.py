"""Names under which files of a record are published: evidence, never as a page, and lists, a page each."""

from __future__ import annotations

import re
from pathlib import PurePosixPath

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


def published_path(cited: str) -> str:
    """Return where a cited file stands in the packet; one from outside ``evidence/`` gets its own folder."""
    base = cited if cited.startswith("evidence/") else f"evidence-elsewhere/{cited}"
    ending = PurePosixPath(base).suffix.lower()
    if ending in _PASSIVE:
        return base
    return f"{base}.txt" if ending in _TEXT else f"{base}.bin"


def list_name(file_name: str) -> str:
    """Return the name of a list in the address of its page; capitals and signs of the file do not count."""
    return re.sub(r"[^a-z0-9]+", "-", file_name.lower()).strip("-")
