"""What happens to one aircraft after it was built. Each event is dated and signed for, and
cites its evidence."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, RootModel

from dossier.model.base import Part
from dossier.model.flight_runs import AirspeedCalibration, LevelRuns, Stalls, TimedDescents, TimedGlides
from dossier.model.glides import MeasuredGlide, SharedErrors
from dossier.model.instruments import ArmInstrument, Scale, Support
from dossier.model.scalars import (
    Angle,
    AnyQuantity,
    Charge,
    Count,
    Date,
    Digest,
    Duration,
    EditionLetter,
    FilePath,
    Flag,
    Key,
    Length,
    Mass,
    Name,
    Number,
    OneOf,
    Ratio,
    SerialNumber,
    Text,
    Voltage,
)
from dossier.model.tick_words import OutOfRule, TickNote, TickWithdrawn


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


class CountedEvent(Event):
    """An event that may say how much the aircraft has flown by then."""

    flight_hours: Duration | None = None
    """Total flight time since the build."""
    cycles: Count | None = None
    """Total number of flights since the build."""


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
    suspended: Flag = False
    """Hung from one point instead of standing: then one support is enough, and its arm is that
    of the point."""
    condition: Text
    """Configuration: canopy closed, controls neutral, what is aboard."""
    levelled: Text
    """By which means, with which result."""
    scales: dict[Key, Scale]
    instruments: dict[Key, ArmInstrument] = {}
    """With which the arms were measured. Arms that name the same one err together."""
    supports: list[Support]
    remove: list[Correction] = []
    add: list[Correction] = []
    pitch_error: Angle | None = None
    height_of_cg: Length | None = None
    """Above the line of the supports; with ``pitch_error`` it gives the error of the arm."""


class TestLog(Part):
    """A log of a discharge of the whole battery, as a table of comma-separated values."""

    file: FilePath
    """One of the files that the event cites as evidence."""
    discharge: Annotated[str, OneOf("positive", "negative")]
    """The sign of a discharge current in the file."""
    time: Text | None = None
    """The heading of the column; left out, that of the open battery format: ``Test Time / s``."""
    voltage: Text | None = None
    current: Text | None = None
    charge: Text | None = None
    """The charge taken, as the instrument counts it."""
    temperature: Text | None = None
    cells: list[Text] = []
    """The headings of the voltages of the groups in series."""
    cell_voltage_error: Voltage | None = None
    """By how much the voltage of one cell may be off against another; left out, 5 mV (common practice, no
    source)."""


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
    resistance_growth: Number | None = None
    """Resistance over that of the new cell, such as ``1.2``, from that test; left out, a published range
    is reckoned with."""
    log: TestLog | None = None
    """Of that test; the capacity that it gives is held against ``measured_capacity``."""


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
    resistance_growth: Number | None = None
    """Resistance over that of the new cell, such as ``1.2``; left out, a published range is reckoned with."""
    log: TestLog | None = None
    """Of this test; the capacity that it gives is held against ``capacity``."""


class EquipmentChange(CountedEvent):
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
    part_number: Text | None = None
    """Drawing or part number of the piece that went in."""
    issue: Text | None = None
    """Issue of that drawing."""
    concession: Text | None = None
    """The number of the nonconformity under which a piece of another number or issue was accepted."""
    made: Date | None = None
    """When the piece of the item that went in was made or packed: a life by calendar runs from then."""


class Inspection(CountedEvent):
    """Someone looked."""

    event: Literal["inspection"]
    what: Text
    result: Text
    open_items: list[Text] = []
    tasks: list[Name] = []
    """Tasks of maintenance.yaml that were done, each completely."""


class Repair(Event):
    """Something was mended."""

    event: Literal["repair"]
    what: Text
    result: Text


class TestResult(Part):
    """A value from a flight test."""

    quantity: Name
    """Such as ``stall_speed``, ``maximum_level_speed``, ``minimum_sink``."""
    value: AnyQuantity | None = None
    """Left out where runs of the same test give it."""
    basis: Annotated[str, OneOf("CAS", "IAS", "TAS")] | None = None
    configuration: Text
    at_mass: Mass | None = None


class FlightTest(CountedEvent):
    """A flight that measured something."""

    event: Literal["flight-test"]
    results: list[TestResult]
    glide_points: list[MeasuredGlide] = []
    """Sinks at several speeds, from which the drag polar is fitted."""
    shared_errors: SharedErrors | None = None
    """Of the glides. Left out: the usual ones, which the page of performance names."""
    position_error: Text | None = None
    """How indicated became calibrated airspeed."""
    airspeed_calibration: AirspeedCalibration | None = None
    """Goes for the runs of this test and of later ones, until the next."""
    stalls: Stalls | None = None
    """Reduced, they give ``stall_speed`` in place of a stated value."""
    timed_descents: TimedDescents | None = None
    """Reduced, they give ``minimum_sink`` in place of a stated value."""
    timed_glides: TimedGlides | None = None
    """Reduced, they are glides from which the drag polar is fitted, as ``glide_points`` are."""
    level_runs: LevelRuns | None = None
    """Reduced, they give ``maximum_level_speed`` in place of a stated value."""


class Bulletin(Event):
    """A service bulletin was done."""

    event: Literal["bulletin"]
    number: Text
    what: Text


class Handover(CountedEvent):
    """The aircraft goes to its customer."""

    event: Literal["handover"]
    to: Text


class ListCompleted(Event):
    """A list was ticked on a device; written by ``dossier add-record`` from the record file of
    the list's page."""

    event: Literal["list-completed"]
    procedure: Text
    """The name of its file, without ending."""
    digest: Digest
    """Of the words of the list as they were ticked."""
    people: list[Text]
    steps_done: Count
    second_checks_done: Count
    """By another person than the step."""
    steps_open: list[Text] = []
    """Steps, second checks and counts that were not ticked."""
    overrides: list[OutOfRule] = []
    notes: list[TickNote] = []
    taken_back: list[TickWithdrawn] = []


class Edition(Event):
    """An edition of the dossier is issued."""

    event: Literal["edition"]
    letter: EditionLetter
    reason: Text


AnyEvent = Annotated[
    Weighing
    | PackFitted
    | PackRemoved
    | CapacityTest
    | EquipmentChange
    | Inspection
    | Repair
    | FlightTest
    | Bulletin
    | Handover
    | ListCompleted
    | Edition,
    Field(discriminator="event"),
]


class EventFile(RootModel[AnyEvent]):
    """``serials/SN/events/*.yaml``: one event in a file of its own."""
