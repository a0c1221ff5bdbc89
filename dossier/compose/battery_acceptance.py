"""Whether batteries are accepted: the fitted one against its retirement, each test against what is asked
of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.limit_text import one_line
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.figures import Figure
from dossier.results.battery_outcome import Outcome
from dossier.results.pack_verdict import CriterionHeld, PackVerdict
from dossier.results.retirement import Retirement

_STATES = {
    Outcome.ACCEPTED: "conforms",
    Outcome.REJECTED: "fails",
    Outcome.CLOSE: "inconclusive",
    Outcome.NOT_SHOWN: "not-shown",
}
_OF_CAPACITY = {
    Outcome.ACCEPTED: "Above the limit",
    Outcome.REJECTED: "Below the limit",
    Outcome.CLOSE: "Too close to tell",
    Outcome.NOT_SHOWN: "Not shown",
}


@dataclass(frozen=True)
class AcceptancePart:
    """The section. All ready strings."""

    fitted: Grid | None
    tests: Grid | None
    nothing_asked: bool
    """Whether the record names no criteria, though there are tests."""


def acceptance(at: Printer) -> AcceptancePart | None:
    """Make the section; none without a battery that is fitted or tested."""
    held = [pack.retirement for pack in at.dossier.packs if pack.retirement]
    verdicts = [log.verdict for log in at.dossier.capacity_logs.logs if log.verdict]
    asked = at.dossier.project.battery.acceptance is not None
    if not held and not at.dossier.capacity_logs.logs:
        return None
    heads = "Battery and criterion | State | # Measured | # Limit | + Which limit, or why"
    return AcceptancePart(
        grid("The fitted battery against its retirement", heads, [_retired(at, one) for one in held])
        if held
        else None,
        grid(
            "Each test against what is asked of it",
            heads,
            [line for one in verdicts for line in _lines(at, one)],
        )
        if verdicts
        else None,
        bool(at.dossier.capacity_logs.logs) and not asked,
    )


def _mark(outcome: Outcome, words: str) -> Mark:
    return Mark(words, _STATES[outcome])


def _retired(at: Printer, one: Retirement) -> Row:
    return row(
        Cell(one.pack, note="capacity left, of the nominal one"),
        _mark(one.outcome, _OF_CAPACITY[one.outcome]),
        _figure(at, one.share),
        Cell(f"at least {100 * one.limit:g}\u00a0%"),
        Cell(sentence(one.why) if one.why else sentence(one.limit_words)),
    )


def _lines(at: Printer, one: PackVerdict) -> Iterator[Row]:
    words = str(one.outcome)
    yield row(
        Cell(one.words.removeprefix("battery "), note="in all"),
        _mark(one.outcome, f"Battery {words}"),
        Cell(""),
        Cell(""),
        Cell(""),
    )
    for held in one.rows:
        yield _line(at, held)


def _line(at: Printer, held: CriterionHeld) -> Row:
    side = "at least" if held.at_least else "at most"
    why = sentence(held.why) if held.why else one_line(held.limit.name)
    return row(
        Cell(sentence(held.name).rstrip(".")),
        _mark(held.outcome, sentence(str(held.outcome)).rstrip(".")),
        _figure(at, held.figure),
        Cell(f"{side} {held.limit.value.text}"),
        Cell(why),
    )


def _figure(at: Printer, figure: Figure | None) -> Cell:
    if figure is None:
        return Cell("not measured")
    shown = at.figure(figure)
    return Cell(shown.first, shown.sheet, note=shown.uncertainty)
