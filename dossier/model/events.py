"""What happens to one aircraft after it was built. Each event is dated and signed for, and cites its evidence."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from dossier.model.base import Part
from dossier.model.scalars import (
    Angle,
    AnyQuantity,
    Charge,
    Date,
    EditionLetter,
    FilePath,
    Flag,
    Key,
    Length,
    Mass,
    Name,
    OneOf,
    Ratio,
    SerialNumber,
    Text,
)


class Evidence(Part):
    """A file that an event cites, relative to the serial's folder. Its digest is computed and sealed."""

    file: FilePath
    shows: Text


class Event(Part):
    """What every event says."""

    date: Date
    by: Text
    """Who did it or vouches for it."""
    note: Text | None = None
    evidence: list[Evidence] = []


class Scale(Part):
    """A weighing scale."""

    name: Text
    serial_number: Text
    calibrated: Date
    certificate: Text
    """Scales that share a certificate share their calibration error."""
    maximum_permissible_error: Mass
    """The largest error that the certificate leaves, at these loads."""
    resolution: Mass
    zero_before: Mass | None = None
    zero_after: Mass | None = None


class Support(Part):
    """A point on which the aircraft stands while it is weighed."""

    name: Text
    scale: Name
    readings: list[Mass]
    """One reading, or several with the aircraft taken off and put on again."""
    tare: Mass | None = None
    """Chocks, jacks and blocks on the scale."""
    arm: Length
    lateral_arm: Length | None = None
    """Right positive."""


class Correction(Part):
    """Something aboard that is no part of the empty aircraft, or a part that was missing."""

    name: Text
    mass: Mass
    arm: Length


class Weighing(Event):
    """The aircraft on scales. It supersedes every earlier computed empty mass."""

    event: Literal["weighing"]
    place_of_weighing: Text
    """Such as: closed hangar, doors shut."""
    condition: Text
    """Configuration: canopy closed, controls neutral, what is aboard."""
    levelled: Text
    """By which means, with which result."""
    scales: dict[Key, Scale]
    supports: list[Support]
    remove: list[Correction] = []
    add: list[Correction] = []
    pitch_error: Angle | None = None
    height_of_cg: Length | None = None
    """Above the line of the supports; with ``pitch_error`` it gives the error of the arm."""


class PackFitted(Event):
    """A battery goes in."""

    event: Literal["pack-fitted"]
    pack: SerialNumber
    option: Name
    mass: Mass
    """As weighed."""
    arm: Length | None = None
    """Left out: the arm of the option."""
    measured_capacity: Charge | None = None
    health: Ratio | None = None
    """Capacity against nominal, from a test."""


class PackRemoved(Event):
    """A battery comes out; with ``retired`` for good."""

    event: Literal["pack-removed"]
    pack: SerialNumber
    retired: Flag = False


class CapacityTest(Event):
    """The capacity of a battery was measured; from here on its energy is computed with it."""

    event: Literal["capacity-test"]
    pack: SerialNumber
    capacity: Charge
    conditions: Text
    """Current, temperature, from which voltage to which."""


class EquipmentChange(Event):
    """Equipment goes in or out; the empty mass is computed from here until the next weighing."""

    event: Literal["equipment-change"]
    fitted: list[Correction] = []
    removed: list[Correction] = []
    item: Name | None = None
    """The item of the type's list that this concerns, if it is one."""
    serial_number: Text | None = None
    """Of the piece of the item that went in."""
    lot: Text | None = None
    """Of the piece of the item that went in."""


class Inspection(Event):
    """Someone looked."""

    event: Literal["inspection"]
    what: Text
    result: Text
    open_items: list[Text] = []


class Repair(Event):
    """Something was mended."""

    event: Literal["repair"]
    what: Text
    result: Text


class TestResult(Part):
    """A value from a flight test."""

    quantity: Name
    """Such as ``stall_speed``, ``maximum_level_speed``, ``minimum_sink``."""
    value: AnyQuantity
    basis: Annotated[str, OneOf("CAS", "IAS", "TAS")] | None = None
    configuration: Text
    at_mass: Mass | None = None


class FlightTest(Event):
    """A flight that measured something."""

    event: Literal["flight-test"]
    results: list[TestResult]
    position_error: Text | None = None
    """How indicated became calibrated airspeed."""


class Bulletin(Event):
    """A service bulletin was done."""

    event: Literal["bulletin"]
    number: Text
    what: Text


class Handover(Event):
    """The aircraft goes to its customer."""

    event: Literal["handover"]
    to: Text


class Edition(Event):
    """An edition of the dossier is issued."""

    event: Literal["edition"]
    letter: EditionLetter
    reason: Text


AnyEvent = Annotated[
    Weighing | PackFitted | PackRemoved | CapacityTest | EquipmentChange | Inspection | Repair | FlightTest | Bulletin | Handover | Edition,
    Field(discriminator="event"),
]
