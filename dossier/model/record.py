"""``serials/SN/record.yaml``: one built aircraft and its life."""

from __future__ import annotations

from typing import Annotated

from dossier import units
from dossier.model.base import Part
from dossier.model.drawing import Numbered
from dossier.model.events import AnyEvent, Evidence
from dossier.model.movement import Movement
from dossier.model.scalars import (
    AnyQuantity,
    Date,
    Duration,
    FilePath,
    Key,
    Mass,
    Name,
    OneOf,
    SerialNumber,
    Temperature,
    Text,
)


class Fitted(Numbered):
    """A component as built: what the type's list names, and which one it is."""

    serial_number: Text | None = None
    lot: Text | None = None
    concession: Text | None = None
    """The number of the nonconformity under which a piece of another number or issue was accepted."""
    made: Date | None = None
    """When it was made or packed: a life by calendar runs from then."""
    mass: Mass | None = None
    """As weighed before it went in, with its ±. Of a parachute, float or hull that a rule leaves out of the
    empty weight, this is the mass that is left out; without it the mass of the type's list stands in."""
    note: Text | None = None


class LotUsed(Part):
    """Which lot of a material of assembly.yaml went in."""

    material: Name
    lot: Text
    made: Date | None = None
    """When the lot was made; with the shelf life of the material it gives the last day of use."""
    expires: Date | None = None
    """The last day of use as the lot's label has it."""
    worked: Duration | None = None
    """From mixing until the last of it was in its place, for a material with a pot life."""


class CureFile(Part):
    """The log of a cure as a table of comma-separated values."""

    file: FilePath
    """One of the files that the entry cites as evidence."""
    time: Text
    """The heading of the column, with its unit behind a stroke: ``Time / min``, from the start of the log."""
    temperature: Text
    """The heading of the column, with its unit behind a stroke: ``Mould / °C``."""
    within: Temperature | None = None
    """How well the thermometer measures, as an expanded uncertainty, k = 2: ``0.5 °C``; left out, the values
    are held as they stand."""

    @property
    def key(self) -> tuple[str, str, str]:
        """Which columns of which file."""
        return str(self.file), str(self.time), str(self.temperature)

    @property
    def standard_uncertainty(self) -> float:
        """That of the thermometer, in K. A difference of temperatures: only the factor of its unit counts."""
        within = self.within
        return within.as_written * units.scale(within.kind, within.unit)[0] / 2 if within else 0.0


class CureLog(Part):
    """How the resin of this entry hardened, as logged."""

    time: Duration
    """How long it was at the step's lowest temperature or above."""
    lowest: Temperature
    highest: Temperature
    log: CureFile | None = None
    """The log as a file: it is read, and the three values above must be borne out by it."""


class AssemblyEntry(Part):
    """One entry of the assembly record."""

    step: Text
    """The name of a step of assembly.yaml; what was done, in words, if the type has no such file."""
    date: Date | None = None
    """Left out while the work is open."""
    by: Text | None = None
    checked_by: Text | None = None
    checked: Date | None = None
    """When it was checked; left out if on the day of the work."""
    lots: list[Text] = []
    """Lots in words, if the type has no assembly.yaml."""
    materials: list[LotUsed] = []
    cure: CureLog | None = None
    seen: list[Movement] = []
    """Which way each surface went as its control was moved, where the step names ``senses``."""
    measured: AnyQuantity | None = None
    required: Text | None = None
    """The tolerance, in words or numbers, if the type has no assembly.yaml."""
    result: Annotated[str, OneOf("done", "open", "out of tolerance", "accepted with reason")]
    reason: Text | None = None
    evidence: list[Evidence] = []


class Nonconformity(Part):
    """Something that is not as drawn: what it is, and what was decided about it."""

    number: Text
    step: Text | None = None
    """The step that it concerns."""
    found: Date
    description: Text
    disposition: Annotated[str, OneOf("rework", "scrap", "accepted")] | None = None
    """Rework and scrap: the step is done and entered again. Accepted: the piece stays as it is,
    with a reason."""
    reason: Text | None = None
    decided_by: Text | None = None
    closed: Date | None = None
    """Left out while it is open."""


class Brought(Part):
    """A serial was changed to a later state of the drawings."""

    revision: Text
    date: Date


class Build(Part):
    """When and where it was built."""

    started: Date
    completed: Date | None = None
    built_at: Text
    design_revision: Text
    """The state of the drawings that it was built to."""
    brought_to: Brought | None = None
    """The later state of the drawings that it was brought to since."""
    concession: Text | None = None
    """The number of the nonconformity under which it stays at another state than the type's."""

    @property
    def drawings(self) -> str:
        """The states of the drawings, in words."""
        later = self.brought_to
        more = f", brought to {later.revision} on {later.date}" if later else ""
        return f"{self.design_revision}{more}"


class SerialRecord(Part):
    """The record of one serial number."""

    serial_number: SerialNumber
    build: Build
    items_left_out: list[Name] = []
    """Optional items of the type's list that this serial was built without."""
    fitted: dict[Key, Fitted] = {}
    assembly: list[AssemblyEntry] = []
    nonconformities: list[Nonconformity] = []
    events: list[AnyEvent] = []

    def accepts(self, concession: str | None) -> bool:
        """Say whether a concession names a nonconformity of this record that was closed as accepted."""
        return any(
            one.number == concession and one.disposition == "accepted" and one.closed is not None
            for one in self.nonconformities
        )
