"""The outline of the aircraft from above, for the drawing on the preflight page: measures, not art."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Length, Text


class SpanStation(Part):
    """Where a wing or a tailplane begins and ends at one distance from the centre line."""

    lateral_arm: Length
    """From the centre line outwards; 0 or more."""
    leading_edge: Length
    """Arm."""
    trailing_edge: Length
    """Arm."""


class BodyStation(Part):
    """How wide the fuselage is at one arm."""

    arm: Length
    half_width: Length


class PropellerDisc(Part):
    """The propeller from above: a line."""

    arm: Length
    diameter: Length


class WheelPlace(Part):
    """A wheel or a skid."""

    name: Text
    arm: Length
    lateral_arm: Length
    """Right positive."""


class PlanView(Part):
    """Arms are those of the datum. Both halves are the same."""

    wing: list[SpanStation]
    """From the root outwards, at least two."""
    fuselage: list[BodyStation] = []
    """From the nose to the tail, at least two or none."""
    tail: list[SpanStation] = []
    """The tailplane, from the root outwards, at least two or none."""
    propeller: PropellerDisc | None = None
    wheels: list[WheelPlace] = []


class StationPoint(Part):
    """Where somebody stands or looks, on the drawing from above."""

    arm: Length
    lateral_arm: Length
    """Right positive."""
