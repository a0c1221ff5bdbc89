"""Components as designed, as built and as maintained: what the type lists, what went in, what is in now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from dossier.model.aircraft import Item
from dossier.model.events import EquipmentChange
from dossier.model.record import Fitted, SerialRecord
from dossier.replay import State
from dossier.results.assembly_drawings import number_words, piece_in

FITTED, LEFT_OUT, NOT_LISTED = "fitted", "left out", "not listed"


@dataclass(frozen=True)
class Component:
    """One component in its three states. All ready words."""

    name: str
    """As the type's list has it; empty for equipment that is not in the list."""
    label: str
    group: str
    designed: str
    built: str
    maintained: str
    number: str
    """Serial number and lot of what is in now."""
    drawings: tuple[str, str, str]
    """Drawing or part number with its issue: as designed, as built, as maintained; empty where not stated."""
    explained: tuple[str, ...]
    """What leads from one state to the next; a note of the record behind it."""

    @property
    def differs(self) -> bool:
        """Whether the three states are not one and the same."""
        numbers = {number for number in self.drawings if number}
        states = self.built == self.maintained == FITTED and self.designed != NOT_LISTED
        return not states or len(numbers) > 1


def components(items: dict[str, Item], record: SerialRecord, state: State) -> tuple[Component, ...]:
    """List the components of a serial, those of the type's list first, in its order."""
    return (
        *(_of_type(name, item, record, state) for name, item in items.items()),
        *_others(state).values(),
    )


def _of_type(name: str, item: Item, record: SerialRecord, state: State) -> Component:
    changes = state.changes_of(name)
    is_out = name in record.items_left_out
    fitted = None if is_out else record.fitted.get(name)
    number = _number(fitted)
    explained = [*(["Optional, left out when built"] if is_out else [])]
    for change in changes:
        explained.append(f"{change.date}: {_what(change)}")
        number = _number(change) if change.fitted else ""
    piece = piece_in(name, record, state)
    if piece and piece.concession and not is_out:
        explained.append(f"Concession {piece.concession}")
    if fitted and fitted.note:
        explained.append(str(fitted.note))
    return Component(
        name,
        str(item.name),
        str(item.group),
        "optional" if item.optional else "in every aircraft",
        LEFT_OUT if is_out else FITTED,
        (LEFT_OUT if not changes else "removed") if name in state.left_out else FITTED,
        number,
        (number_words(item), number_words(fitted), number_words(piece)),
        tuple(explained),
    )


def _number(piece: Fitted | EquipmentChange | None) -> str:
    if piece is None:
        return ""
    return ", ".join(
        [
            *([str(piece.serial_number)] if piece.serial_number else []),
            *([f"lot {piece.lot}"] if piece.lot else []),
        ]
    )


def _what(change: EquipmentChange) -> str:
    if change.fitted and change.removed:
        return "replaced"
    return "fitted" if change.fitted else "removed"


def _others(state: State) -> dict[str, Component]:
    """Equipment that no item of the type's list stands for, by what the changes call it."""
    found: dict[str, Component] = {}
    for change in state.of_kind(EquipmentChange):
        for label, word in _named(change) if change.item is None else ():
            new = Component("", label, "", NOT_LISTED, NOT_LISTED, "", "", ("", "", ""), ())
            before = found.get(label, new)
            explained = (*before.explained, f"{change.date}: {word}")
            found[label] = replace(
                before, maintained=word, number=_number(change) if word == FITTED else "", explained=explained
            )
    return found


def _named(change: EquipmentChange) -> Iterator[tuple[str, str]]:
    for word, pieces in (("removed", change.removed), (FITTED, change.fitted)):
        for piece in pieces:
            yield str(piece.name), word
