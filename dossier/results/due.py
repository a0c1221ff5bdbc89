"""How the amounts of what is due come about: when it is due, and what is left, each as a figure."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from dossier.compute import upkeep
from dossier.compute.ageing import DAY
from dossier.figures import Figure, Input, evaluate, taken
from dossier.findings import Place
from dossier.results.flown import Total

NOWHERE = "not in a file"
MONTHS = "A period of months ends on the same day of the month, or on the last day of a month that has none."


@dataclass(frozen=True)
class Item:
    """What is due: the beginning of the names of its figures, and what a reader calls it."""

    key: str
    """Such as ``task.yearly``."""
    name: str


@dataclass(frozen=True)
class Period:
    """A period of the calendar, as it runs for one aircraft."""

    months: int
    months_place: Place | None
    start: date
    start_place: Place | None
    due: date


@dataclass(frozen=True)
class Amounts:
    """When it is due, by what is flown, and what is left. None where the record does not give it."""

    due: Figure | None = None
    left: Figure | None = None

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Those that there are."""
        return tuple(figure for figure in (self.due, self.left) if figure)


def by_calendar(item: Item, period: Period, as_of: date) -> Amounts:
    """Count the days that are left of a period."""
    whole = Input(
        f"{period.months} months from {period.start.isoformat()}, to {period.due.isoformat()}", "time",
        (period.due - period.start).days * DAY, period.months_place or NOWHERE, str(period.months),
    )  # fmt: skip
    gone = Input(
        f"from {period.start.isoformat()} to {as_of.isoformat()}, the date of this dossier", "time",
        (as_of - period.start).days * DAY, period.start_place or NOWHERE, period.start.isoformat(),
    )  # fmt: skip
    left = evaluate(
        upkeep.days_left, f"{item.key}.days_left", f"Days left, {item.name}", "time",
        {"t_p": whole, "t_g": gone}, style="days",
        note=MONTHS,
    )  # fmt: skip
    return Amounts(left=left)


def by_flight_time(item: Item, start: Total | None, interval: Total, now: Total | None) -> Amounts:
    """Count flight time."""
    if start is None:
        return Amounts()
    due = evaluate(
        upkeep.flight_time_at_due, f"{item.key}.flight_time_at_due", f"Flight time when due, {item.name}",
        "time",
        {"t_0": _time("flight time at the start", start), "t_I": _interval("time", interval)}, style="hours",
    )  # fmt: skip
    if now is None:
        return Amounts(due)
    left = evaluate(
        upkeep.flight_time_left, f"{item.key}.flight_time_left", f"Flight time left, {item.name}", "time",
        {"t_d": taken(due), "t_F": _time("flight time on record", now)}, style="hours",
    )  # fmt: skip
    return Amounts(due, left)


def by_flights(item: Item, start: Total | None, interval: Total, now: Total | None) -> Amounts:
    """Count flights."""
    if start is None:
        return Amounts()
    due = evaluate(
        upkeep.flights_at_due, f"{item.key}.flights_at_due", f"Flights when due, {item.name}",
        "number",
        {"N_0": _count("flights at the start", start), "N_I": _interval("number", interval)}, style="count",
    )  # fmt: skip
    if now is None:
        return Amounts(due)
    left = evaluate(
        upkeep.flights_left, f"{item.key}.flights_left", f"Flights left, {item.name}", "number",
        {"N_d": taken(due), "N_F": _count("flights on record", now)}, style="count",
    )  # fmt: skip
    return Amounts(due, left)


def _time(label: str, total: Total) -> Input:
    return Input(f"{label}, {total.of}", "time", float(total.value), total.place or NOWHERE, total.text)


def _count(label: str, total: Total) -> Input:
    return Input(f"{label}, {total.of}", "number", float(total.value), total.place or NOWHERE, total.text)


def _interval(kind: str, total: Total) -> Input:
    return Input("interval", kind, float(total.value), total.place or NOWHERE, total.text)
