"""``serials/SN/record.yaml``: one built aircraft and its life."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.events import AnyEvent, Evidence
from dossier.model.scalars import AnyQuantity, Date, Key, Name, OneOf, SerialNumber, Text


class Fitted(Part):
    """A component as built: what the type's list names, and which one it is."""

    serial_number: Text | None = None
    lot: Text | None = None
    note: Text | None = None


class AssemblyEntry(Part):
    """One entry of the assembly record."""

    step: Text
    date: Date | None = None
    """Left out while the work is open."""
    by: Text | None = None
    checked_by: Text | None = None
    lots: list[Text] = []
    measured: AnyQuantity | None = None
    required: Text | None = None
    """The tolerance, in words or numbers."""
    result: Annotated[str, OneOf("done", "open", "out of tolerance", "accepted with reason")]
    reason: Text | None = None
    evidence: list[Evidence] = []


class Build(Part):
    """When and where it was built."""

    started: Date
    completed: Date | None = None
    built_at: Text
    design_revision: Text


class SerialRecord(Part):
    """The record of one serial number."""

    serial_number: SerialNumber
    build: Build
    items_left_out: list[Name] = []
    """Optional items of the type's list that this serial was built without."""
    fitted: dict[Key, Fitted] = {}
    assembly: list[AssemblyEntry] = []
    events: list[AnyEvent] = []
