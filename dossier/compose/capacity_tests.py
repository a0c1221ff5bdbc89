"""Tests of the battery's capacity on its page: what the log gives beside what the record states."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.results.capacity_logs import CapacityLog

_MARKS = {
    True: Mark("Agrees", "conforms"),
    False: Mark("Disagrees", "fails"),
    None: Mark("Not compared", "not-shown"),
}


def tests(at: Printer) -> Grid | None:
    """Make the table of the tests; none without a log."""
    logs = at.dossier.capacity_logs.logs
    if not logs:
        return None
    heads = "Battery and day | # Stated | # By its log | State | # Energy taken | + Checks"
    return grid("Capacity by the record and by its log", heads, [_row(at, one) for one in logs])


def _row(at: Printer, one: CapacityLog) -> Row:
    logged = one.figures.get("logged_capacity")
    shown = at.figure(logged) if logged else None
    checks = ". ".join(_checks(one))
    return row(
        Cell(f"{one.event.pack}, {one.event.date.isoformat()}", note=one.file.rpartition("/")[2]),
        at.quantity(one.stated) if one.stated else "not stated",
        Cell(f"{shown.first} {shown.uncertainty}".rstrip(), shown.sheet) if shown else "no capacity",
        _MARKS[one.agrees],
        at.value(one.test.energy.value, "energy") if one.test else "no test",
        Cell(f"{checks}."),
    )


def _checks(one: CapacityLog) -> Iterator[str]:
    """Say how the log stands against what was asked of it, and what speaks against it."""
    yield "Log accepted" if one.acceptance.accepted else "Log not accepted"
    for criterion in one.acceptance.criteria:
        yield f"{criterion.name.capitalize()}: {criterion.met.value}"
    told = [finding for finding in one.findings if finding.code != "L009"]
    yield (
        f"{len(told)} remarks, at the top of the page"
        if told
        else "No gap, no step of the clock, no doubt of units or counts"
    )
