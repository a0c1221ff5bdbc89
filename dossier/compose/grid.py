"""A table of a page: captions, heads and cells as ready strings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Mark:
    """A verdict in words, with the mark that stands beside them."""

    words: str
    kind: str
    """``conforms``, ``fails``, ``inconclusive``, ``not-shown`` or ``not-applicable``."""


@dataclass(frozen=True)
class Cell:
    """One cell."""

    text: str = ""
    link: str = ""
    mark: Mark | None = None
    note: str = ""
    """Small print below."""
    note_link: str = ""
    """Of the small print."""
    pieces: tuple[Cell, ...] = ()
    """In place of ``text``: one after the other, each with its own link."""
    stacked: bool = False
    """Each piece on a line of its own."""


@dataclass(frozen=True)
class Head:
    """The head of a column."""

    text: str
    number: bool = False
    """Right-aligned, in figures of equal width."""
    whole: bool = False
    """Never broken over two lines, such as a date."""
    wide: bool = False
    """Sentences: not squeezed by its neighbours."""


@dataclass(frozen=True)
class Row:
    """One line."""

    cells: tuple[Cell, ...]
    total: bool = False


@dataclass(frozen=True)
class Grid:
    """A table; the first cell of a row names it."""

    caption: str
    heads: tuple[Head, ...]
    rows: tuple[Row, ...]
    worked: tuple[tuple[str, tuple[Cell, ...]], ...] = ()
    """Rows with a working sheet for each cell: which row it is, and what leads to the sheets."""


def row(*cells: Cell | Mark | str, total: bool = False) -> Row:
    """Make a row from strings, marks and cells."""
    return Row(tuple(_cell(cell) for cell in cells), total)


def _cell(cell: Cell | Mark | str) -> Cell:
    if isinstance(cell, Mark):
        return Cell(mark=cell)
    return cell if isinstance(cell, Cell) else Cell(cell)


def grid(caption: str, heads: str | Sequence[Head], rows: Iterable[Row]) -> Grid:
    """Make a table.

    Args:
        caption: what it shows.
        heads: as :func:`columns` takes them, or made already where a head holds words of the record.
        rows: lines with as many cells as there are heads.
    """
    over = columns(heads) if isinstance(heads, str) else tuple(heads)
    lines = tuple(rows)
    assert all(len(line.cells) == len(over) for line in lines), f"a row of {caption!r} does not fit"
    return Grid(caption, over, lines)


def columns(text: str) -> tuple[Head, ...]:
    """Read heads parted by ``|``: ``#`` over numbers, ``=`` over what stays whole, ``+`` over sentences."""
    return tuple(_head(one.strip()) for one in text.split("|"))


def numbers(names: Iterable[str]) -> tuple[Head, ...]:
    """Make heads over numbers from words of the record, whatever signs are in them."""
    return tuple(Head(name, number=True) for name in names)


def _head(text: str) -> Head:
    sign = text[:1] if text[:1] in ("#", "=", "+") else ""
    return Head(text.removeprefix(sign).strip(), number=sign == "#", whole=sign == "=", wide=sign == "+")
