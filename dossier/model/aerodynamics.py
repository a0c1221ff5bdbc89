"""The aerodynamics of the type: the numbers from which glides, climbs and top speeds are computed."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Number, Text


class Coefficient(Part):
    """A coefficient of the aerodynamics and where it comes from."""

    value: Number
    """With its ±, such as ``"0.0165 ± 0.0010"``."""
    reason: Text
    """Flight test, calculation, comparison with another type."""


class Aerodynamics(Part):
    """The drag polar and the stall of the whole aircraft in one configuration, motor off."""

    zero_lift_drag_coefficient: Coefficient
    """Of the parabola through the speeds that are flown, on the wing area of ``geometry``."""
    oswald_factor: Coefficient
    """Above 0 and at most 1; the aspect ratio is span squared over area of ``geometry``."""
    maximum_lift_coefficient: Coefficient
    """Of the whole aircraft, in the configuration of the stalling speed that is declared."""
