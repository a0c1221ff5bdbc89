"""The one table of limits, and what is made from it: instrument marks and placards."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.environment import render
from dossier.compose.limit_text import LimitText, one_line
from dossier.compose.operating.marks import instruments
from dossier.compose.packet import Page
from dossier.dossier import Dossier

GROUP = "Operation"


@dataclass(frozen=True)
class LimitRow:
    """One limit, ready for print."""

    anchor: str
    name: str
    value: str
    other: str
    basis: str
    reason: str


@dataclass(frozen=True)
class PlacardText:
    """A placard, ready for print."""

    where: str
    text: str


def page(dossier: Dossier) -> Page:
    """Make the page of limits."""
    text = render(
        "operating/limits.md.jinja",
        serial_number=str(dossier.record.serial_number),
        as_of=dossier.state.as_of.isoformat(),
        rows=_rows(dossier),
        instruments=instruments(dossier),
        placards=placards(dossier),
    )
    return Page("limits.md", "Limits, marks and placards", GROUP, text)


def placards(dossier: Dossier) -> tuple[PlacardText, ...]:
    """Fill every placard with the limits that it names."""
    fill = LimitText.of(dossier).fill_placard
    made = dossier.project.aircraft.placards
    return tuple(PlacardText(one_line(placard.where), fill(placard.text)) for placard in made)


def _rows(dossier: Dossier) -> tuple[LimitRow, ...]:
    texts = LimitText.of(dossier)
    return tuple(
        LimitRow(
            f"limit-{name}",
            one_line(limit.name),
            texts.limit(name).first,
            texts.limit(name).other,
            one_line(limit.basis or ""),
            one_line(limit.reason),
        )
        for name, limit in texts.limits.items()
    )
