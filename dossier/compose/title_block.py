"""The identity that every sheet carries."""

from __future__ import annotations

from dossier.compose.edition import edition_words
from dossier.compose.packet import TitleBlock
from dossier.compose.status import status
from dossier.dossier import Dossier

INVENTED = "Invented demonstration: this aircraft, its builder, its people and its measurements do not exist."


def title_block(dossier: Dossier) -> TitleBlock:
    """Make the title block of one serial."""
    aircraft, state = dossier.project.aircraft, status(dossier)
    return TitleBlock(
        type_name=str(aircraft.identification.name),
        serial_number=str(dossier.record.serial_number),
        builder=str(aircraft.builder.name),
        edition=edition_words(dossier),
        as_of=dossier.state.as_of.isoformat(),
        status=state.words,
        status_kind=state.kind,
        paper=str(aircraft.presentation.paper),
        notice=INVENTED if aircraft.identification.invented else "",
    )
