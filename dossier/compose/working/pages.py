"""The pages of working sheets: a list by topic, and one page for each topic."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.packet import Page
from dossier.compose.printer import Printed, Printer
from dossier.compose.working.mathml import formula, symbol
from dossier.compose.working.sheet import InputLine, Sheet, sheet
from dossier.compose.working.topics import Topic, topics
from dossier.dossier import Dossier

GROUP = "Working sheets"


@dataclass(frozen=True)
class InputRow:
    """One input of a sheet, with its links."""

    symbol: Markup
    line: InputLine
    link: str
    """To the sheet of the figure that the input is; empty for any other."""


@dataclass(frozen=True)
class SheetPart:
    """One sheet, ready for its page."""

    sheet: Sheet
    formula: Markup
    meanings: tuple[tuple[Markup, str], ...]
    result: Markup
    inputs: tuple[InputRow, ...]
    steps: tuple[tuple[str, Markup, str], ...]
    """What it is, its formula where it needs one, its value."""
    heads: tuple[tuple[tuple[str, Markup, str], ...], ...]
    """Of each table of points, of each column: what it is, symbol, unit."""


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the list and a page for each topic."""
    shared = topics(dossier)
    at = Printer(dossier, links.WORKING)
    listed = [(topic.title, at.to(topic.path), _printed(at, topic)) for topic in shared]
    index = Page(links.WORKING, "All figures", GROUP, render("working/index.md.jinja", topics=listed))
    return (index, *(_page(dossier, topic) for topic in shared))


def _printed(at: Printer, topic: Topic) -> tuple[Printed, ...]:
    return tuple(at.figure(at.dossier.with_sheets[name]) for name in topic.names)


def _page(dossier: Dossier, topic: Topic) -> Page:
    at = Printer(dossier, topic.path)
    parts = [_part(at, sheet(dossier.with_sheets[name], dossier)) for name in topic.names]
    return Page(
        topic.path,
        topic.title,
        GROUP,
        render(
            "working/topic.md.jinja",
            title=topic.title,
            parts_of_topic=parts,
            index=at.to(links.WORKING),
            words=at.to(links.WORDS),
        ),
    )


def _part(at: Printer, one: Sheet) -> SheetPart:
    meanings = tuple((symbol(latex), meaning) for latex, meaning in one.meanings)
    return SheetPart(
        one,
        formula(one.latex),
        meanings,
        symbol(one.meanings[0][0]),
        tuple(_input(at, line) for line in one.inputs),
        tuple((step.label, symbol(step.latex) if step.latex else Markup(), step.value) for step in one.steps),
        tuple(
            tuple((label, symbol(latex), unit) for label, latex, unit in table.heads) for table in one.points
        ),
    )


def _input(at: Printer, line: InputLine) -> InputRow:
    return InputRow(symbol(line.symbol), line, at.sheet(line.figure) if line.figure else "")
