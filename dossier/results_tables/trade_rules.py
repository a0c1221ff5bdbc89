"""The table of rules of thumb."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from dossier.dossier import Dossier
from dossier.judge.trade_facts import HeldRule
from dossier.results_tables.table import FLAG, WORDS, Blank, Table, Value, known, table
from dossier.styles import STYLES
from dossier.units import KINDS

OPEN_END = "the band has no end there"
COLUMNS = (
    ("rule", WORDS, "name of the rule"),
    ("says", WORDS, "the rule: common practice, no source"),
    ("unit", WORDS, "unit of the numbers of this row"),
    ("band_from", "number", "from where a number bears the rule out"),
    ("band_to", "number", "to where"),
    ("basis", WORDS, "of the band"),
    ("by_formula_from", "number", "what the formulas make of the numbers of the rule"),
    ("by_formula_to", "number", "the upper end of the same"),
    ("by_formula_result", WORDS, "inside its band, outside its band, or across an end of it"),
    ("serial_from", "number", "the number of this serial"),
    ("serial_to", "number", "the upper end of the same"),
    ("serial_result", WORDS, "the same, or not held"),
    ("what", WORDS, "what the number of this serial is, or what is missing"),
    ("is_held", FLAG, "whether the record gives a number"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the table."""
    rows = (_row(one) for one in dossier.trade_rules)
    yield table("trade_rules", "Rules of thumb of the trade", COLUMNS, rows, "there are no rules of thumb")


def _row(one: HeldRule) -> tuple[Value, ...]:
    rule, own = one.rule, one.own
    serial = (Blank(own.missing),) * 2 if own.missing else (own.low, own.high)
    return (
        rule.key, rule.says, KINDS[STYLES[rule.style].kind].si, _end(rule.band[0]), _end(rule.band[1]),
        rule.basis, *one.formula, str(one.by_formula), *serial, str(one.result),
        known(own.words or own.missing, ""), not own.missing,
    )  # fmt: skip


def _end(value: float) -> Value:
    return value if isfinite(value) else Blank(OPEN_END)
