"""The tables of ``results.json``: the rows of the pages as plain values, with their columns explained."""

from __future__ import annotations

from dossier.dossier import Dossier
from dossier.results_tables import (
    battery,
    cycles,
    energy,
    flight,
    loads,
    measured,
    part_filled,
    performance,
    phases,
    road,
    trade_rules,
    upkeep,
    wiring,
)
from dossier.results_tables.table import Table


def tables(dossier: Dossier) -> tuple[Table, ...]:
    """Return every table, always in the same order; one without rows says why."""
    return (
        *loads.tables(dossier),
        *energy.tables(dossier),
        *phases.tables(dossier),
        *part_filled.tables(dossier),
        *trade_rules.tables(dossier),
        *battery.tables(dossier),
        *cycles.tables(dossier),
        *wiring.tables(dossier),
        *performance.tables(dossier),
        *flight.tables(dossier),
        *measured.tables(dossier),
        *upkeep.tables(dossier),
        *road.tables(dossier),
    )
