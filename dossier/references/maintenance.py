"""References of maintenance.yaml, tasks that inspections name, and totals that can only rise."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.events import CountedEvent, Inspection
from dossier.model.maintenance import Interval, Maintenance
from dossier.model.record import SerialRecord
from dossier.project import Project
from dossier.references.names import unknown

FILE = "maintenance.yaml"


def check(project: Project) -> Iterator[Finding]:
    """Check the maintenance file and what the serials say of it."""
    if project.maintenance is not None:
        yield from _file(project.maintenance, project)
    tasks = project.maintenance.tasks if project.maintenance else {}
    for record in project.serials.values():
        for event in record.events:
            for name in event.tasks if isinstance(event, Inspection) else ():
                yield from unknown(name, tasks, "task", FILE)
        yield from _totals(record)


def _file(maintenance: Maintenance, project: Project) -> Iterator[Finding]:
    items = project.aircraft.items
    for task in maintenance.tasks.values():
        if task.procedure is not None:
            yield from unknown(task.procedure, project.procedures, "procedure", "the folder procedures")
        if task.component is not None:
            yield from unknown(task.component, items, "item", "items in aircraft.yaml")
        for interval in (task.every, *([task.first] if task.first else [])):
            yield from _interval(interval, project)
    for life in maintenance.life_limits.values():
        yield from unknown(life.component, items, "item", "items in aircraft.yaml")
        yield from _interval(life.life, project)
        if life.life.before_flight is not None:
            yield Finding(
                "S004",
                "the life of a component is no matter of one flight",
                "write months, flight_hours, limit or cycles",
                life.life.place_of_key("before_flight"),
            )


def _interval(interval: Interval, project: Project) -> Iterator[Finding]:
    counted = (interval.months, interval.flight_hours, interval.limit, interval.cycles)
    if all(measure is None for measure in (*counted, interval.before_flight)):
        remedy = "write months, flight_hours, limit, cycles or before_flight"
        yield Finding("S004", "the interval has no measure", remedy, interval.place)
    if interval.flight_hours is not None and interval.limit is not None:
        yield Finding(
            "S004", "the interval states its flight hours twice", "keep flight_hours or limit", interval.place
        )
    if interval.limit is not None:
        limits = project.aircraft.limits
        yield from unknown(interval.limit, limits, "limit", "limits in aircraft.yaml")
        if interval.limit in limits and limits[interval.limit].value.kind != "time":
            value = limits[interval.limit].value
            said = f"the limit {str(interval.limit)!r} is {value.text}, which is no flight time"
            yield Finding("S005", said, "name a limit in hours", interval.place_of_key("limit"))


def _totals(record: SerialRecord) -> Iterator[Finding]:
    hours, cycles = 0.0, 0
    for event in record.events:
        if not isinstance(event, CountedEvent):
            continue
        if event.flight_hours is not None and event.flight_hours.value < hours:
            said = f"the total of flight hours falls to {event.flight_hours.text}"
            yield Finding("S003", said, "write the total since the build", event.place_of_key("flight_hours"))
        if event.cycles is not None and event.cycles < cycles:
            said = f"the total of flights falls from {cycles} to {event.cycles}"
            yield Finding("S003", said, "write the total since the build", event.place_of_key("cycles"))
        hours = max(hours, event.flight_hours.value if event.flight_hours is not None else 0.0)
        cycles = max(cycles, event.cycles or 0)
