"""Limits of size on the road, as data. The tool ships one file; what was not read is not in it."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.rule_set import RuleSource
from dossier.model.scalars import Date, Key, Length, Name, OneOf, Text

MEASURES = ("width", "height", "body length", "trailer length", "combination length")
"""``body length`` is without drawbar, ``trailer length`` with it; a combination has
the towing vehicle as well."""


class RoadLimit(Part):
    """One limit."""

    measure: Annotated[str, OneOf(*MEASURES)]
    limit: Length
    """In the unit of the law. What is just as large passes."""
    clause: Text
    source: Name


class RoadPlace(Part):
    """A place with its limits."""

    name: Text
    scope: Text
    """For whom it holds, and what it leaves open."""
    limits: list[RoadLimit]


class RoadLimits(Part):
    """The file of road limits."""

    last_checked: Date
    sources: dict[Key, RuleSource]
    places: dict[Key, RoadPlace]
