"""The table of speeds and sinks as measured, beside what is computed for the same mass."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.flight_comparison import Compared
from dossier.results_tables.table import FLAG, WORDS, Table, Value, known, table

COLUMNS = (
    ("quantity", WORDS, "figure of the flight test"),
    ("day", "date", "of the test"),
    ("mass", "mass", "in the test, or the maximum take-off mass where it states none"),
    ("measured", "speed", "as measured, at standard conditions"),
    ("measured_expanded_uncertainty", "speed", "of it, k = 2; 0 where none is stated"),
    ("against", WORDS, "what the computed value comes from"),
    ("computed", "speed", "for sea level and standard air"),
    ("lowest", "speed", "lower end of what holds 95 % of the computed value"),
    ("highest", "speed", "upper end of the same"),
    ("difference", "speed", "measured less computed"),
    ("allowed", "speed", "what both together may be off, k = 2"),
    ("agrees", FLAG, "whether the difference lies within that"),
    ("remark", WORDS, "what else the comparison rests on"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the table."""
    made = dossier.performance
    why = "no flight test of this serial measured a speed or a sink" if made else "no performance is computed"
    rows = (_row(one) for one in made.compared) if made else ()
    yield table("measured_and_computed", "Flight as measured and as computed", COLUMNS, rows, why)


def _row(one: Compared) -> tuple[Value, ...]:
    why = one.why_not or "there is nothing to compare with"
    computed = one.computed is not None
    return (
        one.quantity, one.day, one.mass, one.measured, one.expanded, one.against,
        known(one.computed, why), *(known(end if computed else None, why) for end in (one.low, one.high)),
        known(one.difference, why), known(one.allowed if computed else None, why), known(one.agrees, why),
        known(one.remark or None, "nothing else"),
    )  # fmt: skip
