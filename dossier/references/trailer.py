"""References of trailer.yaml, and sizes that no trailer has."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from dossier.findings import Finding, Severity
from dossier.model.base import Part
from dossier.model.rigging import Rigging
from dossier.model.trailer import Trailer
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
    if project.rigging is not None:
        yield from _packed(project.trailer, project.rigging)


def _packed(trailer: Trailer, rigging: Rigging) -> Iterator[Finding]:
    """What is taken apart is packed: what the trailer does not know stands in no size and no drawing."""
    for name in trailer.elsewhere:
        yield from unknown(name, rigging.parts, "part", "parts in rigging.yaml")
    packed = set(map(str, trailer.elsewhere))
    for key, packed_part in trailer.parts.items():
        for name in packed_part.parts:
            yield from unknown(name, rigging.parts, "part", "parts in rigging.yaml")
        packed |= set(map(str, packed_part.parts)) or {str(key)}
    for name, part in rigging.parts.items():
        if name not in packed:
            yield Finding(
                "V065",
                f"the part {str(part.name)!r} of rigging.yaml is not packed in trailer.yaml",
                f"add it there under {str(name)!r}, in  parts: [...]  of what it is packed with, or under  "
                "elsewhere",
                part.place,
                Severity.WARNING,
            )


def _sizes(part: Part) -> Iterator[Finding]:
    for name in (*POSITIVE, *NOT_NEGATIVE):
        value = getattr(part, name, None)
        if value is not None and (value.value < 0 or (name in POSITIVE and value.value == 0)):
            wanted = "above 0" if name in POSITIVE else "of 0 or more"
            yield Finding("P017", f"{name} cannot be {value.text!r}", f"write a value {wanted}", value.place)
