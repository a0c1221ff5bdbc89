"""``loading`` of ``aircraft.yaml``: what may be put where, and between which arms the centre of
gravity may lie."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Count, Length, Mass, Name, Text


class Station(Part):
    """A place that can be loaded."""

    name: Text
    arm: Length
    minimum: Mass
    """The least that it holds in flight; for the seat the lightest pilot considered."""
    maximum: Mass


class Ballast(Part):
    """Removable ballast."""

    arm: Length
    piece: Mass
    """The mass of one piece."""
    pieces: Count
    """How many may be fitted."""


class EnvelopePoint(Part):
    """The limits of the centre of gravity at one mass; straight lines join the points."""

    mass: Mass
    forward: Length
    aft: Length


class Loading(Part):
    """How the aircraft may be loaded. Without ``envelope`` only the mass is judged (weight-shift)."""

    seat: Station
    baggage: Station | None = None
    ballast: Ballast | None = None
    envelope: list[EnvelopePoint] = []
    maximum_take_off_mass: Name
    """The limit, by name, that the loaded mass must keep."""
