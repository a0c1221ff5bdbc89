"""A card for the pocket: the words of one list on one sheet of the type's paper, folded once.

The sides are laid out here (card_layout.py), so that the builder learns at once that a list is too long. The
stylesheet puts them on the paper so that they follow each other when the sheet is folded. Sans-serif, lower
case, no italics (Degani 1992, as quoted: long text in lower case; italics are read more slowly).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.edition import edition_words
from dossier.compose.environment import render
from dossier.compose.limit_text import one_line
from dossier.compose.operating.card_layout import SIDES, Identity, Layout, lay_out
from dossier.compose.operating.card_text import Block, CardFrame, blocks
from dossier.compose.operating.expected_time import expected_time
from dossier.compose.operating.list_text import list_text
from dossier.compose.operating.lists import List, lists
from dossier.compose.operating.procedure_pages import options_line, signatures
from dossier.compose.packet import Page
from dossier.compose.words import sentence
from dossier.dossier import Dossier
from dossier.findings import Finding, Severity

PAPERS = {"a4": "a5", "letter": "half-letter"}
"""Paper of the type's printer -> a side of the card, which is half a sheet of it."""
_NAMES = {"a4": "A4", "letter": "letter", "a5": "A5", "half-letter": "half letter"}
_PLACES = ("outside-right", "inside-left", "inside-right", "outside-left")
"""Where side 1, 2, 3, 4 lies on a sheet that is folded once."""
_AT_ONE_GLANCE = ("outside-left", "outside-right")


@dataclass(frozen=True)
class Side:
    """One side of a card, ready for print."""

    place: str
    label: str
    """Such as ``Sheet 1 of 2, side 3 of 4``."""
    blocks: tuple[Block, ...]
    onward: str
    """What stands at its foot."""


def page(dossier: Dossier, one: List) -> Page:
    """Make the card of one list."""
    said, path = list_text(dossier, one), links.card(one.path)
    laid = layout(dossier, one)
    paper = str(dossier.project.aircraft.presentation.paper)
    text = render(
        "operating/card.md.jinja",
        title=said.title,
        identity=_identity(dossier, said.title).words,
        paper=paper,
        how=how_it_prints(laid, paper, is_emergency=one.is_emergency),
        size=laid.size,
        sheets=tuple(
            _sides(laid, number, is_emergency=one.is_emergency) for number in range(len(laid.sheets))
        ),
        full_list=links.relative(one.path, path),
        is_emergency=one.is_emergency,
    )
    return Page(path, f"Card: {said.title}", "Cards", text, in_contents=False)


def layout(dossier: Dossier, one: List) -> Layout:
    """Lay out the card of one list."""
    said = list_text(dossier, one)
    time = sentence(expected_time(one, dossier.preference).first)
    frame = CardFrame(f"{time} {options_line(dossier, one, brief=True)}".strip(), signatures(one))
    return lay_out(
        PAPERS[str(dossier.project.aircraft.presentation.paper)],
        _identity(dossier, said.title),
        lambda short: blocks(dossier, one, said, frame, short=short),
        is_emergency=one.is_emergency,
    )


def findings(dossiers: Iterable[Dossier]) -> tuple[Finding, ...]:
    """Say which lists are too long for one sheet, and by how much, each for the serial that needs most."""
    longest: dict[str, tuple[List, Layout]] = {}
    for dossier in dossiers:
        for one in lists(dossier):
            laid = layout(dossier, one)
            if len(laid.sheets) > 1 and (
                one.name not in longest or laid.lines_over > longest[one.name][1].lines_over
            ):
                longest[one.name] = one, laid
    return tuple(_too_long(*longest[name]) for name in sorted(longest))


def _too_long(one: List, laid: Layout) -> Finding:
    return Finding(
        "T020",
        f"the card of the list {one.name!r} goes on {len(laid.sheets)} sheets: "
        f"for one it is {laid.lines_over} lines of 10 pt too long",
        "write fewer words, give its steps  on_card: {do: ..., expect: ...}  , or part the list at a stop",
        one.procedure.place_of_key("title"),
        Severity.NOTE,
    )


def how_it_prints(laid: Layout, paper: str, *, is_emergency: bool) -> str:
    """Say in words which paper, which size of type and how to fold."""
    words = "in short words, " if laid.short else ""
    folding = _folding(laid, paper, is_emergency=is_emergency)
    distance = f"{laid.reading_distance:.1f} m"
    return f"This card prints {words}in {laid.size} pt on {folding}. Read it from {distance} at most."


def _folding(laid: Layout, paper: str, *, is_emergency: bool) -> str:
    sheets, name, half = len(laid.sheets), _NAMES[paper], _NAMES[PAPERS[paper]]
    if sheets == 1 and len(laid.sheets[0]) <= 2:
        folded = "" if is_emergency else f", folded once to {half} with the print outside"
        return f"one side of one sheet of {name} paper{folded}"
    number = "one sheet" if sheets == 1 else f"{sheets} sheets"
    each = "each " if sheets > 1 else ""
    return f"{number} of {name} paper, both sides, turned over the short edge, {each}folded once to {half}"


def _identity(dossier: Dossier, title: str) -> Identity:
    name = one_line(dossier.project.aircraft.identification.name)
    serial = str(dossier.record.serial_number)
    return Identity(
        title, f"{name}, serial {serial}, {edition_words(dossier)}, as of {dossier.state.as_of.isoformat()}"
    )


def _sides(laid: Layout, sheet: int, *, is_emergency: bool) -> tuple[Side, ...]:
    return tuple(_made(laid, sheet, is_emergency=is_emergency))


def _made(laid: Layout, sheet: int, *, is_emergency: bool) -> Iterator[Side]:
    sides = laid.sheets[sheet]
    places = _AT_ONE_GLANCE if is_emergency and len(sides) <= 2 else _PLACES
    if len(sides) == 2 and not is_emergency:
        places = (_PLACES[0], _PLACES[3])
    of_sheets = f"Sheet {sheet + 1} of {len(laid.sheets)}, s" if len(laid.sheets) > 1 else "S"
    for number, (place, made) in enumerate(zip(places, sides, strict=False), start=1):
        yield Side(place, f"{of_sheets}ide {number} of {len(sides)}", made, _onward(laid, sheet, number))
    if 2 < len(sides) < SIDES:
        yield Side(_PLACES[3], "Notes", (), "")


def _onward(laid: Layout, sheet: int, number: int) -> str:
    if number < len(laid.sheets[sheet]):
        return f"Go on: side {number + 1}"
    return f"Go on: sheet {sheet + 2}" if sheet + 1 < len(laid.sheets) else "End of the card"
