"""Tables of the batteries: years, ends of life, charging, tests of the capacity."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.capacity_logs import CapacityLog
from dossier.results.years import LIMITS, Years
from dossier.results_tables import acceptance
from dossier.results_tables.table import FLAG, WORDS, Table, Value, known, table

OPTION = ("option", WORDS, "battery, its key in battery.yaml")
BELOW = "below 70 % of its capacity, where no model of ageing speaks"
NO_END = "no limit is reached within 40 years by the likely value"
NOT_STATED = "no years are computed: the type states no use, or its cells no resistance or model of ageing"
YEARS = (
    OPTION,
    ("year", "years", "time from new"),
    ("health", "ratio", "capacity left of the nominal one, likely"),
    ("lowest_health", "ratio", "the worst of the models"),
    ("highest_health", "ratio", "the best of the models"),
    ("resistance_growth", "number", "resistance over that when new, likely"),
    ("lowest_resistance_growth", "number", "the lower end of its range"),
    ("highest_resistance_growth", "number", "the upper end"),
    (
        "shortest_level_flight",
        "time",
        "with the heaviest pilot that has an answer, reserve kept, at worst",
    ),
    ("longest_level_flight", "time", "the same, at best"),
)
ENDS = (
    OPTION,
    ("limit", WORDS, "what ends the life"),
    ("bound", "number", "capacity left, or resistance, each of that when new, at which it does"),
    ("year", "years", "when, by the likely value"),
    ("earliest", "years", "when at worst"),
    ("latest", "years", "when at best"),
)
CHARGING = (
    OPTION,
    ("at_full_power", "time", "time that the charger works at full power"),
    ("taper", "time", "time in which it tapers off"),
    ("energy", "energy", "energy into the battery"),
    ("end", "ratio", "state of charge at which the charger stops"),
)
TESTS = (
    ("pack", WORDS, "serial number of the battery"),
    ("day", "date", "when it was tested"),
    ("file", WORDS, "the log"),
    ("stated", "charge", "capacity that the record states"),
    ("logged", "charge", "capacity by the log"),
    ("logged_standard_uncertainty", "charge", "its standard uncertainty"),
    ("agrees", FLAG, "whether both agree within their expanded uncertainty, k = 2"),
    ("energy", "energy", "energy that the test took"),
    ("accepted", FLAG, "whether the log meets what is asked of it"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    made = dossier.battery_years.years
    why = " ".join(dict.fromkeys(words for one in made for words in one.words)) or NOT_STATED
    years = (row for one in made for row in _years(one))
    yield table("battery_by_year", "The battery by year", YEARS, years, why)
    ends = (row for one in made for row in _ends(one))
    empty = NO_END if any(one.rows for one in made) else why
    yield table("end_of_battery_life", "What ends the life of the battery", ENDS, ends, empty)
    plans = (row for one in made for row in _charging(one))
    yield table("charging_after_flight", "Charging after a flight, battery new", CHARGING, plans, why)
    tests = map(_test, dossier.capacity_logs.logs)
    yield table("capacity_tests", "Capacity by the record and by its log", TESTS, tests, "no test has a log")
    yield from acceptance.tables(dossier)


def _years(one: Years) -> Iterator[tuple[Value, ...]]:
    for row in one.rows:
        worst, best = row.lasts
        yield (
            str(one.option),
            row.year,
            known(row.likely, BELOW),
            known(row.worst, BELOW),
            known(row.best, BELOW),
            row.growth,
            row.best_growth,
            row.worst_growth,
            *(known(lasts, "beyond the model, or no pilot has an answer") for lasts in (worst, best)),
        )


def _ends(one: Years) -> Iterator[tuple[Value, ...]]:
    for end in one.ends:
        banded = end.earliest is not None or end.latest is not None
        none = "later than 40 years" if banded else "no band of this limit is known"
        bound = {"capacity": LIMITS.health, "resistance": LIMITS.growth}.get(end.limit)
        yield (
            str(one.option),
            end.limit,
            known(bound, "counted in years or cycles"),
            end.year,
            known(end.earliest, none),
            known(end.latest, none),
        )


def _charging(one: Years) -> Iterator[tuple[Value, ...]]:
    if one.charging:
        plan = one.charging
        yield str(one.option), plan.bulk_time, plan.taper_time, plan.energy, plan.end


def _test(one: CapacityLog) -> tuple[Value, ...]:
    logged = one.figures.get("logged_capacity")
    none = "the log gives no capacity; the findings say why"
    return (
        str(one.event.pack),
        one.event.date,
        one.file,
        known(one.stated.value if one.stated else None, "not stated"),
        known(logged.value if logged else None, none),
        known(logged.standard_uncertainty if logged else None, none),
        known(one.agrees, "nothing to compare"),
        known(one.test.energy.value if one.test else None, "the log holds no discharge"),
        one.acceptance.accepted,
    )
