"""From a typed record to the state of one aircraft as of a date: its events, replayed in order."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import reduce
from typing import TypeVar

from dossier.findings import Finding, Place, Severity
from dossier.model.events import (
    AnyEvent,
    CapacityTest,
    Edition,
    EquipmentChange,
    FlightTest,
    Handover,
    PackFitted,
    PackRemoved,
    TestResult,
    Weighing,
)
from dossier.model.record import SerialRecord

EventType = TypeVar("EventType")


@dataclass(frozen=True)
class Measured:
    """A value from a flight test, with the test that gave it."""

    result: TestResult
    test: FlightTest


@dataclass(frozen=True)
class State:
    """One aircraft after all events up to a date."""

    as_of: date
    events: tuple[AnyEvent, ...] = ()
    weighing: Weighing | None = None
    packs_at_weighing: tuple[PackFitted, ...] = ()
    changes: tuple[EquipmentChange, ...] = ()
    """Equipment changes since the last weighing."""
    packs: tuple[PackFitted, ...] = ()
    retired: tuple[str, ...] = ()
    capacity_tests: Mapping[str, CapacityTest] = field(default_factory=dict)
    """The latest capacity test of each battery, by its serial number."""
    left_out: frozenset[str] = frozenset()
    """Items of the type's list that are not in this aircraft now."""
    measured: Mapping[str, Measured] = field(default_factory=dict)
    """The latest flight-test result of each quantity."""
    edition: Edition | None = None
    handover: Handover | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def battery(self) -> str | None:
        """The option of battery.yaml that is in the bay; None while none is fitted."""
        return str(self.packs[0].option) if self.packs else None

    def of_kind(self, kind: type[EventType]) -> tuple[EventType, ...]:
        """List the events of one kind, oldest first."""
        return tuple(event for event in self.events if isinstance(event, kind))

    def changes_of(self, item: str) -> tuple[EquipmentChange, ...]:
        """List the equipment changes since the build that concern an item of the type's
        list, oldest first."""
        return tuple(event for event in self.of_kind(EquipmentChange) if event.item == item)


def default_date(record: SerialRecord) -> date:
    """Return the last date in the record: the same record then gives the same dossier on any day, and nothing
    in it is left out."""
    return max(day for day, _ in dated(record))


def dated(record: SerialRecord) -> Iterator[tuple[date, Place | None]]:
    """Give every day on which something was done or found, with its place."""
    yield record.build.completed or record.build.started, record.build.place
    for event in record.events:
        yield event.date, event.place_of_key("date")
    for entry in record.assembly:
        for day, key in ((entry.date, "date"), (entry.checked, "checked")):
            if day is not None:
                yield day, entry.place_of_key(key)
    for one in record.nonconformities:
        for day, key in ((one.found, "found"), (one.closed, "closed")):
            if day is not None:
                yield day, one.place_of_key(key)


def not_yet(record: SerialRecord, as_of: date) -> Iterator[Finding]:
    """Tell that something in the record is later than the date asked for: it is in no number and no list."""
    later = [(day, place) for day, place in dated(record) if day > as_of]
    if later:
        last = max(day for day, _ in later)
        count = f"{len(later)} entries are" if len(later) > 1 else "one entry is"
        yield Finding(
            "E014",
            f"{count} later than {as_of}, the last of {last}, and not in this dossier",
            "leave out  --as-of  to have them in",
            later[0][1], Severity.NOTE,
        )  # fmt: skip


def replay(record: SerialRecord, options: Collection[str], as_of: date) -> State:
    """Replay a serial's events up to and including a date.

    Args:
        record: the serial's record.
        options: names of the battery options that the type has.
        as_of: events after this date are left out.
    """
    start = State(as_of=as_of, left_out=frozenset(map(str, record.items_left_out)), findings=_order(record))
    past = [event for event in record.events if event.date <= as_of]
    return reduce(lambda state, event: _after(state, event, options), past, start)


def _order(record: SerialRecord) -> tuple[Finding, ...]:
    findings = []
    before: date = record.build.started
    for event in record.events:
        if event.date < before:
            findings.append(
                Finding(
                    "E001",
                    f"this event of {event.date} stands behind one of {before}",
                    "put the events in the order of their dates",
                    event.place_of_key("date"),
                )
            )
        before = max(before, event.date)
    return tuple(findings)


def _after(state: State, event: AnyEvent, options: Collection[str]) -> State:
    state = replace(state, events=(*state.events, event))
    effect = _EFFECTS.get(type(event))
    return effect(state, event, options) if effect else state


def _weighed(state: State, event: Weighing, _options: Collection[str]) -> State:
    return replace(state, weighing=event, packs_at_weighing=state.packs, changes=())


def _changed(state: State, event: EquipmentChange, _options: Collection[str]) -> State:
    left_out = state.left_out
    if event.item is not None:
        name = {str(event.item)}
        left_out = left_out - name if event.fitted else left_out | name
    return replace(state, changes=(*state.changes, event), left_out=left_out)


def _pack_in(state: State, event: PackFitted, options: Collection[str]) -> State:
    if event.option not in options:
        return _with(
            state,
            Finding(
                "E002",
                f"the battery option {str(event.option)!r} is not in battery.yaml",
                f"options: {', '.join(options)}",
                event.place_of_key("option"),
            ),
        )
    problem = None
    if any(pack.pack == event.pack for pack in state.packs):
        problem = (
            "E003",
            f"the pack {str(event.pack)!r} is fitted already",
            "add its pack-removed event before this one",
        )
    elif event.pack in state.retired:
        problem = (
            "E004",
            f"the pack {str(event.pack)!r} was retired",
            "correct the serial number of the pack",
        )
    elif state.packs:
        problem = (
            "E005",
            f"the pack {str(state.packs[0].pack)!r} is still in the bay",
            "add its pack-removed event before this one",
        )
    if problem:
        return _with(
            state, Finding(*problem, event.place_of_key("option" if problem[0] == "E002" else "pack"))
        )
    return replace(state, packs=(*state.packs, _as_measured_before(state, event)))


def _as_measured_before(state: State, event: PackFitted) -> PackFitted:
    """Let a pack that comes back with the mass or arm stated before share that measurement: its error is the
    same one, and cancels."""
    earlier = [one for one in state.of_kind(PackFitted)[:-1] if one.pack == event.pack]
    same = {
        key: getattr(one, key)
        for one in reversed(earlier)
        for key in ("mass", "arm")
        if getattr(one, key) == getattr(event, key)
    }
    return event.model_copy(update=same)


def _pack_out(state: State, event: PackRemoved, _options: Collection[str]) -> State:
    if all(pack.pack != event.pack for pack in state.packs):
        fitted = ", ".join(str(pack.pack) for pack in state.packs) or "none"
        return _with(
            state,
            Finding(
                "E006",
                f"the pack {str(event.pack)!r} is not fitted at this date",
                f"packs fitted: {fitted}",
                event.place_of_key("pack"),
            ),
        )
    return replace(
        state,
        packs=tuple(pack for pack in state.packs if pack.pack != event.pack),
        retired=(*state.retired, str(event.pack)) if event.retired else state.retired,
    )


def _tested(state: State, event: CapacityTest, _options: Collection[str]) -> State:
    if all(pack.pack != event.pack for pack in state.packs):
        fitted = ", ".join(str(pack.pack) for pack in state.packs) or "none"
        return _with(
            state,
            Finding(
                "E008",
                f"the pack {str(event.pack)!r} was tested, and it is not fitted at this date",
                f"packs fitted: {fitted}",
                event.place_of_key("pack"),
            ),
        )
    return replace(state, capacity_tests={**state.capacity_tests, str(event.pack): event})


def measured_again(state: State) -> Iterator[Finding]:
    """Tell each quantity that an earlier flight test measured with another result: the later one counts."""
    before: dict[str, tuple[str, date]] = {}
    for event in state.of_kind(FlightTest):
        for result in event.results:
            name, text = str(result.quantity), result.value.text if result.value else "what its runs give"
            if name in before and before[name][0] != text:
                yield Finding(
                    "E015",
                    f"the quantity {name!r} was {before[name][0]} on {before[name][1]} and is {text} now; "
                    "the "
                    "later one counts",
                    "say in the event why it was measured again, and what was changed",
                    result.place_of_key("value"), Severity.WARNING,
                )  # fmt: skip
            before[name] = (text, event.date)


def _flown(state: State, event: FlightTest, _options: Collection[str]) -> State:
    latest = {str(result.quantity): Measured(result, event) for result in event.results}
    return replace(state, measured={**state.measured, **latest})


def _issued(state: State, event: Edition, _options: Collection[str]) -> State:
    if state.edition and (len(event.letter), event.letter) <= (
        len(state.edition.letter),
        state.edition.letter,
    ):
        return _with(
            state,
            Finding(
                "E007",
                f"edition {event.letter} follows edition {state.edition.letter}",
                "give every edition the next letter",
                event.place_of_key("letter"),
            ),
        )
    return replace(state, edition=event)


def _handed_over(state: State, event: Handover, _options: Collection[str]) -> State:
    return replace(state, handover=event)


def _with(state: State, finding: Finding) -> State:
    assert finding.severity is Severity.ERROR
    return replace(state, findings=(*state.findings, finding))


_EFFECTS: dict[type, Callable[..., State]] = {
    Weighing: _weighed,
    CapacityTest: _tested,
    EquipmentChange: _changed,
    PackFitted: _pack_in,
    PackRemoved: _pack_out,
    FlightTest: _flown,
    Edition: _issued,
    Handover: _handed_over,
}
