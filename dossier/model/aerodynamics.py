"""The aerodynamics of the type: the numbers from which glides, climbs and top speeds are computed."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Length, Number, Ratio, Text


class Coefficient(Part):
    """A coefficient of the aerodynamics and where it comes from."""

    value: Number
    """With its ±, such as ``"0.0165 ± 0.0010"``."""
    reason: Text
    """Flight test, calculation, comparison with another type."""


class Merit(Part):
    """A figure of merit and where it comes from."""

    value: Ratio
    """With its ±, such as ``"0.60 ± 0.05"``."""
    reason: Text
    """Test of static thrust, calculation, comparison with another propeller."""


class TakeOff(Part):
    """What an estimate of the take-off run rests on, besides the polar and the power."""

    lift_off_factor: Coefficient
    """Lift-off speed over the stalling speed, from 1 to 1.5."""
    rolling_friction: Coefficient
    """Of wheels on the ground that is meant: from about 0.02 on a hard surface to 0.1 in tall grass."""
    rolling_lift_coefficient: Coefficient
    """Of the whole aircraft while it rolls."""
    propeller_diameter: Length
    propeller_merit: Merit
    """Part of the shaft power that reaches an ideal disc of that diameter, above 0 and up to 1."""


class Aerodynamics(Part):
    """The drag polar and the stall of the whole aircraft in one configuration, motor off."""

    zero_lift_drag_coefficient: Coefficient
    """Of the parabola through the speeds that are flown, on the wing area of ``geometry``."""
    oswald_factor: Coefficient
    """Above 0 and at most 1; the aspect ratio is span squared over area of ``geometry``."""
    maximum_lift_coefficient: Coefficient
    """Of the whole aircraft, in the configuration of the stalling speed that is declared."""
    take_off: TakeOff | None = None
    """Left out: no take-off run is estimated."""
