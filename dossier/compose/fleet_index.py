"""The builder's index of a fleet: one page, for the workshop alone. It never goes into a customer's packet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.compose.environment import render
from dossier.display import show_figure
from dossier.dossier import Dossier
from dossier.findings import Severity
from dossier.summary import OPEN, counts, is_open, worst_first


@dataclass(frozen=True)
class IndexRow:
    """One serial, as ready strings."""

    serial_number: str
    as_of: str
    edition: str
    empty_mass: str
    counts: str
    is_open: bool
    open_requirements: tuple[str, ...]
    warnings: int


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
    edition = dossier.state.edition
    mass = dossier.figures.get("empty_mass")
    shown = show_figure(mass, dossier.preference) if mass else None
    return IndexRow(
        serial_number=str(dossier.record.serial_number),
        as_of=dossier.state.as_of.isoformat(),
        edition=f"{edition.letter}, {edition.date}" if edition else "none issued",
        empty_mass=f"{shown} {shown.uncertainty}".rstrip() if shown else "not weighed",
        counts=counts(dossier),
        is_open=is_open(dossier),
        open_requirements=tuple(
            f"{verdict.clause}, {verdict.verdict.value}: {verdict.reason}" for verdict in worst_first(dossier.verdicts) if verdict.verdict in OPEN
        ),
        warnings=sum(finding.severity is Severity.WARNING for finding in dossier.findings),
    )
