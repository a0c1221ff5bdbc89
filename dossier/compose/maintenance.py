"""What is due on this aircraft: tasks and lives of components, the worst first."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.notices import notices
from dossier.compose.operating.lists import lists
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.words import listed, sentence
from dossier.dossier import Dossier
from dossier.results.maintenance import DUE, NOT_KNOWN, OVERDUE, DueItem, MaintenanceState, Measure, amount

STATES = {
    OVERDUE: Mark("Overdue", "fails"),
    NOT_KNOWN: Mark("Not known", "not-shown"),
    DUE: Mark("Not yet due", "conforms"),
}
HEADS = "+ What | State | Due | Left | = Last done | Interval | Who"
LIFE_HEADS = "+ Component | State | Due | Left | = Life began | Life"


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page, if the type says what is due."""
    due = dossier.maintenance
    if due is None:
        return ()
    at = Printer(dossier, links.MAINTENANCE)
    tasks, lives = ([item for item in due.items if item.is_life == is_life] for is_life in (False, True))
    text = render(
        "maintenance.md.jinja",
        top=notices(at),
        as_of=dossier.state.as_of.isoformat(),
        totals=_totals(due),
        not_known=any(item.state == NOT_KNOWN for item in due.items),
        tasks=_tasks(at, tasks) if tasks else None,
        lives=_lives(lives) if lives else None,
    )
    return (Page(links.MAINTENANCE, "Maintenance due", "Record", text),)


def _totals(due: MaintenanceState) -> tuple[tuple[str, str], ...]:
    hours, cycles = due.totals.flight_time, due.totals.cycles
    return (
        ("Flight time", "not on record" if hours is None else amount("flight time", hours)),
        ("Flights", "not on record" if cycles is None else str(cycles)),
        ("Of", due.totals_of.isoformat() if due.totals_of else "no day"),
    )


def _tasks(at: Printer, items: Iterable[DueItem]) -> Grid:
    procedures = at.dossier.project.procedures
    paths = {
        name: one.path
        for one in lists(at.dossier)
        for name in procedures
        if procedures[name] is one.procedure
    }
    rows = [
        row(
            Cell(
                item.name,
                at.to(paths[item.procedure]) if item.procedure in paths else "",
                note=sentence(item.source),
            ),
            *_amounts(item),
            item.last.isoformat() if item.last else "never",
            _interval(item, "" if item.done_before else " for the first time"),
            item.level,
        )
        for item in items
    ]
    return grid("Tasks, the worst first", HEADS, rows)


def _lives(items: Iterable[DueItem]) -> Grid:
    return grid("Lives of components, the worst first", LIFE_HEADS, map(_life, items))


def _life(item: DueItem) -> Row:
    began = item.last.isoformat() if item.last else "not on record"
    return row(Cell(item.name, note=sentence(item.source)), *_amounts(item), began, _interval(item, ""))


def _amounts(item: DueItem) -> tuple[Cell, str, str]:
    due = " or ".join(_due(measure) for measure in item.measures)
    return Cell(mark=STATES[item.state]), due, listed(_left(measure) for measure in item.measures)


def _due(measure: Measure) -> str:
    if measure.due is None:
        return f"{measure.kind} not known"
    if isinstance(measure.due, date):
        return measure.due.isoformat()
    return f"at {amount(measure.kind, measure.due)}"


def _left(measure: Measure) -> str:
    if measure.left is None:
        return f"{measure.kind} not on record"
    if measure.left < 0:
        return f"{amount(measure.kind, -measure.left)} over"
    return amount(measure.kind, measure.left)


def _interval(item: DueItem, behind: str) -> str:
    parts = [measure.words for measure in item.measures]
    first = ", whichever is first" if len(parts) > 1 else ""
    return f"{' or '.join(parts)}{behind}{first}"
