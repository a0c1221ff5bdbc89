"""The table of the gauge card beside a measured discharge."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.gauge_measured import MeasuredGauge
from dossier.results_tables.table import FLAG, WORDS, Table, Value, table

MEASURED = (
    ("option", WORDS, "battery, its key in battery.yaml"),
    ("pack", WORDS, "serial number of the battery that was tested"),
    ("day", "date", "when it was tested"),
    ("current", "current", "mean of the test"),
    ("charge", "ratio", "state of charge"),
    ("mark", WORDS, "as on the card"),
    ("measured_voltage", "voltage", "by the log, under the current of the test"),
    ("modelled_voltage", "voltage", "by the model at that current"),
    ("difference", "voltage", "measured less modelled"),
    ("standard_uncertainty", "voltage", "of the difference"),
    ("agrees", FLAG, "whether the difference lies within its expanded uncertainty, k = 2"),
    ("rest_voltage", "voltage", "at rest from the log, the fall by the resistance of the table given back"),
    ("counted_to", "ratio", "state of charge down to which energy is counted"),
    ("energy_left", "energy", "by the log, at its current"),
    ("modelled_energy_left", "energy", "by the model, at that current"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the table."""
    found = dossier.modelled.measured
    whys = (f"{one.option}: {one.why}." for one in found if not isinstance(one, MeasuredGauge))
    why = " ".join(whys) or "there is no gauge card"
    rows = (line for one in found if isinstance(one, MeasuredGauge) for line in _rows(one))
    yield table("gauge_card_measured", "The gauge card beside a measured discharge", MEASURED, rows, why)


def _rows(one: MeasuredGauge) -> Iterator[tuple[Value, ...]]:
    for line in one.lines:
        yield (
            str(one.option),
            one.pack,
            one.day,
            one.current,
            line.charge,
            line.name,
            line.measured,
            line.modelled,
            line.difference,
            line.uncertainty,
            line.agrees,
            line.rest,
            one.counted_to,
            line.energy_left,
            line.model_energy_left,
        )
