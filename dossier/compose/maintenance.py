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
from dossier.compose.words import sentence
from dossier.dossier import Dossier
from dossier.figures import Figure
from dossier.results.maintenance import (
    BEFORE_FLIGHT,
    DUE,
    NOT_KNOWN,
    OVERDUE,
    DueItem,
    MaintenanceState,
    Measure,
    amount,
)

STATES = {
    OVERDUE: Mark("Overdue", "fails"),
    NOT_KNOWN: Mark("Not known", "not-shown"),
    BEFORE_FLIGHT: Mark("Due before flight", "inconclusive"),
    DUE: Mark("Not yet due", "conforms"),
}
SORTED = "overdue, due before flight, not known, then by the share of the interval that is left"
"""365 of 365 days stand below 1766 of 1826: what is left in days alone says little of how soon to plan."""
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
        lives=_lives(at, lives) if lives else None,
    )
    return (Page(links.MAINTENANCE, "Maintenance due", "Record", text),)


def _totals(due: MaintenanceState) -> tuple[tuple[str, str], ...]:
    hours, cycles = due.totals.flight_time, due.totals.cycles
    return (
        ("Flight time", "not on record" if hours is None else amount("flight time", hours.value)),
        ("Flights", "not on record" if cycles is None else str(cycles.value)),
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
            *_amounts(at, item),
            item.last.isoformat() if item.last else "not on record" if item.before_flight else "never",
            _interval(item, "" if item.done_before or item.before_flight else " for the first time"),
            item.level,
        )
        for item in items
    ]
    return grid(f"Tasks in this order: {SORTED}", HEADS, rows)


def _lives(at: Printer, items: Iterable[DueItem]) -> Grid:
    return grid(
        f"Lives of components in this order: {SORTED}", LIFE_HEADS, (_life(at, item) for item in items)
    )


def _life(at: Printer, item: DueItem) -> Row:
    began = item.last.isoformat() if item.last else "not on record"
    return row(Cell(item.name, note=sentence(item.source)), *_amounts(at, item), began, _interval(item, ""))


def _amounts(at: Printer, item: DueItem) -> tuple[Cell, Cell, Cell]:
    """State, when it is due, and what is left: each number leads to its sheet."""
    ends, lefts = ([each(at, measure) for measure in item.measures] for each in (_due, _left))
    if item.due_day:
        ends.insert(0, Cell(item.due_day.isoformat()))
        lefts.insert(0, Cell("to do" if item.is_open else "done for that day"))
    return (
        Cell(mark=STATES[item.state]),
        _one_after_the_other(ends, " or "),
        _one_after_the_other(lefts, " and "),
    )


def _one_after_the_other(cells: list[Cell], last: str) -> Cell:
    joints = [", "] * (len(cells) - 2) + [last] * (len(cells) > 1)
    pieces = [
        piece for cell, joint in zip(cells, [*joints, ""], strict=True) for piece in (cell, Cell(joint))
    ]
    return Cell(pieces=tuple(pieces[:-1]))


def _due(at: Printer, measure: Measure) -> Cell:
    if measure.due is None:
        return Cell(f"{measure.kind} not known")
    if isinstance(measure.due, date):
        return Cell(measure.due.isoformat(), _sheet(at, measure.amounts.left))
    return Cell(f"at {amount(measure.kind, measure.due)}", _sheet(at, measure.amounts.due))


def _left(at: Printer, measure: Measure) -> Cell:
    if measure.left is None:
        return Cell(f"{measure.kind} not on record")
    words = amount(measure.kind, abs(measure.left))
    return Cell(f"{words} over" if measure.left < 0 else words, _sheet(at, measure.amounts.left))


def _sheet(at: Printer, figure: Figure | None) -> str:
    return at.sheet(figure.name) if figure else ""


def _interval(item: DueItem, behind: str) -> str:
    parts = [f"before {item.before_flight}"] if item.before_flight else []
    parts += [measure.words for measure in item.measures]
    first = ", whichever is first" if len(parts) > 1 else ""
    return f"{' or '.join(parts)}{behind}{first}"
