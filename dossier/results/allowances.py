"""What a rule may leave out of the empty weight, as far as this aircraft has it."""

from __future__ import annotations

from collections.abc import Mapping

from dossier.figures import Input, given
from dossier.model.aircraft import Aircraft
from dossier.replay import State


def allowances(aircraft: Aircraft, state: State) -> Mapping[str, tuple[Input, ...]]:
    """List the masses of the fitted items that are an allowance, by kind of allowance."""
    found: dict[str, list[Input]] = {}
    for name, item in aircraft.items.items():
        if item.allowance is not None and name not in state.left_out:
            found.setdefault(str(item.allowance), []).append(given(item.mass, str(item.name)))
    return {kind: tuple(masses) for kind, masses in found.items()}
