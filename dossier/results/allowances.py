"""What a rule may leave out of the empty weight, as far as this aircraft has it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dossier.figures import Input, given
from dossier.judge.evidence import Allowance
from dossier.model.aircraft import Aircraft, Item
from dossier.model.record import SerialRecord
from dossier.quantities import Quantity
from dossier.replay import State


def allowances(aircraft: Aircraft, record: SerialRecord, state: State) -> Mapping[str, tuple[Allowance, ...]]:
    """List the fitted items that are an allowance, by kind of allowance.

    What counts is the piece that is fitted: its mass where the record gives it, be it as built or at the
    change that brought it in, else the mass of the type's list.
    """
    found: dict[str, list[Allowance]] = {}
    for name, item in aircraft.items.items():
        if item.allowance is not None and name not in state.left_out:
            found.setdefault(str(item.allowance), []).append(_allowance(name, item, record, state))
    return {kind: tuple(items) for kind, items in found.items()}


def _allowance(name: str, item: Item, record: SerialRecord, state: State) -> Allowance:
    label = str(item.name)
    of_piece = _masses_of_piece(name, record, state)
    if not of_piece:
        return Allowance(label, given(item.mass, label), is_of_piece=False)
    return Allowance(label, _together(of_piece, label), is_of_piece=True)


def _masses_of_piece(name: str, record: SerialRecord, state: State) -> tuple[Quantity, ...]:
    """Take the masses from the latest change that brought the item in, else from the build."""
    brought_in = [change for change in state.changes_of(name) if change.fitted]
    if brought_in:
        return tuple(part.mass for part in brought_in[-1].fitted)
    built = record.fitted.get(name)
    return (built.mass,) if built and built.mass else ()


def _together(masses: Sequence[Quantity], label: str) -> Input:
    """Take the parts of an item as one mass: an allowance is for the item. Each keeps its own error."""
    parts = [given(mass, label) for mass in masses]
    first = parts[0]
    total = sum((part.estimate for part in parts[1:]), first.estimate)
    return Input(label, first.kind, total, first.origin, " + ".join(part.text for part in parts))
