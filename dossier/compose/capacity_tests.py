"""Tests of the battery's capacity on its page: what the log gives beside what record and model say."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.figures import Figure
from dossier.results.capacity_logs import CapacityLog
from dossier.results.log_comparison import Comparison

_MARKS = {
    True: Mark("Agrees", "conforms"),
    False: Mark("Disagrees", "fails"),
    None: Mark("Not compared", "not-shown"),
}
_NAMES = {"energy": "Energy", "resistance": "Resistance of a step"}


@dataclass(frozen=True)
class TestsPart:
    """The tests of one aircraft. All ready strings."""

    compared: Grid
    follows: Grid
    checks: Grid


def tests(at: Printer) -> TestsPart | None:
    """Make the tables of the tests; none without a log."""
    logs = at.dossier.capacity_logs.logs
    if not logs:
        return None
    heads = "Battery and day | Quantity | State | # By the log | # Stated or computed | # Difference"
    follows = [line for one in logs for pair in one.compared for line in _follows(one, pair)]
    return TestsPart(
        grid("Measured and computed", heads, [line for one in logs for line in _lines(at, one)]),
        grid(
            "What the comparisons rest on, and what does not follow",
            "Battery and day | Quantity | + They rest on",
            follows,
        ),
        grid("The logs themselves", "Battery and day | + Checks", [_log(one) for one in logs]),
    )


def _lines(at: Printer, one: CapacityLog) -> Iterator[Row]:
    logged, difference = one.figures.get("logged_capacity"), one.figures.get("capacity_difference")
    yield row(
        _name(one),
        Cell("Capacity", note="against the record"),
        _MARKS[one.agrees],
        _figure(at, logged, "no capacity"),
        _stated(at, one),
        _figure(at, difference, ""),
    )
    for pair in one.compared:
        yield _compared(at, one, pair)


def _compared(at: Printer, one: CapacityLog, pair: Comparison) -> Row:
    return row(
        _name(one),
        Cell(_NAMES[pair.quantity], note="against the model of the type"),
        _MARKS[pair.agrees],
        _figure(at, pair.measured, ""),
        _figure(at, pair.computed, "not computed"),
        _figure(at, pair.difference, ""),
    )


def _follows(one: CapacityLog, pair: Comparison) -> Iterator[Row]:
    words = ". ".join(sentence(each).rstrip(".") for each in (pair.why, *pair.follows) if each)
    if words:
        yield row(_name(one), _NAMES[pair.quantity], f"{words}.")


def _stated(at: Printer, one: CapacityLog) -> Cell:
    if one.stated is None:
        return Cell("not stated")
    value, _, spread = at.quantity(one.stated).partition(" ±")
    return Cell(value, note=f"±{spread}" if spread else "")


def _name(one: CapacityLog) -> Cell:
    return Cell(f"{one.event.pack}, {one.event.date.isoformat()}")


def _figure(at: Printer, figure: Figure | None, otherwise: str) -> Cell:
    if figure is None:
        return Cell(otherwise)
    shown = at.figure(figure)
    return Cell(shown.first, shown.sheet, note=shown.uncertainty)


def _log(one: CapacityLog) -> Row:
    name = Cell(_name(one).text, note=one.file.rpartition("/")[2])
    return row(name, Cell(f"{'. '.join(_checks(one))}."))


def _checks(one: CapacityLog) -> Iterator[str]:
    """Say how the log stands against what was asked of it, and what speaks against it."""
    yield "Log accepted" if one.acceptance.accepted else "Log not accepted"
    for criterion in one.acceptance.criteria:
        yield f"{criterion.name.capitalize()}: {criterion.met.value}"
    told = [finding for finding in one.findings if finding.code not in ("L009", "L010", "L011")]
    yield (
        f"{len(told)} remarks, at the top of the page"
        if told
        else "No gap, no step of the clock, no doubt of units or counts"
    )
