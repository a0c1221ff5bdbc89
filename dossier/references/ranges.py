"""Values that cannot be what they stand for: a negative mass, an efficiency above 1, a list that holds
nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from dossier.findings import Finding, Place
from dossier.model import aerodynamics, aircraft, battery, events, glides, instruments, loading, wiring
from dossier.model.base import Part
from dossier.project import Project
from dossier.quantities import Quantity


@dataclass(frozen=True)
class Bound:
    """Which values a field may have, in SI."""

    holds: Callable[[float], bool]
    words: str


POSITIVE = Bound(lambda value: value > 0, "above 0")
NOT_NEGATIVE = Bound(lambda value: value >= 0, "of 0 or more")
SHARE = Bound(lambda value: 0 < value <= 1, "above 0 and up to 1 (100 %)")
RESERVE = Bound(lambda value: 0 <= value < 1, "from 0 to below 1 (100 %)")
HEALTH = Bound(lambda value: 0 < value <= 1.1, "above 0 and up to 1.1 (110 %)")
GROWTH = Bound(lambda value: 0.8 <= value <= 10, "from 0.8 to 10, where 1 is as when new")


def _each(bound: Bound, *names: str) -> dict[str, Bound]:
    return dict.fromkeys(names, bound)


BOUNDS: Mapping[type[Part], Mapping[str, Bound]] = {
    aircraft.Geometry: _each(
        POSITIVE, "wing_span", "wing_area", "length", "height", "mean_aerodynamic_chord"
    ),
    loading.Station: _each(NOT_NEGATIVE, "minimum", "maximum"),
    loading.Ballast: _each(POSITIVE, "piece"),
    loading.EnvelopePoint: _each(POSITIVE, "mass"),
    aircraft.Item: _each(NOT_NEGATIVE, "mass"),
    aircraft.Efficiency: _each(SHARE, "battery", "controller", "motor", "propeller"),
    aircraft.Propulsion: _each(POSITIVE, "maximum_power"),
    aircraft.GlidePerformance: _each(POSITIVE, "minimum_sink", "at_mass", "at_speed", "best_glide_ratio"),
    aircraft.Phase: _each(NOT_NEGATIVE, "power", "duration", "height"),
    battery.Cell: _each(
        POSITIVE,
        "mass",
        "diameter",
        "length",
        "width",
        "thickness",
        "nominal_capacity",
        "nominal_voltage",
        "full_voltage",
        "empty_voltage",
        "maximum_discharge_current",
        "maximum_charge_current",
    ),
    battery.Size: _each(POSITIVE, "length", "width", "height"),
    battery.Option: _each(POSITIVE, "series", "parallel", "full_cell_voltage", "empty_cell_voltage")
    | {"mass": NOT_NEGATIVE, "reserve": RESERVE, "wiring_resistance": NOT_NEGATIVE},
    battery.ResistancePoint: _each(POSITIVE, "resistance"),
    aircraft.Use: _each(
        POSITIVE, "hours_per_year", "flights_per_year", "charge_before_flight", "storage_temperature"
    )
    | {"charge_after_flight": RESERVE, "storage_charge": SHARE},
    battery.Bay: _each(NOT_NEGATIVE, "clearance"),
    battery.Charger: {"power": POSITIVE, "efficiency": SHARE, "taper": NOT_NEGATIVE},
    wiring.Burst: _each(POSITIVE, "current", "time"),
    wiring.Load: _each(POSITIVE, "current", "voltage"),
    wiring.Rating: _each(POSITIVE, "current"),
    wiring.Conductor: _each(POSITIVE, "area", "parallel", "rated_voltage", "one_way_length"),
    wiring.Fuse: _each(POSITIVE, "rated_current", "rated_voltage", "interrupt_rating"),
    wiring.Connector: _each(POSITIVE, "rated_current", "rated_voltage"),
    instruments.Scale: _each(NOT_NEGATIVE, "maximum_permissible_error", "resolution"),
    instruments.ArmInstrument: _each(NOT_NEGATIVE, "maximum_permissible_error"),
    instruments.Support: _each(NOT_NEGATIVE, "readings", "tare"),
    events.Correction: _each(NOT_NEGATIVE, "mass"),
    events.PackFitted: {
        "mass": POSITIVE,
        "measured_capacity": POSITIVE,
        "health": HEALTH,
        "resistance_growth": GROWTH,
    },
    events.CapacityTest: {"capacity": POSITIVE, "resistance_growth": GROWTH},
    events.TestResult: _each(POSITIVE, "at_mass"),
    glides.MeasuredGlide: _each(POSITIVE, "speed", "sink", "at_mass"),
    glides.SharedErrors: _each(NOT_NEGATIVE, "air_motion", "airspeed_scale", "mass", "density"),
    aerodynamics.Coefficient: _each(POSITIVE, "value"),
}
"""What the formulas need, so that a wrong sign is told at its line and not by a formula."""

FILLED: Mapping[type[Part], tuple[str, ...]] = {
    aircraft.Aircraft: ("items",),
    battery.Battery: ("options",),
    wiring.Wiring: ("conductors",),
    events.Weighing: ("supports",),
    instruments.Support: ("readings",),
}
"""Lists and mappings that need an entry."""


def check(project: Project) -> Iterator[Finding]:
    """Check every value of the type, the battery and the serials."""
    for root in (project.aircraft, project.battery, *project.serials.values()):
        for part in _parts(root):
            yield from _part(part)
    limit = project.aircraft.limits.get(project.aircraft.loading.maximum_take_off_mass)
    if limit and limit.value.kind == "mass":
        yield from _value(limit.value, "the limit of take-off mass", POSITIVE, None)


def _parts(value: Any) -> Iterator[Part]:
    if isinstance(value, Part):
        yield value
        for name in type(value).model_fields:
            yield from _parts(getattr(value, name))
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from _parts(item)
    elif isinstance(value, list):
        for item in value:
            yield from _parts(item)


def _part(part: Part) -> Iterator[Finding]:
    for name, bound in BOUNDS.get(type(part), {}).items():
        for value in _listed(getattr(part, name)):
            yield from _value(value, name, bound, part.place_of_key(name))
    for name in FILLED.get(type(part), ()):
        if not getattr(part, name):
            yield Finding("P018", f"{name} holds no entry", "add at least one", part.place_of_key(name))
    if isinstance(part, aerodynamics.Aerodynamics):
        yield from _value(part.oswald_factor.value, "oswald_factor", SHARE, None)
    if isinstance(part, glides.MeasuredGlide) and (part.pressure_altitude is None) != (
        part.temperature is None
    ):
        yield Finding(
            "P022",
            "pressure_altitude and temperature of a glide belong together",
            "give both, or leave both out where the sink was reduced to sea level already",
            part.place,
        )
    if isinstance(part, loading.Station) and part.minimum.value > part.maximum.value:
        yield Finding(
            "P017",
            f"the minimum {part.minimum.text} is above the maximum {part.maximum.text}",
            "swap or correct them",
            part.minimum.place,
        )


def _listed(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [] if value is None else [value]


def _value(value: Quantity | int, name: str, bound: Bound, place: Place | None) -> Iterator[Finding]:
    number, text = (value.value, value.text) if isinstance(value, Quantity) else (float(value), str(value))
    if not bound.holds(number):
        where = value.place if isinstance(value, Quantity) else place
        yield Finding("P017", f"{name} cannot be {text!r}", f"write a value {bound.words}", where)
