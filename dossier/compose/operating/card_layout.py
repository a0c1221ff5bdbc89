"""Where the words of a card stand: the size of type, and which block stands on which side of which sheet.

A sheet is one sheet of the type's paper, folded once: four sides of A5 (ISO 216) or of half letter (5.5 in
by 8.5 in). The card takes the largest size of type at which it fits on one sheet; if its whole words fit in
no size, its short ones; if those fit in none, the fewest sheets. It is never set below 10 pt, and an
emergency never below 12 pt.

Source: 14 to 20 pt in good light, under 10 pt not recommended (an encyclopaedia's article on checklists);
height of capitals 1/200 of the reading distance (abstract on legible text, FAA); a gap between lines of 25 %
of the size, and 12 pt in an emergency (Degani 1992 and CAP 676, from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from dossier.compose.operating.card_text import Block, Row
from dossier.compose.operating.type_widths import lines, lines_of_pieces, width

SIZES = (14, 13, 12, 11, 10)
"""Of type, in points, the best first."""
EMERGENCY_SIZES = (14, 13, 12)
SHORT_SIZES = (12, 11, 10)
"""Of short words: before those are taken, whole words are tried down to the last size."""
SIDES = 4
"""Of one sheet, folded once."""
SMALL = 10
"""Points of small print, identity and signatures."""
LEADING = 1.25
"""From line to line, in sizes of type."""
MARGIN = 19.9
"""Points, 7 mm, on each edge of a side."""
PAPER = {"a5": (419.5, 595.2), "half-letter": (396.0, 612.0)}
"""Width and height of a side in points."""
CAPITALS = 0.716
"""Height of a capital, in sizes of type (AFM file of Helvetica: 718; Arial: 716)."""

_NUMBER, _GAP, _BOX = 1.9, 0.4, 1.3
"""Columns of a step, in sizes of type, as the stylesheet has them."""
_AROUND = {
    "section": 0.5,
    "note": 0.2,
    "hazard": 0.3,
    "count": 0.2,
    "step": 0.3,
    "second": 0.2,
    "closing": 0.6,
    "small": 0.5,
}
"""Space above and below a row, in sizes of type."""
_BOX_IN_LINE, _BETWEEN_ITEMS = 1.3, 0.5
"""A small box with its gap, and what stands behind an item that is counted, in sizes of type."""
_RULE = 1.0
_SIGNATURE = 22.0
"""Points above a line to sign on."""


@dataclass(frozen=True)
class Identity:
    """What stands at the head of every side."""

    title: str
    words: str


@dataclass(frozen=True)
class Layout:
    """A card, laid out."""

    size: int
    """Of type, in points."""
    short: bool
    """Whether it says the short words."""
    sheets: tuple[tuple[tuple[Block, ...], ...], ...]
    """Sheets, sides, blocks."""
    lines_over: int
    """Lines of the smallest size by which the shortest words are too long for one sheet; 0 if it fits."""

    @property
    def reading_distance(self) -> float:
        """How far away it can be read, in metres: 200 times the height of a capital."""
        return 200 * CAPITALS * self.size * 0.0254 / 72


@dataclass(frozen=True)
class Measure:
    """Counts heights on sides of one paper, at one size of type. All in points."""

    paper: str
    size: int
    identity: Identity

    @property
    def width(self) -> float:
        """Of the text."""
        return PAPER[self.paper][0] - 2 * MARGIN

    @property
    def height(self) -> float:
        """Of what a side has room for; half a line is kept free."""
        label = SMALL * width("Sheet 8 of 8, side 4 of 4", bold=True) + 12
        head = 12 * LEADING * lines(((self.identity.title, True),), (self.width - label) / 12)
        head += SMALL * LEADING * lines(((self.identity.words, False),), self.width / SMALL)
        foot = SMALL * LEADING
        return PAPER[self.paper][1] - 2 * MARGIN - head - 9 - foot - self.line / 2

    @property
    def line(self) -> float:
        """From line to line."""
        return self.size * LEADING

    def block(self, made: Block) -> float:
        """Height of a block."""
        return sum(map(self.row, made.rows)) + _RULE

    def row(self, row: Row) -> float:
        """Height of a row."""
        if row.kind == "signature":
            return _SIGNATURE + _RULE + SMALL * LEADING
        size = SMALL if row.kind == "small" else self.size
        text = size * LEADING * self._lines(row, self.width / size)
        if row.kind in ("step", "second") and row.box:
            text = max(text, _BOX * size)
        return text + _AROUND[row.kind] * size

    def _lines(self, row: Row, column: float) -> int:
        if row.kind == "count":
            return lines_of_pieces(row.paragraphs, column, _BOX_IN_LINE * row.boxes + _BETWEEN_ITEMS)
        if row.kind in ("step", "second"):
            column -= _NUMBER + _GAP + (_GAP + _BOX if row.box else 0)
        elif row.kind == "hazard":
            column -= 0.6 + 3 / self.size
        box = _BOX_IN_LINE if row.last_box else 0
        return sum(lines(paragraph, column, last=box) for paragraph in row.paragraphs)


def lay_out(
    paper: str, identity: Identity, words: Callable[[bool], Sequence[Block]], *, is_emergency: bool
) -> Layout:
    """Choose size and words, and divide the card into sides.

    Args:
        paper: ``a5`` or ``half-letter``.
        identity: the head of every side.
        words: gives the blocks of the card, in short words if it is asked so.
        is_emergency: the card has one side if it can, larger type, and no short words.
    """
    whole = words(False)
    if is_emergency:
        return _emergency(paper, identity, whole)
    tries = [(size, False) for size in SIZES] + [(size, True) for size in SHORT_SIZES]
    for size, short in tries:
        made = words(True) if short else whole
        sides = tuple(_sides(made, Measure(paper, size, identity)))
        if len(sides) <= SIDES:
            return Layout(size, short, (sides,), 0)
    over = _lines_over(words(True), Measure(paper, SIZES[-1], identity))
    return _on_sheets((whole, words(True)), [Measure(paper, size, identity) for size in SHORT_SIZES], over)


def _emergency(paper: str, identity: Identity, whole: Sequence[Block]) -> Layout:
    measures = [Measure(paper, size, identity) for size in EMERGENCY_SIZES]
    for most in (1, 2, SIDES):  # two sides lie beside each other on one page
        for measure in measures:
            sides = tuple(_sides(whole, measure))
            if len(sides) <= most:
                return Layout(measure.size, False, (sides,), 0)
    return _on_sheets((whole,), measures, _lines_over(whole, measures[-1]))


def _on_sheets(words: Sequence[Sequence[Block]], measures: Sequence[Measure], over: int) -> Layout:
    """Take the fewest sheets, then whole words, then the largest type."""
    laid = [
        (tuple(_sheets(made, measure)), short, measure.size)
        for short, made in enumerate(words)
        for measure in measures
    ]
    sheets, short, size = min(laid, key=lambda one: len(one[0]))
    return Layout(size, bool(short), sheets, over)


def _sheets(made: Sequence[Block], measure: Measure) -> Iterator[tuple[tuple[Block, ...], ...]]:
    """Divide a card into sheets; each begins with a section where that costs no sheet."""
    plain = tuple(_sides(made, measure))
    plainly = [plain[at : at + SIDES] for at in range(0, len(plain), SIDES)]
    whole_sections = list(_by_sections(made, measure))
    yield from whole_sections if len(whole_sections) <= len(plainly) else plainly


def _by_sections(made: Sequence[Block], measure: Measure) -> Iterator[tuple[tuple[Block, ...], ...]]:
    sections: list[list[Block]] = []
    for block in made:
        if block.opens_section or not sections:
            sections.append([])
        sections[-1].append(block)
    sheet: list[Block] = []
    for section in sections:
        if sheet and len(tuple(_sides([*sheet, *section], measure))) > SIDES:
            yield from _parted(sheet, measure)
            sheet = []
        sheet += section
    yield from _parted(sheet, measure)


def _parted(sheet: Sequence[Block], measure: Measure) -> Iterator[tuple[tuple[Block, ...], ...]]:
    sides = tuple(_sides(sheet, measure))
    yield from (sides[at : at + SIDES] for at in range(0, len(sides), SIDES))


def _sides(made: Sequence[Block], measure: Measure) -> Iterator[tuple[Block, ...]]:
    side: list[Block] = []
    room, filled = measure.height, 0.0
    for block in _small_enough(made, measure):
        height = measure.block(block)
        if side and filled + height > room:
            yield tuple(side)
            side, filled = [], 0.0
        side.append(block)
        filled += height
    yield tuple(side)


def _small_enough(made: Sequence[Block], measure: Measure) -> Iterator[Block]:
    """Part a block that is higher than a side into its rows: nothing is ever cut off."""
    for block in made:
        if measure.block(block) <= measure.height:
            yield block
        else:
            yield from (Block((row,)) for row in block.rows)


def _lines_over(made: Sequence[Block], measure: Measure) -> int:
    left = [block for side in tuple(_sides(made, measure))[SIDES:] for block in side]
    return ceil(sum(map(measure.block, left)) / measure.line)
