"""A table as plain values: columns with unit and meaning, and a reason for every value that is not there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from dossier import units


@dataclass(frozen=True)
class Blank:
    """A value that is not there, and why."""

    reason: str


Value = float | int | bool | str | date | Blank
"""Numbers in SI, or in the unit of their column where SI has no name for it."""

WORDS, FLAG, DAY = "words", "flag", "date"
"""Kinds of columns that hold no number."""
OWN_UNITS = {"days": "d", "years": "a", "flights": "1", "count": "1"}
"""Kinds of columns with a unit that is not SI, or that count."""


@dataclass(frozen=True)
class Column:
    """One column."""

    key: str
    kind: str
    """A key of :data:`dossier.units.KINDS` or :data:`OWN_UNITS`, else ``words``, ``flag`` or ``date``."""
    meaning: str

    @property
    def holds(self) -> str:
        """``number``, ``text``, ``flag`` or ``date``."""
        return {WORDS: "text", FLAG: "flag", DAY: "date"}.get(self.kind, "number")

    @property
    def unit(self) -> str | None:
        """The unit of its numbers; None for a column that holds none."""
        if self.holds != "number":
            return None
        return OWN_UNITS.get(self.kind) or units.KINDS[self.kind].si


@dataclass(frozen=True)
class Table:
    """Columns, and rows with a value for each of them."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Value, ...], ...]
    empty: str
    """Why it has no rows; not used where it has some."""


def table(
    name: str,
    title: str,
    columns: Iterable[tuple[str, str, str]],
    rows: Iterable[tuple[Value, ...]],
    empty: str,
) -> Table:
    """Make a table.

    Args:
        name: lower case, words joined by ``_``.
        title: for a reader.
        columns: key, kind and meaning of each.
        rows: each with as many values as there are columns.
        empty: why there are no rows, where there are none.
    """
    heads = tuple(Column(*column) for column in columns)
    lines = tuple(rows)
    assert all(len(line) == len(heads) for line in lines), f"a row of {name} does not fit its columns"
    return Table(name, title, heads, lines, empty)


def known(value: float | int | date | str | None, reason: str) -> Value:
    """Return a value, or say why there is none."""
    return Blank(reason) if value is None else value


def as_plain(one: Table) -> dict[str, Any]:
    """Turn a table into mappings, lists, text and numbers; a value that is not there is None."""
    keys = [column.key for column in one.columns]
    return {
        "name": one.name,
        "title": one.title,
        "columns": [
            {"key": column.key, "holds": column.holds, "unit": column.unit, "meaning": column.meaning}
            for column in one.columns
        ],
        "rows": [dict(zip(keys, map(_plain, line), strict=True)) for line in one.rows],
        "nulls": [
            {"row": number, "key": key, "reason": value.reason}
            for number, line in enumerate(one.rows)
            for key, value in zip(keys, line, strict=True)
            if isinstance(value, Blank)
        ],
        "empty": None if one.rows else one.empty,
    }


def _plain(value: Value) -> float | int | bool | str | None:
    if isinstance(value, Blank):
        return None
    if isinstance(value, date):
        return value.isoformat()
    return str(value) if isinstance(value, str) else value
