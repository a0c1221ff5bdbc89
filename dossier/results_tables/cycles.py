"""The table of cycles by the rate of the discharge."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.years import MODEL_KEYS, Years
from dossier.results_tables.table import FLAG, WORDS, Table, Value, known, table

COLUMNS = (
    ("option", WORDS, "battery, its key in battery.yaml"),
    ("model", WORDS, "published model: no_rate knows no rate, the other two have a term of it"),
    ("in_use", FLAG, "whether the rate is the mean of the stated use"),
    ("discharged_in", "time", "time in which the whole battery is discharged"),
    ("rate", "number", "of the discharge, in capacities an hour"),
    ("cycles", "count", "full cycles to 80 % of the capacity when new, by use alone, at 25 °C"),
)
OUTSIDE = "outside the rates at which this model was tested"
NOT_STATED = "no cycles are reckoned: the type states no use, or its cells no resistance or model of ageing"


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the table."""
    rows = (row for one in dossier.battery_years.years for row in _rows(one))
    yield table("cycles_by_rate", "Full cycles by the rate of the discharge", COLUMNS, rows, NOT_STATED)


def _rows(one: Years) -> Iterator[tuple[Value, ...]]:
    for row in one.rates.rows if one.rates else ():
        for model, cycles in zip(MODEL_KEYS, row.cycles, strict=True):
            in_use = row.time is None
            time = 3600.0 / row.rate
            yield one.option, model, in_use, time, row.rate, known(cycles, OUTSIDE)
