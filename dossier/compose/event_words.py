"""What each kind of event says, in words."""

from __future__ import annotations

from collections.abc import Iterator
from functools import singledispatch

from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.model.events import (
    AnyEvent,
    Bulletin,
    CapacityTest,
    Correction,
    CountedEvent,
    Edition,
    EquipmentChange,
    Event,
    FlightTest,
    Handover,
    Inspection,
    ListCompleted,
    PackFitted,
    PackRemoved,
    Repair,
    TestResult,
    Weighing,
)
from dossier.model.flight_runs import BLOCKS, Runs
from dossier.model.glides import MeasuredGlide, SharedErrors

Facts = Iterator[tuple[str, str]]


def event_title(event: AnyEvent) -> str:
    """Name the kind of an event."""
    return sentence(event.event.replace("-", " ")).rstrip(".")


def event_facts(at: Printer, event: AnyEvent) -> Facts:
    """Tell all that an event says but for its evidence."""
    yield "By", str(event.by)
    yield from _own(event, at)
    if isinstance(event, CountedEvent):
        yield from _flown_by_then(event)
    if event.note:
        yield "Note", str(event.note)


def _flown_by_then(event: CountedEvent) -> Facts:
    if event.flight_hours:
        yield "Flight time since the build", event.flight_hours.text
    if event.cycles is not None:
        yield "Flights since the build", str(event.cycles)


@singledispatch
def _own(event: Event, _at: Printer) -> Facts:
    """Values of the record need a printer; an event without any is told by its text alone."""
    return _text(event)


@singledispatch
def _text(event: Event) -> Facts:
    raise TypeError(f"an event of kind {type(event).__name__} has no words")


@_text.register
def _weighing(event: Weighing) -> Facts:
    yield "Place", str(event.place_of_weighing)
    yield "Condition", str(event.condition)
    for support in event.supports:
        yield f"Reading, {support.name}", ", ".join(reading.text for reading in support.readings)


@_own.register
def _fitted(event: PackFitted, at: Printer) -> Facts:
    yield "Battery", f"{event.pack}, {at.dossier.project.battery.options[event.option].name}"
    yield "Mass", at.quantity(event.mass)
    if event.arm:
        yield "Arm", at.quantity(event.arm, "arm")
    if event.measured_capacity:
        yield "Measured capacity", at.quantity(event.measured_capacity)
    if event.health:
        yield "Health", at.quantity(event.health)
    yield from _growth(event)


@_text.register
def _removed(event: PackRemoved) -> Facts:
    yield "Battery", f"{event.pack}, {'retired' if event.retired else 'removed'}"


@_own.register
def _capacity_tested(event: CapacityTest, at: Printer) -> Facts:
    yield "Battery", str(event.pack)
    yield "Capacity", at.quantity(event.capacity)
    yield "Conditions", str(event.conditions)
    yield from _growth(event)


def _growth(event: PackFitted | CapacityTest) -> Facts:
    if event.resistance_growth:
        yield "Resistance over that when new", event.resistance_growth.text
    if event.log:
        yield "Log of the test", str(event.log.file)


@_own.register
def _changed(event: EquipmentChange, at: Printer) -> Facts:
    for word, items in (("Removed", event.removed), ("Fitted", event.fitted)):
        for item in items:
            yield word, _item(at, item)
    piece = (("Serial number", event.serial_number), ("Lot", event.lot), ("Made", event.made))
    yield from ((word, str(value)) for word, value in piece if value is not None)


def _item(at: Printer, item: Correction) -> str:
    return f"{item.name}, {at.quantity(item.mass)}, arm {at.quantity(item.arm, 'arm')}"


@_own.register
def _inspected(event: Inspection, at: Printer) -> Facts:
    yield "What", str(event.what)
    yield "Result", str(event.result)
    tasks = at.dossier.project.maintenance.tasks if at.dossier.project.maintenance else {}
    for name in event.tasks:
        yield "Task done", str(tasks[name].name) if name in tasks else str(name)
    for item in event.open_items:
        yield "Open after it", str(item)


@_text.register
def _repaired(event: Repair) -> Facts:
    yield "What", str(event.what)
    yield "Result", str(event.result)


@_own.register
def _tested(event: FlightTest, at: Printer) -> Facts:
    for result in event.results:
        basis = f" {result.basis}" if result.basis else ""
        mass = f", at {at.quantity(result.at_mass)}" if result.at_mass else ""
        yield (
            sentence(result.quantity.replace("_", " ")).rstrip("."),
            f"{_value(at, result)}{basis}. {result.configuration}{mass}",
        )
    for number, glide in enumerate(event.glide_points, start=1):
        yield f"Glide {number}", _glide(at, glide)
    if event.shared_errors:
        yield "Errors that the glides share", _shared(event.shared_errors)
    for name in BLOCKS:
        block: Runs | None = getattr(event, name)
        if block is not None:
            where = f"in {block.file}" if block.file else f"{len(block.runs)} in the record"
            title = sentence(name.replace("_", " ")).rstrip(".")
            yield title, f"runs {where}, reduced with flight performance"
    if event.position_error:
        yield "Position error", str(event.position_error)


def _value(at: Printer, result: TestResult) -> str:
    if result.value is None:
        return "What its runs give"
    return at.quantity(
        result.value, "vertical_speed" if result.quantity == "minimum_sink" else result.value.kind
    )


def _glide(at: Printer, glide: MeasuredGlide) -> str:
    air = [one.text for one in (glide.pressure_altitude, glide.temperature) if one]
    flown = f"{at.quantity(glide.speed)}, sink {at.quantity(glide.sink, 'vertical_speed')}"
    mass = [f"at {at.quantity(glide.at_mass)}"] if glide.at_mass else []
    return ", ".join([flown, *mass, *air])


def _shared(errors: SharedErrors) -> str:
    told = (
        ("air motion", errors.air_motion),
        ("scale of the airspeed", errors.airspeed_scale),
        ("mass", errors.mass),
        ("density", errors.density),
    )
    return ", ".join(f"{word} {error.text}" for word, error in told if error)


@_text.register
def _bulletin(event: Bulletin) -> Facts:
    yield "Number", str(event.number)
    yield "What", str(event.what)


@_text.register
def _handover(event: Handover) -> Facts:
    yield "To", str(event.to)


@_own.register
def _list_completed(event: ListCompleted, at: Printer) -> Facts:
    procedure = at.dossier.project.procedures.get(str(event.procedure))
    yield "List", str(procedure.title if procedure else event.procedure)
    yield "People", ", ".join(map(str, event.people))
    yield "Steps done", str(event.steps_done)
    yield "Second checks", f"{event.second_checks_done}, by another person than the step"
    for tick in event.steps_open:
        yield "Open", str(tick)
    for override in event.overrides:
        yield "Against the order of the list", f"{override.tick}. Reason: {override.reason}"
    for written in event.notes:
        yield "Note beside a tick", f"{written.tick}. {written.note}"
    for back in event.taken_back:
        gone = f"{back.ticks} ticks in all" if back.ticks > 1 else "no other with it"
        yield "Tick taken back", f"{back.tick}. At {back.at}; {gone}"
    yield "Words of the list", f"SHA-256 {event.digest}"


@_text.register
def _edition(event: Edition) -> Facts:
    yield "Edition", str(event.letter)
    yield "Reason", str(event.reason)
