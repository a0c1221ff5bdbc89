"""The table of batteries with part of their strings."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.part_filled import Filling
from dossier.results_tables.table import WORDS, Table, Value, known, table

COLUMNS = (
    ("option", WORDS, "battery, its key in battery.yaml; the largest stands first"),
    ("strings", "count", "strings in parallel that are fitted"),
    ("strings_of_the_box", "count", "strings in parallel that the battery has when whole"),
    ("pilot", "mass", "mass of the pilot, the same with every battery"),
    ("battery_mass", "mass", "mass of the battery, without the cells that are left out"),
    ("mass", "mass", "mass in flight"),
    ("energy", "energy", "energy at rest between the limits of voltage"),
    ("share_of_energy", "ratio", "that energy of the one of the largest battery"),
    ("plain_share", "time", "that share of the endurance of the largest battery by the energy"),
    ("by_reserve", "time", "added to it: what another part kept as reserve makes"),
    ("by_phases", "time", "added to it: climb, landing and what is kept back take as much as ever"),
    ("by_mass", "time", "added to it: another mass in flight"),
    ("by_energy", "time", "level flight by the energy, reserve kept; the sum of the four before it"),
    ("by_load", "time", "added to it: voltage under load in place of one efficiency"),
    ("by_power", "time", "added to it: charge kept so that a later phase gets its power"),
    ("by_discharge_model", "time", "level flight by the discharge model; the sum of the three before it"),
    ("share_by_energy", "ratio", "endurance by the energy, of that of the largest battery"),
    ("share_by_discharge_model", "ratio", "endurance by the discharge model, of that of the largest battery"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the table."""
    made = dossier.part_filled
    rows = (_row(one, made.fillings[0], made.pilot) for one in made.fillings)
    yield table(
        "part_filled", "Part of the strings, and each battery beside the largest", COLUMNS, rows, made.why
    )


def _row(one: Filling, largest: Filling, pilot: float) -> tuple[Value, ...]:
    by_load, by_power, modelled = one.by_load, one.by_power, one.modelled
    lacking = largest.why or one.why
    return (
        one.option, one.strings, one.of, pilot, one.battery_mass, one.flying_mass, one.energy, one.share,
        one.plain, one.by_reserve, one.by_phases, known(one.by_mass, one.why), known(one.by_energy, one.why),
        known(by_load, one.why), known(by_power, one.why), known(modelled, one.why),
        known(one.share_by_energy(largest), lacking), known(one.share_modelled(largest), lacking),
    )  # fmt: skip
