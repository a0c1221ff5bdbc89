"""What a battery is measured with, and a measured value."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Instruments:
    """Standard uncertainties of what was measured with."""

    current_gain: float = 0.005
    """Relative (source practice: a clamp or shunt of a usual instrument; state the real one)."""
    current_offset: float = 0.0
    """In A."""
    voltage_gain: float = 0.002
    voltage_noise: float = 0.0
    """In V, of one reading."""
    clock: float = 1e-4
    """Relative."""


@dataclass(frozen=True)
class Measured:
    """A value in SI with its standard uncertainty."""

    value: float
    standard_uncertainty: float
