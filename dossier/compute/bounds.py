"""Bounds that many formulas share, refused in one wording."""

from __future__ import annotations

from dossier.figures import OutsideRange


def positive(value: float, what: str, unit: str = "") -> float:
    """Return the value.

    Raises:
        OutsideRange: it is not above 0.
    """
    if not value > 0:
        raise OutsideRange(f"the {what} is {_shown(value, unit)}, and must be positive")
    return value


def not_negative(value: float, what: str, unit: str = "") -> float:
    """Return the value.

    Raises:
        OutsideRange: it is below 0.
    """
    if not value >= 0:
        raise OutsideRange(f"the {what} is {_shown(value, unit)}, and must not be negative")
    return value


def efficiency(eta: float) -> float:
    """Return an efficiency.

    Raises:
        OutsideRange: it is not above 0 and at most 1.
    """
    if not 0 < eta <= 1:
        raise OutsideRange(f"the efficiency is {eta:.6g}, and must be above 0 and at most 1")
    return eta


def _shown(value: float, unit: str) -> str:
    return f"{value:.6g} {unit}".rstrip()
