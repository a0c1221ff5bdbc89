"""The builder's index of a fleet: one page, for the workshop alone. It goes into no customer's packet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.compose.edition import edition_words
from dossier.compose.environment import render
from dossier.compose.open_items import open_items
from dossier.compose.status import status
from dossier.display import show_figure, with_doubt
from dossier.dossier import Dossier


@dataclass(frozen=True)
class IndexRow:
    """One serial, as ready strings."""

    serial_number: str
    as_of: str
    edition: str
    empty_mass: str
    status: str
    """The line that stands on the cover."""
    kind: str
    """``conforms``, ``fails`` or ``open``."""
    points: tuple[str, ...]
    """What is open, as the cover lists it."""


def fleet_index(dossiers: Sequence[Dossier]) -> str:
    """Return the page as HTML that stands alone."""
    aircraft = dossiers[0].project.aircraft
    return render(
        "fleet.html.jinja",
        type_name=str(aircraft.identification.name),
        builder=str(aircraft.builder.name),
        invented=aircraft.identification.invented,
        rows=[_row(dossier) for dossier in dossiers],
    )


def _row(dossier: Dossier) -> IndexRow:
    mass = dossier.figures.get("empty_mass")
    shown = show_figure(mass, dossier.preference, dossier.sampled.get(mass.name)) if mass else None
    state = status(dossier)
    return IndexRow(
        serial_number=str(dossier.record.serial_number),
        as_of=dossier.state.as_of.isoformat(),
        edition=edition_words(dossier),
        empty_mass=with_doubt(str(shown), shown.uncertainty) if shown else "not weighed",
        status=state.words,
        kind=state.kind,
        points=tuple(f"{item.subject}: {item.state}. {item.reason}".rstrip() for item in open_items(dossier)),
    )
