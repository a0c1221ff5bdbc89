"""What is due on one serial, when, and how much is left, by the date of the dossier."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from dossier.findings import Finding, Place, Severity
from dossier.model.aircraft import Limit
from dossier.model.events import CountedEvent, Inspection
from dossier.model.maintenance import Interval, LifeLimit, Maintenance, Task
from dossier.model.record import SerialRecord
from dossier.months import months_after
from dossier.replay import State

HOUR = 3600.0
"""Seconds."""
OVERDUE, DUE, NOT_KNOWN = "overdue", "not yet due", "not known"


@dataclass(frozen=True)
class Totals:
    """How much an aircraft has flown. None where the record does not say."""

    flight_time: int | None = None
    """In whole seconds, so that sums of tenths of an hour come out even."""
    cycles: int | None = None


@dataclass(frozen=True)
class Start:
    """From where an interval runs."""

    day: date | None
    """None if that day is not on record."""
    totals: Totals
    replaced: date | None = None
    """When the component was last replaced; None if it is the one built in."""


@dataclass(frozen=True)
class Measure:
    """One way in which something falls due: by calendar, by flight time or by flights."""

    kind: str
    """``calendar``, ``flight time`` or ``flights``."""
    interval: float
    """Days, seconds or flights."""
    due: date | float | None
    """The day, or the total; None if the record does not give its start."""
    left: float | None
    """Days, seconds or flights; below zero when overdue. None if the record does not give the total."""
    words: str
    """The interval as a reader says it, such as ``12 months``."""

    @property
    def share(self) -> float | None:
        """What is left, as a share of the interval."""
        return None if self.left is None else self.left / self.interval if self.interval else self.left


@dataclass(frozen=True)
class DueItem:
    """A task or a life of a component."""

    key: str
    name: str
    is_life: bool
    last: date | None
    """When it was done last, or the component's life began."""
    done_before: bool
    """False while the first one is still to come."""
    measures: tuple[Measure, ...]
    place: Place | None
    level: str
    source: str
    procedure: str

    @property
    def state(self) -> str:
        """``overdue``, ``not known`` if a measure has no value, or ``not yet due``."""
        if any(measure.left is not None and measure.left < 0 for measure in self.measures):
            return OVERDUE
        return NOT_KNOWN if any(measure.left is None for measure in self.measures) else DUE

    @property
    def urgency(self) -> tuple[int, float, str]:
        """Sorts the worst first: overdue by the largest share of its interval, then not known."""
        shares = [measure.share for measure in self.measures if measure.share is not None]
        return (OVERDUE, NOT_KNOWN, DUE).index(self.state), min(shares, default=0.0), self.key


@dataclass(frozen=True)
class MaintenanceState:
    """Everything that is due on a serial, the worst first."""

    totals: Totals
    totals_of: date | None
    """The day of the latest total on record."""
    items: tuple[DueItem, ...]
    findings: tuple[Finding, ...]


def maintenance_state(
    maintenance: Maintenance, limits: Mapping[str, Limit], record: SerialRecord, state: State
) -> MaintenanceState:
    """Compute what is due.

    Args:
        maintenance: tasks and lives of the type.
        limits: the type's limits; an interval may name one that states flight hours.
        record: the serial's record.
        state: the state by a date.
    """
    items = [
        *(
            _task(name, task, limits, record, state)
            for name, task in maintenance.tasks.items()
            if task.component is None or str(task.component) not in state.left_out
        ),
        *(
            _life(name, life, limits, record, state)
            for name, life in maintenance.life_limits.items()
            if str(life.component) not in state.left_out
        ),
    ]
    ordered = tuple(sorted(items, key=lambda item: item.urgency))
    counted = _counted(state, state.as_of)
    return MaintenanceState(
        totals_by(state, state.as_of),
        counted[-1].date if counted else None,
        ordered,
        tuple(_finding(item) for item in ordered if item.state == OVERDUE),
    )


def _counted(state: State, day: date) -> list[CountedEvent]:
    return [
        event
        for event in state.events
        if isinstance(event, CountedEvent)
        and event.date <= day
        and (event.flight_hours is not None or event.cycles is not None)
    ]


def totals_by(state: State, day: date) -> Totals:
    """Return the latest totals on record by a day."""
    hours = [
        round(event.flight_hours.value) for event in _counted(state, day) if event.flight_hours is not None
    ]
    cycles = [event.cycles for event in _counted(state, day) if event.cycles is not None]
    return Totals(hours[-1] if hours else None, cycles[-1] if cycles else None)


def _task(name: str, task: Task, limits: Mapping[str, Limit], record: SerialRecord, state: State) -> DueItem:
    start, _ = _fitting(str(task.component) if task.component else None, record, state)
    done = [event for event in state.of_kind(Inspection) if name in event.tasks and not _before(event, start)]
    start = _after(done[-1], state) if done else start
    interval = task.every if done or task.first is None else task.first
    return DueItem(
        name, str(task.name), False, done[-1].date if done else None, bool(done),
        tuple(_measures(interval, start, limits, state)),
        (done[-1].place_of_key("tasks") if done else None) or record.place_of_key("events"),
        str(task.level), str(task.source), str(task.procedure or ""),
    )  # fmt: skip


def _before(event: Inspection, start: Start) -> bool:
    """Whether it was done on a piece that has been replaced since."""
    return start.replaced is not None and event.date < start.replaced


def _life(
    name: str, life: LifeLimit, limits: Mapping[str, Limit], record: SerialRecord, state: State
) -> DueItem:
    start, place = _fitting(str(life.component), record, state)
    return DueItem(
        name, str(life.name), True, start.day, start.replaced is not None,
        tuple(_measures(life.life, start, limits, state)), place or record.place_of_key("events"),
        "", str(life.source), "",
    )  # fmt: skip


def _fitting(component: str | None, record: SerialRecord, state: State) -> tuple[Start, Place | None]:
    """From where time runs: the making of a component, else the build; its fitting after a change."""
    changes = [change for change in state.changes_of(component) if change.fitted] if component else []
    if changes:
        start = _after(changes[-1], state)
        return replace(start, day=changes[-1].made or start.day, replaced=changes[-1].date), changes[-1].place
    fitted = record.fitted.get(component) if component else None
    return Start(
        (fitted.made if fitted else None) or record.build.completed, Totals(0, 0)
    ), fitted.place if fitted else None


def _after(event: CountedEvent, state: State) -> Start:
    """An event that does not state its totals has those known by its day: if wrong, too low, so due early."""
    known = totals_by(state, event.date)
    hours = round(event.flight_hours.value) if event.flight_hours is not None else known.flight_time
    return Start(event.date, Totals(hours, event.cycles if event.cycles is not None else known.cycles))


def _measures(
    interval: Interval, start: Start, limits: Mapping[str, Limit], state: State
) -> Iterator[Measure]:
    now = totals_by(state, state.as_of)
    if interval.months is not None:
        due = months_after(start.day, interval.months) if start.day else None
        days = (due - start.day).days if due and start.day else 0
        yield Measure(
            "calendar", days, due, (due - state.as_of).days if due else None, f"{interval.months} months"
        )
    time = limits[interval.limit].value if interval.limit else interval.flight_hours
    if time is not None:
        yield _counter("flight time", round(time.value), start.totals.flight_time, now.flight_time)
    if interval.cycles is not None:
        yield _counter("flights", interval.cycles, start.totals.cycles, now.cycles)


def _counter(kind: str, interval: int, start: int | None, now: int | None) -> Measure:
    due = None if start is None else start + interval
    left = None if due is None or now is None else due - now
    return Measure(
        kind,
        interval,
        due,
        left,
        f"{interval / HOUR:g} h" if kind == "flight time" else amount(kind, interval),
    )


def _finding(item: DueItem) -> Finding:
    told = f"by {past_words(item)}"
    if item.is_life:
        return Finding(
            "S002",
            f"{item.name} is past its life {told}",
            "replace it, and add the equipment-change event",
            item.place,
            Severity.WARNING,
        )
    remedy = f"do it, and add an inspection event with  tasks: [{item.key}]"
    return Finding("S001", f"{item.name} is overdue {told}", remedy, item.place, Severity.WARNING)


def past_words(item: DueItem) -> str:
    """Say by how much it is overdue."""
    past = [measure for measure in item.measures if measure.left is not None and measure.left < 0]
    return " and ".join(amount(measure.kind, -(measure.left or 0)) for measure in past)


def amount(kind: str, value: float) -> str:
    """Say how much calendar time, flight time or how many flights."""
    if kind == "flight time":
        return f"{value / HOUR:.1f} h"
    noun = "day" if kind == "calendar" else "flight"
    return f"{value:.0f} {noun}{'' if value == 1 else 's'}"
