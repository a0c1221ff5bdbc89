"""Points that fill the unit interval evenly and always alike: a Halton sequence, one prime base a dimension.

Source: Halton 1960 (memory)
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from math import sqrt
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

COUNT = 4096
"""Points of a sequence."""


def primes() -> Iterator[int]:
    """Go through the primes: the bases of one dimension after the other."""
    found: list[int] = []
    number = 2
    while True:
        if all(number % prime for prime in found):
            found.append(number)
            yield number
        number += 1


@cache
def points(base: int) -> Array:
    """Return the points 1 to :data:`COUNT` of a base, its digits mirrored at the point: above 0 and below 1.

    The point 0 is left out: no normal distribution has a value there.
    """
    left, mirrored, weight = np.arange(1, COUNT + 1), np.zeros(COUNT), 1.0
    while left.any():
        weight /= base
        mirrored += weight * (left % base)
        left //= base
    return _kept(mirrored)


@cache
def normal(base: int) -> Array:
    """Return the points as values of the standard normal distribution."""
    inverse = NormalDist().inv_cdf
    return _kept(np.array([inverse(point) for point in points(base).tolist()]))


@cache
def rectangular(base: int) -> Array:
    """Return the points as values of the rectangular distribution of mean 0 and standard deviation 1."""
    return _kept(sqrt(3) * (2 * points(base) - 1))


def _kept(column: Array) -> Array:
    column.setflags(write=False)  # it is shared by all that ask for this base
    return column
