"""Weight and balance: from the scales to every loading that is inside the limits."""

from __future__ import annotations

from dossier.compose import links
from dossier.compose.balance.empty_tables import EmptyTables, empty_tables
from dossier.compose.balance.envelope_plot import envelope_plot
from dossier.compose.balance.loading_tables import loading_tables
from dossier.compose.balance.weighing_record import weighing_record
from dossier.compose.balance.weighings import chain
from dossier.compose.environment import render
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.dossier import Dossier


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page; without a weighing it says what is missing."""
    at = Printer(dossier, links.BALANCE)
    text = render(
        "weight-and-balance.md.jinja",
        top=notices(at),
        datum=str(dossier.project.aircraft.datum.description),
        levelling=str(dossier.project.aircraft.datum.levelling),
        weighing=weighing_record(at),
        empty=empty_tables(at),
        loading=loading_tables(at),
        plot=envelope_plot(at),
        chain=chain(at),
    )
    return (Page(links.BALANCE, "Weight and balance", "Weight and energy", text),)


__all__ = ["EmptyTables", "pages"]
