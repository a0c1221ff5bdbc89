"""Tables of energy in flight: phases, endurance, cold and age, and the gauge card."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from dossier.dossier import Dossier
from dossier.results.discharge_table import Outlook
from dossier.results.gauge import Gauge
from dossier.results.modelled_endurance import ModelledFlight
from dossier.results.profile import Flight
from dossier.results_tables import gauge_measured
from dossier.results_tables.loads import NOT_WEIGHED
from dossier.results_tables.table import FLAG, WORDS, Table, Value, known, table

NO_FLIGHT = "no flight of the profile can be computed; the findings say why"
NO_MODEL = "the discharge model has no answer: no cell states a resistance, or the findings say why"
FLOWN = (
    ("option", WORDS, "battery, its key in battery.yaml"),
    ("pilot", "mass", "mass of the pilot with clothes and parachute"),
)
PHASES = (
    *FLOWN,
    ("phase", WORDS, "name of the phase, in the order of the profile"),
    ("phase_kind", WORDS, "what kind of phase it is"),
    ("power", "power", "electric power at the battery's terminals"),
    ("duration", "time", "how long the phase lasts"),
    ("energy", "energy", "energy that the phase takes"),
    ("kept_back", FLAG, "whether it is a reserve, which is not flown"),
    ("uses_up_the_battery", FLAG, "whether this is the cruise that lasts as long as the battery does"),
)
ENDURANCE = (
    *FLOWN,
    ("mass", "mass", "mass in flight"),
    ("by_energy", "time", "level flight by the energy, reserve kept"),
    ("by_energy_reserve_used", "time", "level flight by the energy, with the reserve used up"),
    ("by_discharge_model", "time", "level flight by the discharge model, reserve kept"),
    ("ends_by", WORDS, "what ends the flight in the discharge model"),
    ("figure", WORDS, "the figure of the endurance by energy, with its uncertainty"),
)
COLD_AND_AGE = (
    *FLOWN,
    ("age", WORDS, "how much of the battery is left: a condition that is asked about, not measured"),
    ("as_recorded", FLAG, "whether the health is that of the record, and nothing is assumed"),
    ("health", "ratio", "capacity left of the nominal one"),
    ("lowest_resistance_growth", "number", "lower end of the resistance over that when new"),
    (
        "highest_resistance_growth",
        "number",
        "upper end of the same; where it was measured, or new, both are alike",
    ),
    ("temperature", "temperature", "temperature of the battery"),
    ("shortest", "time", "level flight; the lower end where a band is given"),
    ("longest", "time", "the upper end of a band"),
    ("ends_by", WORDS, "what ends the flight, or why there is no answer"),
)
GAUGE = (
    *FLOWN,
    ("power", "power", "power of level flight"),
    ("health", "ratio", "capacity left of the nominal one"),
    ("charge", "ratio", "state of charge"),
    ("mark", WORDS, "full, reserve, flying stops, or nothing"),
    ("rest_voltage", "voltage", "voltage of the battery at rest"),
    ("loaded_voltage", "voltage", "voltage of the battery in level flight"),
    ("energy_left", "energy", "energy to where flying stops"),
    ("time_left", "time", "level flight to where flying stops"),
    ("time_to_reserve", "time", "level flight to where the reserve begins; 0 below it"),
    (
        "error_if_loaded_taken_for_rest",
        "time",
        "error of the time when a loaded reading is looked up at rest",
    ),
    (
        "error_if_rest_taken_for_loaded",
        "time",
        "error of the time when a reading at rest is taken for a loaded one",
    ),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    flights = dossier.energy.flights if dossier.energy else ()
    empty = NO_FLIGHT if dossier.energy else NOT_WEIGHED
    phases = (row for flight in flights for row in _phases(flight))
    yield table("energy_by_phase", "Energy by phase of flight", PHASES, phases, empty)
    modelled = {one.flight.endurance.name: one for one in dossier.modelled.flights}
    lasting = (_endurance(flight, modelled.get(flight.endurance.name)) for flight in flights)
    yield table("endurance", "Endurance in level flight", ENDURANCE, lasting, empty)
    healths = {str(model.result.option): model.health for model in dossier.modelled.models}
    outlooks = (row for one in dossier.modelled.outlooks for row in _outlook(one, healths))
    yield table("cold_and_age", "Level flight by temperature and age", COLD_AND_AGE, outlooks, NO_MODEL)
    lines = (row for one in dossier.modelled.gauges for row in _gauge(one))
    yield table("gauge_card", "What a voltmeter shows against what is left", GAUGE, lines, NO_MODEL)
    yield from gauge_measured.tables(dossier)


def _phases(flight: Flight) -> Iterator[tuple[Value, ...]]:
    for row in flight.rows:
        taken = (row.power, row.duration, row.energy)
        yield str(flight.option), flight.pilot, row.name, row.kind, *taken, row.kept, row.is_open


def _endurance(flight: Flight, model: ModelledFlight | None) -> tuple[Value, ...]:
    return (
        str(flight.option),
        flight.pilot,
        flight.mass,
        flight.endurance.value,
        flight.without_reserve.value,
        known(model.modelled.value if model else None, NO_MODEL),
        known(model.ends if model else None, NO_MODEL),
        flight.endurance.name,
    )


def _outlook(one: Outlook, healths: Mapping[str, float]) -> Iterator[tuple[Value, ...]]:
    health = healths[str(one.flight.option)] if one.age.health is None else one.age.health
    for lasts in one.lasts:
        single = "a single value, no band" if lasts.shortest is not None else lasts.words
        yield (
            str(one.flight.option),
            one.flight.pilot,
            one.age.words,
            one.age.health is None,
            health,
            one.age.least_growth,
            one.age.growth,
            lasts.temperature,
            known(lasts.shortest, lasts.words),
            known(lasts.longest, single),
            lasts.words,
        )


def _gauge(one: Gauge) -> Iterator[tuple[Value, ...]]:
    for line in one.lines:
        yield (
            str(one.option),
            one.pilot,
            one.power,
            one.health,
            line.charge,
            line.name,
            line.rest_voltage,
            line.loaded_voltage,
            line.energy_left,
            line.time_left,
            line.time_to_reserve,
            known(line.if_taken_as_rested, "off the card"),
            known(line.if_taken_as_loaded, "off the card"),
        )
