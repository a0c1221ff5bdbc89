"""What bounds every list of ``rigging.yaml``: where warnings stand, what people lift, how long
a sentence is."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator

from dossier.model.base import Part
from dossier.model.procedure import VERBS
from dossier.model.scalars import Count, Mass, Name, OneOf, Text


class WarningPlace(Part):
    """Before what a hazard's box must stand, in every procedure that does it."""

    before: list[Name]
    """Objects of this file."""
    acts: list[Annotated[str, OneOf(*VERBS)]] = []
    """The acts that need it; left out, every act but looking, pulling and trying."""
    to: list[Name] = []
    """For settings: the new positions that need it; left out, every one."""
    only_in: list[Name] = []
    """Procedures, by file name, to which this is limited."""


def _as_list(value: Any) -> Any:
    return value if isinstance(value, list) else [value]


WarningPlaces = Annotated[
    list[WarningPlace], BeforeValidator(_as_list, json_schema_input_type=WarningPlace | list[WarningPlace])
]
"""One place, or a list of places."""


class Lifting(Part):
    """How much people may lift."""

    one_person: Mass
    """The load for one person, close to the body at waist height."""
    source: Text


class Wording(Part):
    """How long a sentence may be."""

    instruction: Count
    """Words in a sentence that tells what to do."""
    description: Count
    """Words in a sentence that tells what is seen."""
    source: Text
