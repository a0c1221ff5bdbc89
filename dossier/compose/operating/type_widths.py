"""How wide words are in print: a sans-serif face by its published widths, and lines counted from them.

The card's faces are Helvetica, Arial and Liberation Sans, which share the same widths. Widths are in
thousandths of the size of type: Adobe, AFM files of the Core 14 fonts, Helvetica and Helvetica-Bold. A sign
that is not in the table counts as wide as the size of type, so a line is never thought shorter than it is
printed.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import chain

Runs = Sequence[tuple[str, bool]]
"""Pieces of one paragraph, each with whether it is bold."""
NARROW_SPACE = 0.278
"""Width of a space, in sizes of type."""

# fmt: off
_ASCII = (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778,
    722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278,
    278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
)
_ASCII_BOLD = (
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667, 611, 778,
    722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333,
    278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
    611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
)
_OTHERS = {  # plain, bold
    "\u00a0": (278, 278), "–": (556, 556), "’": (222, 278), "‘": (222, 278), "“": (333, 500),
    "”": (333, 500), "•": (350, 350), "°": (400, 400), "±": (584, 584), "×": (584, 584), "·": (278, 278),
    "−": (584, 584), "½": (834, 834), "¼": (834, 834), "¾": (834, 834), "²": (333, 333), "³": (333, 333),
    "≤": (549, 549), "≥": (549, 549),
}
# fmt: on


@cache
def _width_of(sign: str, bold: bool) -> int:
    if sign in _OTHERS:
        return _OTHERS[sign][bold]
    base = unicodedata.normalize("NFD", sign)[0]  # é is as wide as e
    place = ord(base) - 32
    if not 0 <= place < len(_ASCII):
        return 1000
    plain = (_ASCII_BOLD if bold else _ASCII)[place]
    return plain if base == sign else max(plain, 278)  # î is wider than i


def width(text: str, *, bold: bool = False) -> float:
    """Width of a text on one line, in sizes of type."""
    return sum(_width_of(sign, bold) for sign in text) / 1000


def lines(runs: Runs, measure: float, *, last: float = 0) -> int:
    """Count the lines of a paragraph that is broken at its spaces only.

    Args:
        runs: the paragraph; pieces follow each other without a space of their own.
        measure: width of the column in sizes of type, above 0.
        last: width of something behind the last word, in sizes of type.
    """
    count, filled = 1, 0.0
    for word in chain(_words(runs), [last] if last else []):
        needed = filled + NARROW_SPACE + word if filled else word
        if needed <= measure:
            filled = needed
            continue
        count += bool(filled) + int(word // measure)  # a word wider than the column is broken inside
        filled = word % measure
    return count


def lines_of_pieces(pieces: Sequence[Runs], measure: float, extra: float) -> int:
    """Count the lines of pieces that follow each other; only one that is wider than the column is broken.

    Args:
        pieces: each a short paragraph.
        measure: width of the column in sizes of type, above ``extra``.
        extra: what each piece needs besides its words, in sizes of type.
    """
    count, filled = 0, measure
    for piece in pieces:
        needed = sum(width(text, bold=bold) for text, bold in piece) + extra
        if filled + NARROW_SPACE + needed <= measure:
            filled += NARROW_SPACE + needed
            continue
        own = lines(piece, measure - extra)
        count += own
        filled = needed if own == 1 else measure
    return count


def _words(runs: Runs) -> Iterator[float]:
    """Widths of the words; one that is part plain and part bold counts as one."""
    word = 0.0
    for text, bold in runs:
        first, *others = text.split(" ")
        word += width(first, bold=bold)
        for other in others:
            if word:
                yield word
            word = width(other, bold=bold)
    if word:
        yield word
