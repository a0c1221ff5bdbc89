"""Tables of the packed trailer."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.road import RoadVerdict
from dossier.results_tables.table import WORDS, Table, Value, known, table

NO_FILE = "the type has no trailer.yaml"
SIZES = (
    ("measure", WORDS, "width, height, body length (without drawbar), trailer length or combination length"),
    ("size", "length", "of the packed trailer"),
    ("standard_uncertainty", "length", "of that size"),
    ("set_by", WORDS, "the part that reaches farthest, or the body"),
    ("figure", WORDS, "the figure of this size"),
)
LIMITS = (
    ("place", WORDS, "key of the place"),
    ("measure", WORDS, "as in the table packed_trailer"),
    ("limit", "length", "the limit; what is just as large is within it"),
    ("size", "length", "of the packed trailer"),
    ("margin", "length", "left to the limit; below zero when beyond"),
    ("verdict", WORDS, "within the limit, beyond the limit, too close to tell, or not shown"),
    ("clause", WORDS, "where the limit stands in its source"),
    ("source", WORDS, "title of the source"),
    ("figure", WORDS, "the figure of the margin"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    road = dossier.road
    sizes = (
        (size.measure, size.value, size.figure.standard_uncertainty, size.set_by, size.figure.name)
        for size in (road.sizes if road else ())
    )
    yield table("packed_trailer", "The packed trailer", SIZES, sizes, NO_FILE)
    limits = (
        _limit(one, str(road.known.sources[one.limit.source].title))
        for one in (road.verdicts if road else ())
        if road
    )
    empty = "trailer.yaml names no place" if road else NO_FILE
    yield table("road_limits", "Limits of size on the road", LIMITS, limits, empty)


def _limit(one: RoadVerdict, source: str) -> tuple[Value, ...]:
    none = "trailer.yaml does not say enough"
    return (
        str(one.place),
        str(one.limit.measure),
        one.limit.limit.value,
        known(one.size.value if one.size else None, none),
        known(one.margin, none),
        one.state,
        str(one.limit.clause),
        source,
        known(one.left.name if one.left else None, none),
    )
