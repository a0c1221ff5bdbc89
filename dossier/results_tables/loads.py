"""Tables of what may be on board."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compute.load_cases import Corner
from dossier.dossier import Dossier
from dossier.results.loading import Loadings, LoadRow
from dossier.results_tables.table import FLAG, WORDS, Blank, Table, Value, known, table

NOT_WEIGHED = "the aircraft has not been weighed"
NO_ENVELOPE = "the type lays down no envelope of the centre of gravity"
OVER_WEIGHT = "heavier than the limit of take-off mass, where no limit of the arm is laid down"
ON_BOARD = (
    ("option", WORDS, "battery, its key in battery.yaml"),
    ("pilot", "mass", "mass of the pilot with clothes and parachute"),
    ("ballast", "mass", "mass of the ballast"),
    ("baggage", "mass", "mass of the baggage"),
    ("mass", "mass", "mass of the loaded aircraft"),
    ("cg", "length", "arm of its centre of gravity, behind the datum positive"),
)
LOADING = (
    *ON_BOARD,
    ("below_mass_limit", "mass", "left to the limit of take-off mass; below zero when beyond"),
    ("behind_forward_limit", "length", "distance inside the forward limit; below zero when outside"),
    ("ahead_of_aft_limit", "length", "distance inside the aft limit; below zero when outside"),
    ("inside", FLAG, "whether mass and centre of gravity are inside every limit"),
)
WORST = (
    ("limit", WORDS, "the limit that this loading comes closest to, or passes farthest"),
    *ON_BOARD,
    ("margin_of_mass", "mass", "left to a limit of mass; below zero when beyond"),
    ("margin_of_arm", "length", "distance inside a limit of the arm; below zero when outside"),
    ("figure", WORDS, "the figure of this margin, with its uncertainty"),
)
BALLAST = (
    ("option", WORDS, "battery, its key in battery.yaml"),
    ("pieces", "count", "pieces of ballast that bring the lightest pilot inside the limits"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    loads = dossier.loadings
    rows = loads.rows if loads else ()
    yield table(
        "loading", "Loadings and their margins", LOADING, (_loading(row, loads) for row in rows), NOT_WEIGHED
    )
    worst = loads.worst if loads else ()
    empty = NO_ENVELOPE if loads else NOT_WEIGHED
    yield table("worst_loading", "The loading nearest to each limit", WORST, map(_corner, worst), empty)
    pieces = loads.ballast_pieces.items() if loads else ()
    yield table(
        "ballast_for_lightest_pilot",
        "Ballast for the lightest pilot",
        BALLAST,
        ((str(option), known(count, "no number of pieces does")) for option, count in pieces),
        NOT_WEIGHED,
    )


def _loading(row: LoadRow, loads: Loadings | None) -> tuple[Value, ...]:
    none = NO_ENVELOPE if loads is None or loads.envelope is None else OVER_WEIGHT
    on_board = (str(row.option), row.pilot, row.ballast, row.baggage, row.mass, row.cg)
    return (*on_board, row.below_limit, known(row.forward, none), known(row.aft, none), row.inside)


def _corner(corner: Corner) -> tuple[Value, ...]:
    aircraft, pilot, ballast, baggage = corner.loads
    of_mass = corner.limit == "mass"
    other = Blank("this limit is one of " + ("mass" if of_mass else "the arm"))
    return (
        corner.limit,
        str(aircraft.name),
        pilot.mass,
        ballast.mass,
        baggage.mass,
        corner.mass,
        corner.arm,
        corner.margin if of_mass else other,
        other if of_mass else corner.margin,
        f"margin.worst_{corner.limit}",
    )
