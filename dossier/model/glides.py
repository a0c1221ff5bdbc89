"""The glides of a flight test, from which a drag polar is fitted."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Length, Mass, Ratio, Speed, Temperature


class MeasuredGlide(Part):
    """One glide of a flight test, motor off, at a steady speed."""

    speed: Speed
    """Calibrated."""
    sink: Speed
    """True: drop of pressure altitude over time, corrected for the warmth of the air. Its ± holds what differs
    from one glide to the next, not what the session shares."""  # noqa: E501 - its first line is the help where the key is missing
    at_mass: Mass | None = None
    """Left out: the mass of ``glide`` in the type's file; the glide was reduced to it."""
    pressure_altitude: Length | None = None
    """In mid-glide, with ``temperature``. Both left out: the sink was reduced to sea level."""
    temperature: Temperature | None = None


class SharedErrors(Part):
    """Errors that all glides of one flight test share. Each left out: the usual one."""

    air_motion: Speed | None = None
    """Unseen rise or fall of the air."""
    airspeed_scale: Ratio | None = None
    """Calibration of the airspeed."""
    mass: Ratio | None = None
    density: Ratio | None = None
