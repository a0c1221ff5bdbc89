"""A card for the pocket: the words of one list, large enough to read at arm's length, on small paper.

Sans-serif, lower case, no italics; 12 pt for steps, which is 1/200 of a reading distance of 600 mm, never
under 10 pt; 14 pt in an emergency (abstracts on legible text: FAA's suggestion of 1/200 of the distance; 14
to 20 pt in good light, under 10 pt not recommended). The browser divides the card into numbered sides.
"""

from __future__ import annotations

from dossier.compose import links
from dossier.compose.edition import edition_words
from dossier.compose.environment import render
from dossier.compose.limit_text import one_line
from dossier.compose.operating.list_text import list_text
from dossier.compose.operating.lists import List
from dossier.compose.operating.procedure_pages import options_line, signatures
from dossier.compose.packet import Page
from dossier.dossier import Dossier

SIZES = {"a4": "a5", "letter": "half-letter"}
"""Paper of the type's printer -> the card, which is half a sheet of it."""
_NAMES = {"a5": "A5", "half-letter": "half letter"}


def page(dossier: Dossier, one: List) -> Page:
    """Make the card of one list."""
    said = list_text(dossier, one)
    path = links.card(one.path)
    size = SIZES[str(dossier.project.aircraft.presentation.paper)]
    text = render(
        "operating/card.md.jinja",
        said=said,
        size=size,
        size_name=_NAMES[size],
        full_list=links.relative(one.path, path),
        type_name=one_line(dossier.project.aircraft.identification.name),
        serial_number=str(dossier.record.serial_number),
        edition=edition_words(dossier),
        as_of=dossier.state.as_of.isoformat(),
        options=options_line(dossier, one),
        is_emergency=one.is_emergency,
        signatures=signatures(one),
    )
    return Page(path, f"Card: {said.title}", "Cards", text, in_contents=False)
