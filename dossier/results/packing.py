"""The size of a packed trailer: the body and every part on it, and which of them sets each measure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

from dossier.model.trailer import PackedPart, Trailer
from dossier.quantities import COVERAGE_FACTOR, Quantity


@dataclass(frozen=True)
class Size:
    """One measure of the packed trailer."""

    measure: str
    """As in the road limits."""
    value: float
    """In m."""
    expanded_uncertainty: float
    """In m, k = 2, of the lengths that set it."""
    set_by: str
    """Which part or whether the body, in words."""


@dataclass(frozen=True)
class _Reach:
    """How far one thing reaches in one direction."""

    name: str
    value: float
    lengths: tuple[Quantity, ...]


def sizes(trailer: Trailer) -> tuple[Size, ...]:
    """Return width, height and lengths of a packed trailer; a combination only with the towing vehicle."""
    return tuple(_sizes(trailer))


def _sizes(trailer: Trailer) -> Iterator[Size]:
    parts = list(trailer.parts.values())
    body = "the body"
    right = _farthest(
        _Reach(body, trailer.width.value / 2, (trailer.width,)), [_side(part, 1) for part in parts]
    )
    left = _farthest(
        _Reach(body, trailer.width.value / 2, (trailer.width,)), [_side(part, -1) for part in parts]
    )
    yield _sum("width", left, right)
    tops = [
        _Reach(str(part.name), part.above.value + part.height.value, (part.above, part.height))
        for part in parts
    ]
    yield _sum("height", _farthest(_Reach(body, trailer.height.value, (trailer.height,)), tops))
    ends = [
        _Reach(str(part.name), part.behind.value + part.length.value, (part.behind, part.length))
        for part in parts
    ]
    rear = _farthest(_Reach(body, trailer.length.value, (trailer.length,)), ends)
    ahead = [_Reach(str(part.name), -part.behind.value, (part.behind,)) for part in parts]
    yield _sum("body length", _farthest(_Reach(body, 0.0, ()), ahead), rear)
    front = _farthest(_Reach("the drawbar", trailer.drawbar.value, (trailer.drawbar,)), ahead)
    yield _sum("trailer length", front, rear)
    if trailer.towing_vehicle is not None:
        vehicle = _Reach("the towing vehicle", trailer.towing_vehicle.value, (trailer.towing_vehicle,))
        yield _sum(
            "combination length",
            vehicle,
            _Reach("the drawbar", trailer.drawbar.value, (trailer.drawbar,)),
            rear,
        )


def _side(part: PackedPart, sign: int) -> _Reach:
    return _Reach(str(part.name), sign * part.right.value + part.width.value / 2, (part.right, part.width))


def _farthest(body: _Reach, parts: list[_Reach]) -> _Reach:
    """The body, unless a part reaches farther."""
    return max([body, *parts], key=lambda reach: reach.value)


def _sum(measure: str, *reaches: _Reach) -> Size:
    lengths = {id(length): length for reach in reaches for length in reach.lengths}
    spread = sqrt(sum(length.standard_uncertainty**2 for length in lengths.values()))
    names = dict.fromkeys(reach.name for reach in reaches)
    return Size(measure, sum(reach.value for reach in reaches), COVERAGE_FACTOR * spread, " and ".join(names))
