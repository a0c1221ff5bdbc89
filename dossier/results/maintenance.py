"""What is due on one serial, when, and how much is left, by the date of the dossier."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from dossier.figures import Figure
from dossier.findings import Finding, Place, Severity
from dossier.model.aircraft import Limit
from dossier.model.events import CountedEvent, Inspection, ListCompleted
from dossier.model.maintenance import Interval, LifeLimit, Maintenance, Task
from dossier.model.record import SerialRecord
from dossier.months import months_after
from dossier.replay import State
from dossier.results.due import Amounts, Item, Period, by_calendar, by_flight_time, by_flights
from dossier.results.flown import HOUR, Total, Totals, counted, totals_by, totals_of
from dossier.results.ticked_tasks import ticked_tasks

OVERDUE, DUE, NOT_KNOWN = "overdue", "not yet due", "not known"
BEFORE_FLIGHT = "due before flight"
FLIGHTS = {"daily": "the first flight of each day", "each": "every flight"}
"""What ``before_flight`` says -> before which flight a task is due."""


@dataclass(frozen=True)
class Start:
    """From where an interval runs."""

    day: date | None
    """None if that day is not on record."""
    place: Place | None
    """Where that day stands."""
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
    amounts: Amounts
    """The same as figures."""

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
    before_flight: str = ""
    """Before which flight, in words; empty if it is due by its measures alone."""
    due_day: date | None = None
    """The day before whose flight it is due next; None if it is due by its measures alone."""
    is_open: bool = False
    """Whether it is to be done before the next flight of the day of the dossier."""

    @property
    def state(self) -> str:
        """``overdue``, ``due before flight``, ``not known`` if a measure has no value, or ``not yet due``."""
        if any(measure.left is not None and measure.left < 0 for measure in self.measures):
            return OVERDUE
        if self.is_open:
            return BEFORE_FLIGHT
        return NOT_KNOWN if any(measure.left is None for measure in self.measures) else DUE

    @property
    def urgency(self) -> tuple[int, float, str]:
        """Sorts the worst first: overdue by the largest share of its interval, then not known."""
        shares = [measure.share for measure in self.measures if measure.share is not None]
        return (OVERDUE, BEFORE_FLIGHT, NOT_KNOWN, DUE).index(self.state), min(shares, default=0.0), self.key


@dataclass(frozen=True)
class MaintenanceState:
    """Everything that is due on a serial, the worst first."""

    totals: Totals
    totals_of: date | None
    """The day of the latest total on record."""
    items: tuple[DueItem, ...]
    findings: tuple[Finding, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, the worst first."""
        measures = (measure for item in self.items for measure in item.measures)
        return tuple(figure for measure in measures for figure in measure.amounts.figures)


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
    told = counted(state, state.as_of)
    return MaintenanceState(
        totals_by(state, state.as_of),
        told[-1].date if told else None,
        ordered,
        (
            *(_finding(item) for item in ordered if item.state == OVERDUE),
            *ticked_tasks(maintenance, state),
        ),
    )


def _task(name: str, task: Task, limits: Mapping[str, Limit], record: SerialRecord, state: State) -> DueItem:
    start, _ = _fitting(str(task.component) if task.component else None, record, state)
    done = [event for event in state.of_kind(Inspection) if name in event.tasks and not _before(event, start)]
    start = _after(done[-1], state) if done else start
    interval = task.every if done or task.first is None else task.first
    last, open_day = _before_flight(task, done[-1].date if done else None, state)
    return DueItem(
        name, str(task.name), False, last, bool(last),
        tuple(_measures(Item(f"task.{name}", str(task.name)), (interval, start), limits, state)),
        (done[-1].place_of_key("tasks") if done else None) or record.place_of_key("events"),
        str(task.level), str(task.source), str(task.procedure or ""),
        FLIGHTS.get(str(task.every.before_flight), ""), open_day, open_day == state.as_of,
    )  # fmt: skip


def _before_flight(task: Task, done: date | None, state: State) -> tuple[date | None, date | None]:
    """Return when it was done last, and before whose flight it is due next.

    Whoever flies makes such a look and signs its list, so a list that was ticked whole counts. One before
    every flight is due again at once: a record of days does not tell one flight from the next.
    """
    before = task.every.before_flight
    if before is None:
        return done, None
    ticked = [
        event.date
        for event in state.of_kind(ListCompleted)
        if event.procedure == task.procedure and not event.steps_open
    ]
    last = max([*([done] if done else []), *ticked], default=None)
    is_done = before == "daily" and last == state.as_of
    return last, state.as_of + timedelta(days=1) if is_done else state.as_of


def _before(event: Inspection, start: Start) -> bool:
    """Whether it was done on a piece that has been replaced since."""
    return start.replaced is not None and event.date < start.replaced


def _life(
    name: str, life: LifeLimit, limits: Mapping[str, Limit], record: SerialRecord, state: State
) -> DueItem:
    start, place = _fitting(str(life.component), record, state)
    return DueItem(
        name, str(life.name), True, start.day, start.replaced is not None,
        tuple(_measures(Item(f"life.{name}", str(life.name)), (life.life, start), limits, state)),
        place or record.place_of_key("events"),
        "", str(life.source), "",
    )  # fmt: skip


def _fitting(component: str | None, record: SerialRecord, state: State) -> tuple[Start, Place | None]:
    """From where time runs: the making of a component, else the build; its fitting after a change."""
    changes = [change for change in state.changes_of(component) if change.fitted] if component else []
    if changes:
        last, start = changes[-1], _after(changes[-1], state)
        if last.made:
            start = replace(start, day=last.made, place=last.place_of_key("made"))
        return replace(start, replaced=last.date), last.place
    build = record.build
    fitted = record.fitted.get(component) if component else None
    new = Total(0, build.place, of="new")
    made = fitted.made if fitted else None
    place = fitted.place_of_key("made") if fitted and made else build.place_of_key("completed")
    return Start(made or build.completed, place, Totals(new, new)), fitted.place if fitted else None


def _after(event: CountedEvent, state: State) -> Start:
    """An event that does not state its totals has those known by its day: if wrong, too low, so due early."""
    return Start(event.date, event.place_of_key("date"), totals_of(event, totals_by(state, event.date)))


def _measures(
    item: Item, runs: tuple[Interval, Start], limits: Mapping[str, Limit], state: State
) -> Iterator[Measure]:
    interval, start = runs
    now = totals_by(state, state.as_of)
    if interval.months is not None:
        yield _calendar(item, interval, start, state.as_of)
    time = limits[interval.limit].value if interval.limit else interval.flight_hours
    if time is not None:
        each = Total(round(time.value), time.place, time.text)
        amounts = by_flight_time(item, start.totals.flight_time, each, now.flight_time)
        yield _counter("flight time", each.value, amounts, f"{each.value / HOUR:g} h")
    if interval.cycles is not None:
        each = Total(interval.cycles, interval.place_of_key("cycles"), str(interval.cycles))
        amounts = by_flights(item, start.totals.cycles, each, now.cycles)
        yield _counter("flights", each.value, amounts, amount("flights", each.value))


def _calendar(item: Item, interval: Interval, start: Start, as_of: date) -> Measure:
    assert interval.months is not None
    words = f"{interval.months} months"
    if start.day is None:
        return Measure("calendar", 0, None, None, words, Amounts())
    due = months_after(start.day, interval.months)
    period = Period(interval.months, interval.place_of_key("months"), start.day, start.place, due)
    left = (due - as_of).days
    return Measure("calendar", (due - start.day).days, due, left, words, by_calendar(item, period, as_of))


def _counter(kind: str, interval: int, amounts: Amounts, words: str) -> Measure:
    due, left = (None if figure is None else figure.value for figure in (amounts.due, amounts.left))
    return Measure(kind, interval, due, left, words, amounts)


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
