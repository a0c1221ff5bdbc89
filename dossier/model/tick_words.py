"""What the event of a completed list tells of single ticks."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Count, Text


class OutOfRule(Part):
    """A tick that was made against the order of the list, or without another person, and why."""

    tick: Text
    reason: Text


class TickNote(Part):
    """What somebody wrote beside a tick."""

    tick: Text
    note: Text


class TickWithdrawn(Part):
    """A tick that was taken back, with those that stood on it; it may have been made again later."""

    tick: Text
    at: Text
    """Day and time by the clock of the device, with its offset."""
    ticks: Count
    """How many went, its own included."""
