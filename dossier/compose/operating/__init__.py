"""The pages that people work from: limits, controls, cautions, one page a procedure.

No page says that an aircraft is safe or airworthy.
"""

from __future__ import annotations

from dossier.compose.operating import cards as print_cards
from dossier.compose.operating import cautions, controls, limits, procedure_pages
from dossier.compose.operating.lists import lists
from dossier.compose.packet import Page
from dossier.dossier import Dossier


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the operating pages of one serial, in the order of the navigation."""
    of_serial = lists(dossier)
    return (
        limits.page(dossier),
        controls.page(dossier),
        cautions.page(dossier, of_serial),
        *(procedure_pages.page(dossier, one) for one in of_serial),
    )


def cards(dossier: Dossier) -> tuple[Page, ...]:
    """Make the print card of each list; only the page of the list leads to it."""
    return tuple(print_cards.page(dossier, one) for one in lists(dossier))
