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
    return str(edition.reason) if edition and not is_draft(dossier) else ""


def is_draft(dossier: Dossier) -> bool:
    """Whether the dossier belongs to no issued edition."""
    return not edition_words(dossier).startswith("Edition")


def state_words(dossier: Dossier) -> str:
    """Say of which day the state is, where an edition is told on a later day than its own; else nothing."""
    edition = dossier.state.edition
    if edition is None or is_draft(dossier) or dossier.state.as_of == edition.date:
        return ""
    told = "with its handover" if dossier.state.handover else "with no event since"
    return f"told in the state of {dossier.state.as_of.isoformat()}, {told}"


def document_number(dossier: Dossier) -> str:
    """Make a number that stands on one state of one aircraft alone: type, serial, edition, day.

    An edition on its own day needs no day; told on a later one, with its handover, it carries that day. A
    declaration must not stand on two states under one number (ISO/IEC 17050-1:2004, clause 6, memory).
    """
    designation, serial_number = (
        dossier.project.aircraft.identification.designation,
        dossier.record.serial_number,
    )
    own = serial_number if serial_number.startswith(designation) else f"{designation}-{serial_number}"
    return f"{own}-{_issue(dossier)}"


def _issue(dossier: Dossier) -> str:
    edition, day = dossier.state.edition, dossier.state.as_of.isoformat()
    if edition is None or is_draft(dossier):
        return f"draft-{day}"
    return str(edition.letter) if dossier.state.as_of == edition.date else f"{edition.letter}-{day}"
