"""``trailer.yaml``: the aircraft taken apart and packed for the road."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import Key, Length, Name, OneOf, Text


class PackedPart(Part):
    """A part as it lies on the trailer: its own measures, and where it lies."""

    name: Text
    parts: list[Name] = []
    """The parts of rigging.yaml that it is; left out, the one that has its key."""
    length: Length
    """Along the road."""
    width: Length
    height: Length
    behind: Length
    """Its foremost point behind the front of the body; ahead of it negative."""
    right: Length
    """Its middle to the right of the centre line; to the left negative."""
    above: Length
    """Its lowest point above the road."""


class Trailer(Part):
    """The trailer file."""

    name: Text
    kind: Annotated[str, OneOf("enclosed", "open")]
    length: Length
    """Of the body, without drawbar."""
    width: Length
    """The widest place, with mudguards and lamps."""
    height: Length
    """Above the road, with all that stands on the roof."""
    drawbar: Length
    """From the coupling to the front of the body."""
    towing_vehicle: Length | None = None
    """The length of the longest vehicle that tows it; without it no combination is judged."""
    parts: dict[Key, PackedPart]
    elsewhere: dict[Key, Text] = {}
    """Parts of rigging.yaml that do not travel on it, each with where it travels."""
    places: list[Name]
    """Where it shall be driven: names of the road limits that the tool brings along."""
