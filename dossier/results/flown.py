"""How much an aircraft has flown by a day, and where the record says so."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from dossier.findings import Place
from dossier.model.events import CountedEvent
from dossier.replay import State

HOUR = 3600.0
"""Seconds."""


@dataclass(frozen=True)
class Total:
    """A total of flight time in whole seconds, or of flights, and where it stands."""

    value: int
    """Whole, so that sums of tenths of an hour come out even."""
    place: Place | None
    text: str = ""
    """As the author wrote it; empty for the nought of a new aircraft."""
    of: str = ""
    """The day, or that of a new aircraft."""


@dataclass(frozen=True)
class Totals:
    """How much an aircraft has flown. None where the record does not say."""

    flight_time: Total | None = None
    cycles: Total | None = None


def counted(state: State, day: date) -> list[CountedEvent]:
    """List the events by a day that state a total, oldest first."""
    return [
        event
        for event in state.events
        if isinstance(event, CountedEvent)
        and event.date <= day
        and (event.flight_hours is not None or event.cycles is not None)
    ]


def totals_by(state: State, day: date) -> Totals:
    """Return the latest totals on record by a day."""
    found = Totals()
    for event in counted(state, day):
        found = totals_of(event, found)
    return found


def totals_of(event: CountedEvent, known: Totals) -> Totals:
    """Return the totals that an event states, and those known before where it states none."""
    hours, cycles, of = event.flight_hours, event.cycles, event.date.isoformat()
    return Totals(
        known.flight_time
        if hours is None
        else Total(round(hours.value), event.place_of_key("flight_hours"), hours.text, of),
        known.cycles if cycles is None else Total(cycles, event.place_of_key("cycles"), str(cycles), of),
    )
