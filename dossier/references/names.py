"""A name that refers to nothing, and placeholders in texts."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from difflib import get_close_matches

from dossier.findings import Finding, Place
from dossier.located import place_of
from dossier.model.aircraft import OF_A_LIST, PLACEHOLDER
from dossier.project import Project


def unknown(
    name: str, known: Collection[str], what: str, where: str, place: Place | None = None
) -> Iterator[Finding]:
    """Say that a name is not among the known ones, if it is not."""
    if name in known:
        return
    near = get_close_matches(name, list(known), n=1, cutoff=0.5)
    hint = f"did you mean {near[0]!r}? " if near else ""
    listed = ", ".join(known) if len(known) <= 12 else f"{len(known)} names"
    yield Finding(
        "P010",
        f"there is no {what} {str(name)!r}",
        f"{hint}{where} has: {listed or 'none'}",
        place or place_of(name),
    )


def placeholders(text: str | None, project: Project) -> Iterator[Finding]:
    """Check the ``{...}`` in a text: each names a limit, or, as ``{list.NAME}``, another list by its file."""
    for found in PLACEHOLDER.finditer(text or ""):
        name = found[1].removeprefix(OF_A_LIST)
        if name != found[1]:
            missing = unknown(name, project.procedures, "list", "the folder procedures", place_of(text))
            yield from (replace(finding, code="P043") for finding in missing)
        else:
            yield from unknown(
                name, project.aircraft.limits, "limit", "limits in aircraft.yaml", place_of(text)
            )
