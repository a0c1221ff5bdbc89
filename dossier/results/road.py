"""A packed trailer against limits of size on the road. The tool compares; the law decides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dossier.compute import packing
from dossier.figures import Figure, evaluate, given, taken
from dossier.model.road_limits import RoadLimit, RoadLimits, RoadPlace
from dossier.model.trailer import Trailer
from dossier.quantities import COVERAGE_FACTOR
from dossier.results.packing import Packing, Size, packed
from dossier.results.weighing import slugs

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
    left: Figure | None
    """What is left to the limit; below zero when beyond. None without a size."""

    @property
    def margin(self) -> float | None:
        """What is left to the limit, in m."""
        return self.left.value if self.left else None


@dataclass(frozen=True)
class RoadResult:
    """The packed trailer: its size, and what the limits of the places say."""

    packing: Packing
    verdicts: tuple[RoadVerdict, ...]
    known: RoadLimits

    @property
    def sizes(self) -> tuple[Size, ...]:
        """The measures of the packed trailer."""
        return self.packing.sizes

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return (*self.packing.figures, *(verdict.left for verdict in self.verdicts if verdict.left))


def judge_road(trailer: Trailer, known: RoadLimits) -> RoadResult:
    """Hold a packed trailer against every limit of the places that it is driven in, in their order.

    Args:
        trailer: names places among ``known.places``; a project that was checked names no other.
        known: the limits.
    """
    made = packed(trailer)
    measured = {size.measure: size for size in made.sizes}
    return RoadResult(made, tuple(_verdicts(dict.fromkeys(map(str, trailer.places)), measured, known)), known)


def _verdicts(places: Iterable[str], measured: dict[str, Size], known: RoadLimits) -> Iterator[RoadVerdict]:
    for key in places:
        place = known.places[key]
        for limit, name in zip(place.limits, slugs(str(one.measure) for one in place.limits), strict=True):
            size = measured.get(limit.measure)
            left = _left(f"road_margin.{key}.{name}", place, limit, size) if size else None
            yield RoadVerdict(key, limit, size, _state(left), left)


def _left(name: str, place: RoadPlace, limit: RoadLimit, size: Size) -> Figure:
    words = f"{limit.measure}, {place.name}"
    return evaluate(
        packing.room_to_limit, name, f"Left to the limit of {words}", "length",
        {"l_max": given(limit.limit, f"limit of {words}"), "l_s": taken(size.figure)},
    )  # fmt: skip


def _state(left: Figure | None) -> str:
    if left is None:
        return NOT_SHOWN
    doubt = COVERAGE_FACTOR * left.standard_uncertainty
    if doubt and abs(left.value) < doubt:
        return TOO_CLOSE
    return WITHIN if left.value >= 0 else BEYOND
