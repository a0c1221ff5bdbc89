"""What an aircraft is weighed with: scales, what measures its arms, and the points on which it stands."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import Date, Length, Mass, Name, OneOf, Text


class Scale(Part):
    """A weighing scale."""

    name: Text
    serial_number: Text
    calibrated: Date
    certificate: Text
    """Scales that share a certificate share their calibration error."""
    maximum_permissible_error: Mass
    """The largest error that the certificate leaves, at these loads."""
    resolution: Mass
    zero_before: Mass | None = None
    zero_after: Mass | None = None


OUTWARD, ALIKE = "outward", "alike"


class ArmInstrument(Part):
    """A tape, level or plumb line with which arms were measured."""

    name: Text
    serial_number: Text
    calibrated: Date
    certificate: Text
    """Instruments that share a certificate share their error, as scales do."""
    maximum_permissible_error: Length
    """The largest error that the certificate leaves, at these lengths."""
    acts: Annotated[str, OneOf(OUTWARD, ALIKE)] = OUTWARD
    """``outward``: away from the datum on both sides, as of a tape that is too long. ``alike``: all arms the
    same way, as of the level or plumb line that marks the datum."""


class Support(Part):
    """A point on which the aircraft stands while it is weighed."""

    name: Text
    scale: Name
    readings: list[Mass]
    """One reading, or several with the aircraft taken off and put on again."""
    tare: Mass | None = None
    """Chocks, jacks and blocks on the scale."""
    arm: Length
    """Its ± is what this arm shares with no other: marking and reading."""
    arm_measured_with: list[Name] = []
    """The instruments whose errors are in this arm as well."""
    lateral_arm: Length | None = None
    """Right positive."""
