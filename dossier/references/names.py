"""A name that refers to nothing, and placeholders in texts."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from difflib import get_close_matches

from dossier.findings import Finding, Place
from dossier.located import place_of
from dossier.model.aircraft import PLACEHOLDER


def unknown(name: str, known: Collection[str], what: str, where: str, place: Place | None = None) -> Iterator[Finding]:
    """Say that a name is not among the known ones, if it is not."""
    if name in known:
        return
    near = get_close_matches(name, list(known), n=1, cutoff=0.5)
    hint = f"did you mean {near[0]!r}? " if near else ""
    listed = ", ".join(known) if len(known) <= 12 else f"{len(known)} names"
    yield Finding("P010", f"there is no {what} {str(name)!r}", f"{hint}{where} has: {listed or 'none'}", place or place_of(name))


def placeholders(text: str | None, known: Collection[str]) -> Iterator[Finding]:
    """Check the ``{...}`` in a text."""
    for found in PLACEHOLDER.finditer(text or ""):
        yield from unknown(found[1], known, "limit", "limits in aircraft.yaml", place_of(text))
