"""Tables of flight performance. A value without an answer says what stands against it."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.flight_tables import OFFSETS, ClimbRow, GlideRow, WindRow
from dossier.results.flight_tables import Value as Answer
from dossier.results_tables.table import WORDS, Blank, Table, Value, known, table
from dossier.sampling import Sampled

NOT_STATED = "the type states no aerodynamics, the aircraft has not been weighed, or the findings say why"
NO_DRIVE = "no climb can be computed; the findings say why"
NO_SPEED = "the type has no limit of speed that no advice on speed may pass"
OPTION = ("option", WORDS, "battery, its key in battery.yaml")
MOVED = "what moved this speed away from the optimum; empty where nothing did"
GLIDES = (
    OPTION,
    ("pilot", "mass", "mass of the pilot with clothes and parachute"),
    ("mass", "mass", "mass in flight"),
    ("stall_speed", "speed", "stalling speed, an estimate"),
    ("speed_of_least_sink", "speed", "calibrated; motor off, sea level, standard air"),
    ("least_sink", "speed", "sink rate at that speed"),
    ("least_sink_moved", WORDS, MOVED),
    ("speed_of_best_glide", "speed", "calibrated; motor off, sea level, standard air"),
    ("glide_ratio", "number", "distance for height at that speed, in still air"),
    ("best_glide_moved", WORDS, MOVED),
)
HEIGHT = ("pressure_altitude", "length", "pressure altitude")
RATES = (
    OPTION,
    HEIGHT,
    ("above_standard", "temperature", "difference of the air from the standard temperature"),
    ("rate_of_climb", "speed", "at full power, with the heaviest pilot"),
)
_DRAWN = {
    key: (
        (f"{key}_low", kind, f"{key.replace('_', ' ')}: 2.5 % of the draws of all errors lie below"),
        (f"{key}_high", kind, f"{key.replace('_', ' ')}: 2.5 % of the draws of all errors lie above"),
        (f"{key}_unanswered", "ratio", f"{key.replace('_', ' ')}: share of the draws that have no answer"),
    )
    for key, kind in (("time", "time"), ("energy", "energy"), ("top_speed", "speed"))
}
"""Low and high are of the draws that have an answer."""
CLIMBS = (
    OPTION,
    HEIGHT,
    ("time", "time", "time of the climb from sea level, standard air, full power, the heaviest pilot"),
    ("energy", "energy", "energy that the battery gives for it"),
    ("usable_energy", "energy", "energy that the battery has for flying"),
    ("top_speed", "speed", "top speed in level flight at that height, true"),
    *_DRAWN["time"],
    *_DRAWN["energy"],
    *_DRAWN["top_speed"],
)
WINDS = (
    OPTION,
    ("mass", "mass", "mass in flight"),
    ("headwind", "speed", "a tailwind is below zero"),
    ("sinking_air", "speed", "how fast the air sinks"),
    ("best_speed", "speed", "speed that leads farthest; motor off, sea level, standard air"),
    ("best_speed_moved", WORDS, MOVED),
    ("distance_for_height", "number", "over the ground, at that speed"),
    (
        "distance_for_height_unchanged",
        "number",
        "the same, at the speed of the best glide in still air",
    ),
)
CURVE = (
    ("speed", "speed", "calibrated, sea level, standard air"),
    ("sink", "speed", "sink rate at the mass of glide in the type's file"),
    ("standard_uncertainty", "speed", "of the sink rate"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    made = dossier.performance
    glides, climbs, winds, curve = (
        (made.glides, made.climbs, made.winds, made.curve) if made else ((), (), (), ())
    )
    no_climb, no_wind = (NO_DRIVE, NO_SPEED) if made else (NOT_STATED, NOT_STATED)
    yield table("glide", "Gliding, motor off", GLIDES, map(_glide, glides), NOT_STATED)
    points = ((point.speed, point.sink, point.standard_uncertainty) for point in curve)
    yield table("polar", "Sink rate against speed", CURVE, points, NOT_STATED)
    rates = (row for one in climbs for row in _rates(one))
    yield table("rate_of_climb", "Rate of climb by height and temperature", RATES, rates, no_climb)
    yield table(
        "climb_to_height", "Climb to a height and top speed there", CLIMBS, map(_climb, climbs), no_climb
    )
    yield table("reach_in_wind", "Reach in wind and sinking air", WINDS, map(_wind, winds), no_wind)


def _answer(value: Answer) -> Value:
    return Blank(value) if isinstance(value, str) else value


def _glide(one: GlideRow) -> tuple[Value, ...]:
    return (
        str(one.option),
        one.pilot,
        one.mass,
        one.stall,
        one.sink_speed,
        one.sink,
        one.sink_clamp,
        one.glide_speed,
        one.glide_ratio,
        one.glide_clamp,
    )


def _rates(one: ClimbRow) -> Iterator[tuple[Value, ...]]:
    for offset, rate in zip(OFFSETS, one.rates, strict=True):
        yield str(one.option), one.height, offset, _answer(rate)


def _climb(one: ClimbRow) -> tuple[Value, ...]:
    usable = known(one.usable, "the energy of the battery cannot be computed")
    return (
        str(one.option),
        one.height,
        _answer(one.time),
        _answer(one.energy),
        usable,
        _answer(one.top_speed),
        *_drawn(one.draws.time),
        *_drawn(one.draws.energy),
        *_drawn(one.draws.top_speed),
    )


def _drawn(sampled: Sampled) -> tuple[Value, ...]:
    ends = (sampled.quantiles[0], sampled.quantiles[2]) if sampled.quantiles else (None, None)
    return (*(known(end, sampled.state or "no draw has an answer") for end in ends), sampled.unanswered)


def _wind(one: WindRow) -> tuple[Value, ...]:
    best = (_answer(one.speed), one.clamp, _answer(one.ratio), _answer(one.unchanged))
    return (str(one.option), one.mass, one.head, one.down, *best)
