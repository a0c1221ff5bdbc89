"""Which way a control surface goes as its control is moved."""

from __future__ import annotations

from collections.abc import Mapping
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
