"""Instrument marks, made from the limits: a table for each instrument, and a strip drawn to scale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dossier.compose.limit_text import LimitText, one_line
from dossier.dossier import Dossier
from dossier.model.aircraft import Instrument, Mark

WIDTH = 400.0
"""Of a strip, in units of its drawing."""
_HEIGHT = 86
"""With one level of labels; each level more adds :data:`_LEVEL_HEIGHT`."""
_LEVEL_HEIGHT = 18
_EDGE = 44.0
"""What is left free at both ends, for half a label."""
_LABEL_WIDTH = 56.0


@dataclass(frozen=True)
class MarkRow:
    """One mark in words."""

    kind: str
    """Such as ``red-line``: picks a swatch beside the words."""
    words: str
    where: str
    basis: str
    meaning: str


@dataclass(frozen=True)
class Shape:
    """One mark in a drawing."""

    kind: str
    x: str
    width: str
    """Of an arc; empty for a line or a triangle."""


@dataclass(frozen=True)
class Label:
    """A number under a drawing. ``level`` counts down from the strip, so that neighbours do not touch."""

    x: str
    text: str
    level: int


@dataclass(frozen=True)
class Strip:
    """A drawing of an instrument's marks."""

    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...]
    height: int


@dataclass(frozen=True)
class InstrumentMarks:
    """An instrument, ready for print."""

    name: str
    rows: tuple[MarkRow, ...]
    strip: Strip | None
    """None where fewer than two limits are marked: one line needs no scale."""
    calibrated: bool
    """Whether a mark stands at a calibrated airspeed, which the indicator does not show."""

    @property
    def has_basis(self) -> bool:
        """Whether some mark says what its limit is based on."""
        return any(row.basis for row in self.rows)


def instruments(dossier: Dossier) -> tuple[InstrumentMarks, ...]:
    """Make the marks of every instrument, in the order of the record."""
    texts = LimitText.of(dossier)
    return tuple(_instrument(instrument, texts) for instrument in dossier.project.aircraft.instruments)


def _instrument(instrument: Instrument, texts: LimitText) -> InstrumentMarks:
    names = list(dict.fromkeys(name for mark in instrument.marks for name in _names(mark)))
    calibrated = any((texts.limits[name].basis or "").strip().upper() == "CAS" for name in names)
    rows = tuple(_row(mark, texts) for mark in instrument.marks)
    values = {texts.limits[name].value.value for name in names}
    strip = _strip(instrument.marks, names, texts) if len(values) > 1 else None
    return InstrumentMarks(one_line(instrument.name), rows, strip, calibrated)


def _names(mark: Mark) -> Iterator[str]:
    return (str(name) for name in (mark.at, mark.start, mark.end) if name is not None)


def _row(mark: Mark, texts: LimitText) -> MarkRow:
    names = list(_names(mark))
    bases = dict.fromkeys(one_line(texts.limits[name].basis or "").rstrip(".") for name in names)
    where, basis = " to ".join(map(texts.on_instrument, names)), "; ".join(filter(None, bases))
    return MarkRow(_kind(mark), str(mark.mark), where, basis, one_line(mark.meaning))


def _kind(mark: Mark) -> str:
    return mark.mark.replace(" ", "-")


def _strip(marks: Iterable[Mark], names: Iterable[str], texts: LimitText) -> Strip:
    values = {name: texts.limits[name].value.value for name in names}
    least, most = min(values.values()), max(values.values())

    def x(name: str) -> float:
        return _EDGE + (WIDTH - 2 * _EDGE) * (values[name] - least) / (most - least)

    shapes = [_shape(mark, [x(name) for name in _names(mark)]) for mark in marks]
    numbers = {x(name): texts.limit(name).first for name in values}
    labels = tuple(_labels(numbers))
    height = _HEIGHT + _LEVEL_HEIGHT * max(label.level for label in labels)
    return Strip(tuple(sorted(shapes, key=lambda shape: not shape.width)), labels, height)


def _shape(mark: Mark, ends: list[float]) -> Shape:
    start, width = min(ends), max(ends) - min(ends)
    return Shape(_kind(mark), f"{start:.1f}", f"{width:.1f}" if mark.at is None else "")


def _labels(numbers: dict[float, str]) -> Iterator[Label]:
    """Put each number on the first level where the one before it leaves room."""
    last: list[float] = []
    for x in sorted(numbers):
        free = [level for level, before in enumerate(last) if x - before >= _LABEL_WIDTH]
        level = free[0] if free else len(last)
        last[level : level + 1] = [x]
        yield Label(f"{x:.1f}", numbers[x], level)
