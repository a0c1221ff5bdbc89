"""Rules of thumb of the trade, beside what the formulas make of them and what this serial has."""

from __future__ import annotations

from math import isfinite

from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.display import rounded
from dossier.judge.trade_facts import Agreement, HeldRule

MARKS = {
    Agreement.INSIDE: Mark("inside its band", "conforms"),
    Agreement.OUTSIDE: Mark("outside its band", "inconclusive"),
    Agreement.ACROSS: Mark("across an end of its band", "inconclusive"),
    Agreement.NOT_HELD: Mark("not held", "not-shown"),
}
"""A rule of thumb is no requirement: a serial that differs from it does not fail."""


def trade_table(at: Printer) -> Grid:
    """Make the table."""
    return grid(
        "Rules of thumb of the trade, each common practice, no source",
        "+ Rule | + By the formulas | + This serial | Result and band",
        [_row(at, one) for one in at.dossier.trade_rules],
    )


def _row(at: Printer, one: HeldRule) -> Row:
    rule, own = one.rule, one.own
    formula = f"{one.by_formula}: {rule.how}"
    return row(
        Cell(rule.says),
        Cell(_range(at, one.formula, rule.style), note=formula),
        Cell("nothing", note=sentence(own.missing)) if own.missing else _own(at, one),
        Cell(mark=MARKS[one.result], note=f"{_range(at, rule.band, rule.style)}: {rule.basis}"),
    )


def _own(at: Printer, one: HeldRule) -> Cell:
    own = one.own
    off = one.off_by
    away = "" if off is None else f"; {rounded(100 * off, 0)}\u00a0% off what is said"
    link = at.sheet(own.figure) if own.figure in at.dossier.figures else ""
    text = _range(at, (own.low, own.high), one.rule.style)
    return Cell(text, note=f"{own.words}{away}", note_link=link)


def _range(at: Printer, ends: tuple[float, float], style: str) -> str:
    """Print one number, or from where to where; an end that is none is left out."""
    low, high = (at.value(end, style) if isfinite(end) else "" for end in ends)
    if low == high:
        return low
    if not high:
        return f"from {low}"
    return f"up to {high}" if ends[0] == 0 else f"{low} to {high}"
