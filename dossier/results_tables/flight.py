"""Tables of flight against height, temperature, speed and pilot."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.flight import Performance
from dossier.results.flight_conditions import PilotRow, PowerRow
from dossier.results.flight_tables import OFFSETS
from dossier.results.flight_tables import Value as Answer
from dossier.results.take_off import RunRow
from dossier.results_tables.performance import HEIGHT, NOT_STATED, OPTION
from dossier.results_tables.table import DAY, WORDS, Blank, Table, Value, table

NO_PILOT = "no battery leaves room for a pilot"
NO_EFFICIENCY = "the efficiency of the drive is not known"
PILOT = ("pilot", "mass", "mass of the pilot with clothes and parachute")
MASS = ("mass", "mass", "mass in flight")
AIR = (
    HEIGHT,
    ("above_standard", "temperature", "difference of the air from the standard temperature"),
    ("temperature", "temperature", "of the air"),
    ("density", "density", "of dry air"),
    ("density_altitude", "length", "height at which the standard atmosphere has this density"),
    ("speed", WORDS, "which speed, of the heaviest pilot"),
    ("calibrated", "speed", "calibrated airspeed"),
    ("true", "speed", "true airspeed at this height and temperature"),
)
POWERS = (
    OPTION,
    PILOT,
    MASS,
    ("speed", "speed", "calibrated, sea level, standard air"),
    ("power_against_drag", "power", "of level flight"),
    ("power_at_shaft", "power", "of level flight"),
    ("power_from_battery", "power", "of level flight, at the terminals of the battery"),
)
PILOTS = (
    OPTION,
    PILOT,
    MASS,
    HEIGHT,
    ("rate_of_climb", "speed", "at full power, standard air"),
    ("gradient", "ratio", "height for distance of that climb, in still air"),
    ("speed_of_climb", "speed", "true"),
    ("top_speed", "speed", "in level flight at full power, true"),
    ("least_sink", "speed", "sink rate, motor off"),
    ("speed_of_least_sink", "speed", "true"),
    ("speed_of_best_glide", "speed", "true"),
)
RUNS = (
    OPTION,
    HEIGHT,
    ("above_standard", "temperature", "difference of the air from the standard temperature"),
    ("run", "length", "on level ground, no wind, full power, the heaviest pilot; an estimate, no distance"),
)
TESTS = (
    ("date", DAY, "of the flight test"),
    ("kind", WORDS, "airspeed_calibration, stalls, timed_descents, timed_glides or level_runs"),
    ("run", "count", "in the order of the file; none for the mean"),
    ("figure", WORDS, "its name"),
    ("value", "speed", "correction, calibrated speed or sink; at sea level in standard air"),
    ("standard_uncertainty", "speed", "with what the runs share"),
)
CURVES = (
    MASS,
    ("of", WORDS, "battery and pilot of that mass"),
    ("speed", "speed", "calibrated, sea level, standard air"),
    ("sink", "speed", "sink rate, motor off"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    made = dossier.performance
    powers, pilots = (made.powers, made.pilots) if made else ((), ())
    none = NO_PILOT if made else NOT_STATED
    yield table("air", "Density altitude and true airspeed", AIR, _air(made), none)
    no_power = NO_EFFICIENCY if pilots else none
    yield table("power_by_speed", "Power of level flight by speed", POWERS, map(_power, powers), no_power)
    title = "Climb, top speed and glide of the lightest and the heaviest pilot by height"
    yield table("flight_by_pilot", title, PILOTS, map(_pilot, pilots), none)
    runs = made.take_off.runs if made and made.take_off else ()
    lines = (line for run in runs for one in run.rows for line in _run(one))
    no_run = "the type states no take_off" if made else NOT_STATED
    yield table("take_off_run", "Take-off run, an estimate for guidance", RUNS, lines, no_run)
    no_test = "no flight test of this serial holds runs"
    yield table("flight_test_runs", "Runs of flight tests, reduced", TESTS, _tests(dossier), no_test)
    yield table("sink_curves", "Sink rate against speed at two masses", CURVES, _curves(made), none)


def _air(made: Performance | None) -> Iterator[tuple[Value, ...]]:
    if made is None or made.air is None:
        return
    for one in made.air.rows:
        around = (one.height, one.offset, one.temperature, one.density, one.density_altitude)
        for name, calibrated, true in zip(made.air.names, made.air.calibrated, one.true, strict=True):
            yield (*around, str(name), calibrated, true)


def _curves(made: Performance | None) -> Iterator[tuple[Value, ...]]:
    for one in made.curves if made else ():
        for speed, sink in one.points:
            yield one.mass, str(one.words), speed, sink


def _answer(value: Answer) -> Value:
    return Blank(value) if isinstance(value, str) else value


def _power(one: PowerRow) -> tuple[Value, ...]:
    powers = (_answer(power) for power in (one.air, one.shaft, one.pack))
    return (str(one.option), one.pilot, one.mass, one.speed, *powers)


def _tests(dossier: Dossier) -> Iterator[tuple[Value, ...]]:
    for one in dossier.flight_runs.reduced:
        for number, figure in enumerate(one.runs, start=1):
            yield one.test.date, one.kind, number, figure.name, figure.value, figure.standard_uncertainty
        if one.mean:
            mean = one.mean
            all_runs = Blank("the mean of all runs")
            yield one.test.date, one.kind, all_runs, mean.name, mean.value, mean.standard_uncertainty


def _run(one: RunRow) -> Iterator[tuple[Value, ...]]:
    for offset, value in zip(OFFSETS, one.runs, strict=True):
        yield str(one.option), one.height, offset, _answer(value)


def _pilot(one: PilotRow) -> tuple[Value, ...]:
    climbs = (_answer(value) for value in (one.rate, one.gradient, one.climb_speed, one.top_speed))
    where = (str(one.option), one.pilot, one.mass, one.height)
    return (*where, *climbs, one.sink, one.sink_speed, one.glide_speed)
