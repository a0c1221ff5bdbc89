"""References of trailer.yaml, and sizes that no trailer has."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from dossier.findings import Finding
from dossier.model.base import Part
from dossier.project import Project
from dossier.references.names import unknown

POSITIVE = ("length", "width", "height")
NOT_NEGATIVE = ("drawbar", "above", "towing_vehicle")


def check(project: Project, known_places: Collection[str]) -> Iterator[Finding]:
    """Check the trailer file against the road limits that the tool brings along."""
    if project.trailer is None:
        return
    for place in project.trailer.places:
        yield from unknown(place, known_places, "place", "the list of road limits")
    for part in (project.trailer, *project.trailer.parts.values()):
        yield from _sizes(part)


def _sizes(part: Part) -> Iterator[Finding]:
    for name in (*POSITIVE, *NOT_NEGATIVE):
        value = getattr(part, name, None)
        if value is not None and (value.value < 0 or (name in POSITIVE and value.value == 0)):
            wanted = "above 0" if name in POSITIVE else "of 0 or more"
            yield Finding("P017", f"{name} cannot be {value.text!r}", f"write a value {wanted}", value.place)
