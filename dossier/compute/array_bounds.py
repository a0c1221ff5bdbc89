"""Bounds of formulas that work on many cases at once, in the wording of :mod:`dossier.compute.bounds`."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.curve import Array
from dossier.figures import OutsideRange


def columns(*given: ArrayLike) -> tuple[Array, ...]:
    """Put columns side by side: floats of one shape, a single value goes for all cases.

    Raises:
        OutsideRange: a value is no finite number.
    """
    made = tuple(
        np.array(column) for column in np.broadcast_arrays(*(np.asarray(one, float) for one in given))
    )
    if not all(np.isfinite(column).all() for column in made):
        raise OutsideRange("a value is not a finite number")
    return made


def all_positive(values: Array, what: str, unit: str) -> Array:
    """Return the values.

    Raises:
        OutsideRange: one of them is not above 0; the first is told.
    """
    if (values <= 0).any():
        raise OutsideRange(f"the {what} is {values[values <= 0].flat[0]:.6g} {unit}, and must be positive")
    return values


def all_within(values: Array, ends: tuple[float, float], what: str, unit: str) -> Array:
    """Return the values.

    Raises:
        OutsideRange: one of them is outside the ends; the first is told.
    """
    low, high = ends
    outside = (values < low) | (values > high)
    if outside.any():
        first = values[outside].flat[0]
        raise OutsideRange(
            f"the {what} is {first:.6g} {unit}, and must be from {low:.6g} to {high:.6g} {unit}"
        )
    return values
