"""Tables of the phases as flown by the discharge model, and of heat and cooling."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.heat import Heat
from dossier.results.phases_flown import PhasesFlown
from dossier.results_tables.table import FLAG, WORDS, Table, Value, known, table

FLOWN = (
    ("option", WORDS, "battery, its key in battery.yaml"),
    ("pilot", "mass", "mass of the pilot with clothes and parachute"),
    ("phase", WORDS, "name of the phase, in the order in which it is flown"),
    ("kept_back", FLAG, "whether it is a reserve, which is not flown"),
    ("power", "power", "electric power at the battery's terminals"),
    ("duration", "time", "how long it lasts by the discharge model"),
    ("energy", "energy", "energy that it takes"),
    ("charge_at_end", "ratio", "state of charge at its end"),
    ("lowest_voltage", "voltage", "the lowest voltage under load"),
    ("largest_current", "current", "the largest current"),
    ("rate", "number", "that current in capacities that are left an hour"),
    ("heat", "energy", "what cells and wiring lose, an estimate"),
    ("ends_by", WORDS, "what ends it before its time or, for level flight, in any case, and when"),
)
HEAT = (
    ("option", WORDS, "battery, its key in battery.yaml, with the heaviest pilot that was flown whole"),
    ("heat", WORDS, "the figure of the heat in the whole profile"),
    ("rise", WORDS, "the figure of the rise of the cells if nothing cools them"),
    ("hottest_phase", WORDS, "the phase with the most heat in a second"),
    ("air", WORDS, "the figure of the mass of air a second that carries it away"),
    ("air_volume", WORDS, "the same as a volume at sea level"),
    ("limit", "temperature", "limit of the temperature in use; the estimate gives no verdict on it"),
)
BY_PHASE = (
    ("option", WORDS, "battery, its key in battery.yaml, with the heaviest pilot that was flown whole"),
    ("phase", WORDS, "name of the phase, in the order in which it is flown"),
    ("heat_rate", "power", "mean heat"),
    ("duration", "time", "how long it lasts by the discharge model"),
    ("rise", "temperature", "of the cells by this phase alone if nothing cools them"),
    ("lowest_temperature_at_end", "temperature", "with the heat of all phases before it, nothing cooling"),
    ("highest_temperature_at_end", "temperature", "the same for cells that take little heat"),
)
NO_WARM_ANSWER = "above 60 °C, to where the law of the resistance holds, or no answer for the warmer cells"
NONE = "the discharge model has no answer: no cell states a resistance, or the findings say why"


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    flown = dossier.modelled.phases
    why = " ".join(dict.fromkeys(f"{one.case.words}: {one.why}." for one in flown if one.why)) or NONE
    rows = (line for one in flown for line in _rows(one))
    yield table("phases_by_model", "Phases by the discharge model, at 25 °C", FLOWN, rows, why)
    yield table(
        "heat_and_cooling", "Heat and cooling, an estimate", HEAT, map(_heat, dossier.modelled.heats), why
    )
    warm = (line for one in dossier.modelled.heats for line in _heat_rows(one))
    yield table("heat_by_phase", "Heat by phase, an estimate", BY_PHASE, warm, why)


def _heat_rows(one: Heat) -> Iterator[tuple[Value, ...]]:
    for line in one.rows:
        ends = line.ends_at or (None, None)
        warm = (known(end, NO_WARM_ANSWER) for end in ends)
        yield str(one.option), line.name, line.heat_rate, line.time, line.rise, *warm


def _rows(one: PhasesFlown) -> Iterator[tuple[Value, ...]]:
    flight = one.case.flight
    for line in one.rows:
        yield (
            str(flight.option),
            flight.pilot,
            line.name,
            line.kept,
            line.power,
            line.time,
            line.energy,
            line.charge,
            line.voltage,
            line.current,
            line.rate,
            line.heat,
            known(line.ends or None, "it lasts its time"),
        )


def _heat(one: Heat) -> tuple[Value, ...]:
    limit = one.limit.value.value if one.limit else None
    return (
        str(one.option),
        one.lost.name,
        one.rise.name,
        one.hottest_phase.name,
        one.air.name,
        one.air_volume.name,
        known(limit, "the type names none: hottest_battery_limit in use"),
    )
