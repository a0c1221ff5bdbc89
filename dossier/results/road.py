"""A packed trailer against limits of size on the road. The tool compares; the law decides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dossier.model.road_limits import RoadLimit, RoadLimits
from dossier.model.trailer import Trailer
from dossier.results.packing import Size, sizes

WITHIN, BEYOND, TOO_CLOSE, NOT_SHOWN = (
    "within the limit",
    "beyond the limit",
    "too close to tell",
    "not shown",
)


@dataclass(frozen=True)
class RoadVerdict:
    """One limit of one place."""

    place: str
    """Its key."""
    limit: RoadLimit
    size: Size | None
    """None where the trailer's file does not say enough."""
    state: str

    @property
    def margin(self) -> float | None:
        """What is left to the limit, in m; below zero when beyond."""
        return self.limit.limit.value - self.size.value if self.size else None


@dataclass(frozen=True)
class RoadResult:
    """The packed trailer: its size, and what the limits of the places say."""

    sizes: tuple[Size, ...]
    verdicts: tuple[RoadVerdict, ...]
    known: RoadLimits


def judge_road(trailer: Trailer, known: RoadLimits) -> RoadResult:
    """Hold a packed trailer against every limit of the places that it is driven in, in their order.

    Args:
        trailer: names places among ``known.places``; a project that was checked names no other.
        known: the limits.
    """
    made = sizes(trailer)
    measured = {size.measure: size for size in made}
    return RoadResult(made, tuple(_verdicts(map(str, trailer.places), measured, known)), known)


def _verdicts(places: Iterable[str], measured: dict[str, Size], known: RoadLimits) -> Iterator[RoadVerdict]:
    for place in places:
        for limit in known.places[place].limits:
            size = measured.get(limit.measure)
            yield RoadVerdict(place, limit, size, _state(limit, size))


def _state(limit: RoadLimit, size: Size | None) -> str:
    if size is None:
        return NOT_SHOWN
    margin = limit.limit.value - size.value
    if size.expanded_uncertainty and abs(margin) < size.expanded_uncertainty:
        return TOO_CLOSE
    return WITHIN if margin >= 0 else BEYOND
