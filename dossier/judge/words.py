"""Numbers in the sentences of verdicts: never so rounded that they tell another story."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor, log10

from dossier.judge.decision import Limit

_MOST_DECIMALS = 9
_OFF = 0.005
"""By how much of itself a printed value may be off."""

KEEPS = {"<": "is less than", "<=": "is no more than", ">=": "is at least", ">": "is more than"}
FAILS = {"<": "is not less than", "<=": "is more than", ">=": "is less than", ">": "is not more than"}


def telling(value: float, limit: Limit) -> str:
    """Print a value with one decimal, and as many more as it takes to stand on its own side of the limit."""
    for decimals in range(1, _MOST_DECIMALS):
        text = f"{value:.{decimals}f}"
        shown = float(text)
        if limit.keeps(shown) == limit.keeps(value) and (shown == limit.value) == (limit.inside(value) == 0):
            return text
    return f"{value:.12g}"


def beside(value: float, stated: float, ends: Iterable[Limit]) -> str:
    """Print a value as finely as a stated number, and with as many more decimals as it takes to stand on its
    own side of that number and of the ends about it, and to be off by half a per cent at the most: 52.04
    beside 52, and 19.4 beside 20."""
    written = plain(stated)
    least = len(written.partition(".")[2]) if "e" not in written else 0
    around = tuple(ends)
    for decimals in range(least, _MOST_DECIMALS):
        text = f"{value:.{decimals}f}"
        shown = float(text)
        same_side = (shown > stated, shown < stated) == (value > stated, value < stated)
        near = abs(shown - value) <= _OFF * abs(value)
        if near and same_side and all(end.keeps(shown) == end.keeps(value) for end in around):
            return text
    return f"{value:.12g}"


def short(value: float) -> str:
    """Print a value to two significant digits without an exponent."""
    rounded = float(f"{value:.1e}")
    return f"{rounded:.10f}".rstrip("0").rstrip(".") if rounded else "0"


def plain(value: float) -> str:
    """Print a limit as it is: to 6 digits, without trailing zeros."""
    return f"{value:.6g}"


def percent(share: float) -> str:
    """Print a coverage, such as ``95 %``."""
    return f"{share * 100:.6g} %"


def called(kind: str) -> str:
    """Name a kind of quantity for a reader."""
    return kind.replace("_", " ")


def unit_behind(text: str, unit: str) -> str:
    """Put a unit behind a number, where there is one."""
    return f"{text} {unit}".rstrip()


def on_the_safe_side(acceptance_limit: float, guard_band: float, limit: Limit) -> str:
    """Print an acceptance limit to the second digit of its guard band, rounded away from the limit."""
    decimals = max(0, 1 - floor(log10(guard_band)))
    step = 10.0**decimals
    rounded = floor(acceptance_limit * step) if limit.is_upper else ceil(acceptance_limit * step)
    return f"{rounded / step:.{decimals}f}"
