"""Drawing and part numbers as designed, built and maintained: what differs was accepted, or is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from dossier.findings import Place
from dossier.model.aircraft import Item
from dossier.model.events import EquipmentChange
from dossier.model.record import Fitted, SerialRecord
from dossier.replay import State
from dossier.results.assembly_step_checks import Problem

Numbered = Item | Fitted | EquipmentChange
"""Whatever states a drawing or part number."""


def number_words(piece: Numbered | None) -> str:
    """Say the number and the issue, such as ``QE1-20-100 issue C``; empty where none is stated."""
    if piece is None:
        return ""
    issue = f"issue {piece.issue}" if piece.issue else ""
    return " ".join(filter(None, (str(piece.part_number or ""), issue)))


def drawing_problems(record: SerialRecord, state: State, items: Mapping[str, Item]) -> Iterator[Problem]:
    """Find components whose number or issue is not the designed one, without a concession.

    As designed, as built and as maintained are one configuration, or the difference was accepted (ISO
    10007, as read in summaries; a concession: ISO 9000:2015, 3.12.5, as read in summaries).
    """
    for name, item in items.items():
        piece = piece_in(name, record, state)
        if piece is None or name in state.left_out:
            continue
        words = _difference(item, piece)
        if words and not record.accepts(piece.concession):
            yield Problem(
                "A019",
                f"{str(item.name)!r} is {words}, and no concession accepts it",
                "correct the number, or name under  concession  the nonconformity that was closed as "
                "accepted",
                _place(piece),
                "not as designed",
                fails=False,
                subject=f"Component {name}",
            )


def piece_in(name: str, record: SerialRecord, state: State) -> Fitted | EquipmentChange | None:
    """Return what the record says of the piece that is in: the last change that put one in, else as built."""
    changes = [change for change in state.changes_of(name) if change.fitted]
    return changes[-1] if changes else record.fitted.get(name)


def _difference(item: Item, piece: Fitted | EquipmentChange) -> str:
    """Say how a piece differs from the type's list; what either of them does not state is not compared."""
    pairs = ((item.part_number, piece.part_number, ""), (item.issue, piece.issue, "issue "))
    found = [
        f"{word}{is_now!s} and {word}{drawn!s} as designed"
        for drawn, is_now, word in pairs
        if drawn and is_now and drawn != is_now
    ]
    return ", ".join(found)


def _place(piece: Fitted | EquipmentChange) -> Place | None:
    return piece.place_of_key("part_number" if piece.part_number else "issue")
