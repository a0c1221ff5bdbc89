"""``maintenance.yaml``: what is due how often, and how long components last."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import Count, Duration, Key, Name, OneOf, Text


class Interval(Part):
    """How long until it is due: by whichever of these comes first."""

    months: Count | None = None
    """Calendar months."""
    flight_hours: Duration | None = None
    limit: Name | None = None
    """A limit of aircraft.yaml that states the flight hours, in place of ``flight_hours``."""
    cycles: Count | None = None
    """Flights."""
    before_flight: Annotated[str, OneOf("daily", "each")] | None = None
    """For a task: ``daily`` before the first flight of a day, ``each`` before every flight. The record of the
    serial need not hold it, so it is never overdue, but due until it was done on the day."""


class Task(Part):
    """Work that comes again."""

    name: Text
    every: Interval
    first: Interval | None = None
    """When it is due for the first time; left out if after the usual interval."""
    procedure: Name | None = None
    """The file of the procedure, without its ending."""
    level: Text
    """Who may do it: owner, builder, a person of which training."""
    source: Text
    """Where the interval comes from."""
    component: Name | None = None
    """An item of the type's list: the task is for serials that have it.

    It runs from when the item was made or packed."""


class LifeLimit(Part):
    """How long a component stays in the aircraft."""

    component: Name
    """An item of the type's list."""
    name: Text
    """What of it, such as: rocket of the parachute."""
    life: Interval
    source: Text


class Maintenance(Part):
    """The maintenance file."""

    tasks: dict[Key, Task] = {}
    life_limits: dict[Key, LifeLimit] = {}
