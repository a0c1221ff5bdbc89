"""Which way a control surface goes as its control is moved."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import OneOf, Text

OPPOSITE: Mapping[str, str] = {
    "left": "right",
    "right": "left",
    "up": "down",
    "down": "up",
    "forward": "back",
    "back": "forward",
    "in": "out",
    "out": "in",
}
"""A way -> the way against it."""


class Movement(Part):
    """One control moved one way, and what goes which way with it. The opposite follows by itself: a surface
    that
    goes up with the stick left goes down with the stick right, unless another entry says otherwise."""

    control: Text
    """The word that the lists use: stick, pedal, foot, control bar, airbrake lever."""
    moves: Annotated[str, OneOf(*OPPOSITE)]
    """For a pedal ``left`` means the left one forward."""
    surface: Text
    """What goes: left aileron, elevator (its trailing edge), rudder (seen from behind), nose wheel, left wing
    tip."""
    goes: Annotated[str, OneOf(*OPPOSITE)]
    """``in`` and ``out`` are for airbrakes: flush with the wing, and standing out of it."""


def expected_way(surface: str, control: str, moves: str, known: Iterable[Movement]) -> str | None:
    """Return the way in which a surface goes by the movements that are known, straight or by their opposite.

    Returns:
        None if they say nothing of this surface with this control. Capitals do not count.
    """
    of_it = [
        one
        for one in known
        if one.surface.lower() == surface.lower() and one.control.lower() == control.lower()
    ]
    straight = next((str(one.goes) for one in of_it if one.moves == moves), None)
    against = next((OPPOSITE[one.goes] for one in of_it if one.moves == OPPOSITE[moves]), None)
    return straight or against


def movement_words(one: Movement) -> str:
    """Say one movement in few words: ``stick left: left aileron up``."""
    return f"{one.control} {one.moves}: {one.surface} {one.goes}"
