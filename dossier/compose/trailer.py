"""The aircraft on its trailer: sizes, a drawing, and the limits of the places where it is driven."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.packet import Page
from dossier.compose.packing_drawing import drawing
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.dossier import Dossier
from dossier.model.trailer import Trailer
from dossier.results.packing import Size
from dossier.results.road import BEYOND, NOT_SHOWN, TOO_CLOSE, WITHIN, RoadResult, RoadVerdict

STATES = {
    WITHIN: Mark("Within the limit", "conforms"),
    BEYOND: Mark("Beyond the limit", "fails"),
    TOO_CLOSE: Mark("Too close to tell", "inconclusive"),
    NOT_SHOWN: Mark("Not shown", "not-shown"),
}
NAMES = {
    "width": "Width",
    "height": "Height above the road",
    "body length": "Length without drawbar",
    "trailer length": "Length with drawbar",
    "combination length": "Length with towing vehicle",
}
_BASIS = {"read": "read", "read (secondary)": "read at second hand", "memory": "from memory"}


@dataclass(frozen=True)
class PlacePart:
    """A place with its limits."""

    title: str
    scope: str
    limits: Grid


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page, if the type says how it is packed."""
    trailer, road = dossier.project.trailer, dossier.road
    if trailer is None or road is None:
        return ()
    at = Printer(dossier, links.TRAILER)
    text = render(
        "trailer.md.jinja",
        trailer=str(trailer.name),
        kind=str(trailer.kind),
        drawing=drawing(trailer),
        parts_table=_parts(at, trailer),
        elsewhere=tuple(_elsewhere(dossier, trailer)),
        sizes=_sizes(at, road),
        last_checked=road.known.last_checked.isoformat(),
        places=tuple(_places(at, road)),
        summary=_summary(road),
    )
    return (Page(links.TRAILER, "On the trailer", "Operation", text),)


def _parts(at: Printer, trailer: Trailer) -> Grid:
    rows = [
        row(
            Cell(f"{number}  {part.name}"),
            *(at.value(length.value, "length") for length in (part.length, part.width, part.height)),
        )
        for number, part in enumerate(trailer.parts.values(), start=1)
    ]
    return grid(
        "Parts as packed; the numbers are those of the drawing",
        "+ Part | # Length | # Width | # Height",
        rows,
    )


def _elsewhere(dossier: Dossier, trailer: Trailer) -> Iterator[str]:
    rigging = dossier.project.rigging
    for name, where in trailer.elsewhere.items():
        yield f"{rigging.parts[name].name if rigging else name}: {where}"


def _sizes(at: Printer, road: RoadResult) -> Grid:
    rows = [
        row(NAMES[size.measure], _size(at, size), sentence(f"set by {size.set_by}")) for size in road.sizes
    ]
    return grid("The packed trailer", "Measure | # Size | + Set by", rows)


def _size(at: Printer, size: Size) -> Cell:
    shown = at.figure(size.figure)
    both = f"{shown.first} ({shown.other})" if shown.other else shown.first
    return Cell(f"{both} {shown.uncertainty}".rstrip(), shown.sheet)


def _places(at: Printer, road: RoadResult) -> Iterator[PlacePart]:
    for key in dict.fromkeys(verdict.place for verdict in road.verdicts):
        place = road.known.places[key]
        rows = [_verdict(at, road, verdict) for verdict in road.verdicts if verdict.place == key]
        heads = "Measure | # Limit | # Packed | Verdict | + Source"
        yield PlacePart(
            str(place.name), sentence(str(place.scope)), grid(f"Limits: {place.name}", heads, rows)
        )


def _verdict(at: Printer, road: RoadResult, verdict: RoadVerdict) -> Row:
    source = road.known.sources[verdict.limit.source]
    return row(
        NAMES[str(verdict.limit.measure)],
        at.value(verdict.limit.limit.value, "length"),
        Cell(at.value(verdict.size.value, "length"), at.sheet(verdict.size.figure.name))
        if verdict.size
        else "not in trailer.yaml",
        Cell(
            mark=STATES[verdict.state],
            note=_margin(at, verdict),
            note_link=at.sheet(verdict.left.name) if verdict.left else "",
        ),
        Cell(
            f"{source.title}, {verdict.limit.clause}",
            note=sentence(f"{source.edition}; {_BASIS[source.basis]}"),
        ),
    )


def _margin(at: Printer, verdict: RoadVerdict) -> str:
    if verdict.margin is None:
        return ""
    words = "to spare" if verdict.margin >= 0 else "too much"
    return f"{at.value(abs(verdict.margin), 'length')} {words}"


def _summary(road: RoadResult) -> str:
    """One sentence for the top: where it is beyond a limit, else that it is within all that were read."""
    beyond = dict.fromkeys(
        str(road.known.places[one.place].name) for one in road.verdicts if one.state == BEYOND
    )
    if beyond:
        return f"Beyond a limit that was read for: {'; '.join(beyond)}."
    unsure = [one for one in road.verdicts if one.state != WITHIN]
    return (
        "Not every limit that was read is shown to be kept."
        if unsure
        else "Within every limit of size that was read for these places."
    )
