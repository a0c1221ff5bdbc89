"""Bounds that many formulas share, refused in one wording, and the arithmetic of an elementwise formula.

A column of draws in place of a number gets "not a number" wherever a number would be refused: see
:func:`dossier.figures.elementwise`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import fsum, sqrt
from typing import cast

import numpy as np

from dossier.figures import OutsideRange


def positive(value: float, what: str, unit: str = "") -> float:
    """Return the value.

    Raises:
        OutsideRange: it is not above 0.
    """
    return where_holds(
        value,
        value > 0,
        lambda: OutsideRange(f"the {what} is {_shown(value, unit)}, and must be positive"),
    )


def not_negative(value: float, what: str, unit: str = "") -> float:
    """Return the value.

    Raises:
        OutsideRange: it is below 0.
    """
    return where_holds(
        value,
        value >= 0,
        lambda: OutsideRange(f"the {what} is {_shown(value, unit)}, and must not be negative"),
    )


def efficiency(eta: float) -> float:
    """Return an efficiency.

    Raises:
        OutsideRange: it is not above 0 and at most 1.
    """
    return where_holds(
        eta,
        (eta > 0) & (eta <= 1),
        lambda: OutsideRange(f"the efficiency is {eta:.6g}, and must be above 0 and at most 1"),
    )


def where_holds(value: float, holds: bool, refusal: Callable[[], OutsideRange]) -> float:
    """Return a value where its range holds; of a column every other row becomes not a number.

    Raises:
        OutsideRange: the range of a single value does not hold; not a number lies in no range.
    """
    if isinstance(value, np.ndarray):
        return cast(float, np.where(holds, value, np.nan))
    if not holds:
        raise refusal()
    return value


def root(value: float) -> float:
    """Return the square root of a number or of a column."""
    return cast(float, np.sqrt(value)) if isinstance(value, np.ndarray) else sqrt(value)


def larger(one: float, other: float) -> float:
    """Return the larger of two numbers, or of two columns row by row; what is not a number stays so."""
    if isinstance(one, np.ndarray) or isinstance(other, np.ndarray):
        return cast(float, np.maximum(one, other))
    return max(one, other)


def sum_of(values: Iterable[float]) -> float:
    """Add numbers without rounding in between, or numbers and columns."""
    items = list(values)
    return sum(items) if any(isinstance(item, np.ndarray) for item in items) else fsum(items)


def _shown(value: float, unit: str) -> str:
    return f"{value:.6g} {unit}".rstrip()
