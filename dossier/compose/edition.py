"""Which edition a dossier is, and which came before it."""

from __future__ import annotations

from dossier.dossier import Dossier
from dossier.model.events import Edition, Handover

DRAFT = "Draft, not issued"


def edition_words(dossier: Dossier) -> str:
    """Name the edition; what was recorded after it, but for the handover, makes a draft of the next one."""
    edition = dossier.state.edition
    if edition is None:
        return DRAFT
    later = dossier.state.events[dossier.state.events.index(edition) + 1 :]
    if any(not isinstance(event, Edition | Handover) for event in later):
        return f"Draft after edition {edition.letter}"
    return f"Edition {edition.letter}, {edition.date.isoformat()}"


def reason(dossier: Dossier) -> str:
    """Say why this edition was made; empty for a draft."""
    edition = dossier.state.edition
    return str(edition.reason) if edition and edition_words(dossier).startswith("Edition") else ""


def document_number(dossier: Dossier) -> str:
    """Make a number that no other document of the builder has: type, serial, edition or day of a draft."""
    designation, serial_number = (
        dossier.project.aircraft.identification.designation,
        dossier.record.serial_number,
    )
    words = edition_words(dossier)
    issued = (
        dossier.state.edition.letter
        if dossier.state.edition and words.startswith("Edition")
        else f"draft-{dossier.state.as_of.isoformat()}"
    )
    own = serial_number if serial_number.startswith(designation) else f"{designation}-{serial_number}"
    return f"{own}-{issued}"
