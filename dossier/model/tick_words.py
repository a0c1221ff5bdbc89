"""What the event of a completed list tells of single ticks."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Text


class OutOfRule(Part):
    """A tick that was made against the order of the list, or without another person, and why."""

    tick: Text
    reason: Text


class TickNote(Part):
    """What somebody wrote beside a tick."""

    tick: Text
    note: Text
