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
    Weighing,
)

Facts = Iterator[tuple[str, str]]


def event_title(event: AnyEvent) -> str:
    """Name the kind of an event."""
    return sentence(event.event.replace("-", " ")).rstrip(".")


def event_facts(at: Printer, event: AnyEvent) -> Facts:
    """Tell all that an event says but for its evidence."""
    yield "By", str(event.by)
    yield from _own(event, at)
    if event.note:
        yield "Note", str(event.note)


@singledispatch
def _own(event: Event, at: Printer) -> Facts:
    raise TypeError(f"an event of kind {type(event).__name__} has no words")


@_own.register
def _weighing(event: Weighing, at: Printer) -> Facts:
    yield "Place", str(event.place_of_weighing)
    yield "Condition", str(event.condition)
    for support in event.supports:
        yield f"Reading, {support.name}", ", ".join(reading.text for reading in support.readings)


@_own.register
def _fitted(event: PackFitted, at: Printer) -> Facts:
    yield "Battery", f"{event.pack}, {at.dossier.project.battery.options[event.option].name}"
    yield "Mass", at.quantity(event.mass)
    if event.measured_capacity:
        yield "Measured capacity", at.quantity(event.measured_capacity)
    if event.health:
        yield "Health", at.quantity(event.health)


@_own.register
def _removed(event: PackRemoved, at: Printer) -> Facts:
    yield "Battery", f"{event.pack}, {'retired' if event.retired else 'removed'}"


@_own.register
def _capacity_tested(event: CapacityTest, at: Printer) -> Facts:
    yield "Battery", str(event.pack)
    yield "Capacity", at.quantity(event.capacity)
    yield "Conditions", str(event.conditions)


@_own.register
def _changed(event: EquipmentChange, at: Printer) -> Facts:
    for word, items in (("Removed", event.removed), ("Fitted", event.fitted)):
        for item in items:
            yield word, _item(at, item)


def _item(at: Printer, item: Correction) -> str:
    return f"{item.name}, {at.quantity(item.mass)}, arm {at.quantity(item.arm, 'arm')}"


@_own.register
def _inspected(event: Inspection, at: Printer) -> Facts:
    yield "What", str(event.what)
    yield "Result", str(event.result)
    for item in event.open_items:
        yield "Open after it", str(item)


@_own.register
def _repaired(event: Repair, at: Printer) -> Facts:
    yield "What", str(event.what)
    yield "Result", str(event.result)


@_own.register
def _tested(event: FlightTest, at: Printer) -> Facts:
    for result in event.results:
        style = "vertical_speed" if result.quantity == "minimum_sink" else result.value.kind
        basis = f" {result.basis}" if result.basis else ""
        mass = f", at {at.quantity(result.at_mass)}" if result.at_mass else ""
        yield (
            sentence(result.quantity.replace("_", " ")).rstrip("."),
            f"{at.quantity(result.value, style)}{basis}. {result.configuration}{mass}",
        )
    if event.position_error:
        yield "Position error", str(event.position_error)


@_own.register
def _bulletin(event: Bulletin, at: Printer) -> Facts:
    yield "Number", str(event.number)
    yield "What", str(event.what)


@_own.register
def _handover(event: Handover, at: Printer) -> Facts:
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
    yield "Words of the list", f"SHA-256 {event.digest}"


@_own.register
def _edition(event: Edition, at: Printer) -> Facts:
    yield "Edition", str(event.letter)
    yield "Reason", str(event.reason)
