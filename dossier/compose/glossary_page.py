"""Words and signs: what a reader needs to follow the other pages, and every sign of the working sheets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from dossier import units
from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.working.mathml import symbol
from dossier.compose.working.sheet import BASES, cited
from dossier.dossier import Dossier
from dossier.glossary import SYMBOLS
from dossier.sources import cite
from dossier.terms import PRACTICE, TERMS, Term

NO_UNIT = ("number", "ratio")


@dataclass(frozen=True)
class Word:
    """One word, as ready strings."""

    anchor: str
    name: str
    meaning: str
    source: str
    """Empty for a habit of the trade."""


@dataclass(frozen=True)
class Sign:
    """One sign of a formula."""

    mark: Markup
    meaning: str
    unit: str


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at = Printer(dossier, links.WORDS)
    text = render(
        "words.md.jinja",
        words=[_word(term) for term in sorted(TERMS, key=lambda term: term.name.lower().lstrip("(±, "))],
        signs=tuple(_signs(dossier)),
        working=at.to(links.WORKING),
    )
    return (Page(links.WORDS, "Words and signs", "Record", text),)


def _word(term: Term) -> Word:
    if term.source == PRACTICE:
        return Word(term.key, term.name, term.meaning, "")
    citation = cite(term.source)
    return Word(term.key, term.name, term.meaning, f"{cited(citation)} ({BASES[citation.source.basis]})")


def _signs(dossier: Dossier) -> Iterator[Sign]:
    """List the signs that stand on a working sheet of this dossier, in the order of the glossary."""
    formulas = [figure.working.formula for figure in dossier.figures.values()]
    used = {key for formula in formulas for key in (formula.result, *formula.parameters)}
    for key, entry in SYMBOLS.items():
        if key in used:
            unit = "" if entry.kind in NO_UNIT else units.KINDS[entry.kind].si
            yield Sign(symbol(entry.latex), entry.meaning, unit)
