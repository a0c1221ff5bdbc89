"""Tables of what is due: one for each way in which something falls due."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.maintenance import DueItem, Measure
from dossier.results_tables.table import DAY, FLAG, WORDS, Table, Value, known, table

NO_FILE = "the type has no maintenance.yaml"
NOTHING = "nothing falls due in this way"
KINDS = {
    "calendar": ("due_by_calendar", "days", DAY),
    "flight time": ("due_by_flight_time", "time", "time"),
    "flights": ("due_by_flights", "flights", "flights"),
}
"""Way of falling due -> name of the table, kind of its amounts, kind of when it is due."""


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    state = dossier.maintenance
    items = state.items if state else ()
    for way, (name, amount, when) in KINDS.items():
        columns = (
            ("task", WORDS, "key of the task or the life in maintenance.yaml"),
            ("name", WORDS, "what is due"),
            ("life", FLAG, "whether it is the life of a component, and no task"),
            ("last", DAY, "when it was done last, or the life of the component began"),
            ("interval_in_words", WORDS, "how long from one time to the next, as the type's file says it"),
            ("interval", amount, "the same, counted from the last time"),
            ("due", when, "the day, or the total of the aircraft, at which it is due"),
            ("left", amount, "what is left until then; below zero when overdue"),
            ("overdue", FLAG, "whether it is overdue"),
            ("figure", WORDS, "the figure of what is left"),
        )
        rows = (_due(item, measure) for item in items for measure in item.measures if measure.kind == way)
        yield table(name, f"What is due by {way}", columns, rows, NOTHING if state else NO_FILE)


def _due(item: DueItem, measure: Measure) -> tuple[Value, ...]:
    no_start = "the record does not say from when it runs"
    uncounted = measure.kind == "calendar" and measure.due is None  # months have no days without a start
    left = measure.amounts.left
    return (
        str(item.key),
        str(item.name),
        item.is_life,
        known(item.last, "never, or not on record"),
        measure.words,
        known(None if uncounted else measure.interval, no_start),
        known(measure.due, no_start),
        known(measure.left, "the record does not give its start, or how much has been flown"),
        known(None if measure.left is None else measure.left < 0, "what is left is not known"),
        known(left.name if left else None, "what is left is not known"),
    )
