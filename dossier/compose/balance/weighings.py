"""Every weighing in order: each one supersedes what was computed before it."""

from __future__ import annotations

from dossier.compose.grid import Grid, Row, grid, row
from dossier.compose.printer import Printer
from dossier.model.events import Weighing


def chain(at: Printer) -> Grid | None:
    """List the weighings, if there is more than one. Superseded ones keep their readings."""
    events = at.dossier.state.of_kind(Weighing)
    if len(events) < 2:
        return None
    rows = [
        _row(event, events[number + 1] if number + 1 < len(events) else None)
        for number, event in enumerate(events)
    ]
    return grid("Weighings in order", "= Date | Place | By | Readings | State", rows)


def _row(event: Weighing, next_one: Weighing | None) -> Row:
    readings = "; ".join(
        f"{support.name} {', '.join(reading.text for reading in support.readings)}"
        for support in event.supports
    )
    state = f"superseded on {next_one.date.isoformat()}" if next_one else "in force"
    return row(event.date.isoformat(), str(event.place_of_weighing), str(event.by), readings, state)
