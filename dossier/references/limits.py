"""References inside the type file: limits, marks, placards, envelope, profile."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import inf

from dossier.findings import Finding
from dossier.model.aircraft import Aircraft, Mark, Phase, Use
from dossier.project import Project
from dossier.references.names import placeholders, unknown

LIMITS = "limits in aircraft.yaml"


def check(project: Project) -> Iterator[Finding]:
    """Check the type file against itself."""
    aircraft = project.aircraft
    yield from _mass_limit(aircraft)
    for instrument in aircraft.instruments:
        for mark in instrument.marks:
            yield from _mark(mark, aircraft)
    for placard in aircraft.placards:
        yield from placeholders(placard.text, project)
    for system in aircraft.systems:
        yield from placeholders(system.description, project)
        for hazard in system.cautions:
            yield from unknown(hazard, project.hazards.hazards, "hazard", "hazards.yaml")
    yield from _use(aircraft)
    yield from _geometry(aircraft)
    yield from _envelope(aircraft)
    yield from _profile(aircraft)


def _mass_limit(aircraft: Aircraft) -> Iterator[Finding]:
    name = aircraft.loading.maximum_take_off_mass
    yield from unknown(name, aircraft.limits, "limit", LIMITS)
    limit = aircraft.limits.get(name)
    if limit and limit.value.kind != "mass":
        yield Finding(
            "P011",
            f"the limit {str(name)!r} is no mass",
            'give it a mass, such as "230 kg"',
            limit.place_of_key("value"),
        )


def _use(aircraft: Aircraft) -> Iterator[Finding]:
    use = aircraft.use
    if use is None:
        return
    for name, kind, right in (
        (
            use.retirement_limit,
            "ratio",
            "a part of the capacity from 70 to 99 %, where models of ageing speak",
        ),
        (use.coldest_take_off_limit, "temperature", 'a temperature, such as "10 °C"'),
        (use.hottest_battery_limit, "temperature", 'a temperature, such as "60 °C"'),
    ):
        if name is None:
            continue
        yield from unknown(name, aircraft.limits, "limit", LIMITS)
        limit = aircraft.limits.get(name)
        if limit and (limit.value.kind != kind or (kind == "ratio" and not 0.7 <= limit.value.value < 1)):
            place = limit.place_of_key("value")
            yield Finding("P011", f"the limit {str(name)!r} is {limit.value.text}", f"give {right}", place)
    yield from _landing(use, aircraft)


def _landing(use: Use, aircraft: Aircraft) -> Iterator[Finding]:
    for name, kind, right in (
        (use.landing_charge_limit, "ratio", 'a part of the full charge, such as "30 %"'),
        (use.landing_voltage_limit, "voltage", 'a voltage of the whole battery, such as "48 V"'),
    ):
        if name is None:
            continue
        yield from unknown(name, aircraft.limits, "limit", LIMITS)
        limit = aircraft.limits.get(name)
        if limit and (
            limit.value.kind != kind or not 0 < limit.value.value < (1 if kind == "ratio" else inf)
        ):
            place = limit.place_of_key("value")
            yield Finding("P011", f"the limit {str(name)!r} is {limit.value.text}", f"give {right}", place)


def _mark(mark: Mark, aircraft: Aircraft) -> Iterator[Finding]:
    for name in (mark.at, mark.start, mark.end):
        if name is not None:
            yield from unknown(name, aircraft.limits, "limit", LIMITS)
    if (mark.at is None) == (mark.start is None or mark.end is None):
        yield Finding(
            "P012",
            "a mark stands at one limit, or from one limit to another",
            "write either  at: ...  or  start: ...  and  end: ...",
            mark.place,
        )


def _geometry(aircraft: Aircraft) -> Iterator[Finding]:
    geometry = aircraft.geometry
    if (geometry.mean_aerodynamic_chord is None) != (geometry.leading_edge_of_chord is None):
        yield Finding(
            "P013",
            "mean_aerodynamic_chord and leading_edge_of_chord belong together",
            "write both, or neither",
            geometry.place,
        )


def _envelope(aircraft: Aircraft) -> Iterator[Finding]:
    points = aircraft.loading.envelope
    for before, after in pairwise(points):
        if after.mass.value <= before.mass.value:
            yield Finding(
                "P014",
                f"the envelope's mass {after.mass.text} does not follow {before.mass.text}",
                "put the points in the order of rising mass",
                after.place_of_key("mass"),
            )
    for point in points:
        if point.forward.value >= point.aft.value:
            yield Finding(
                "P014",
                f"the forward limit {point.forward.text} is not ahead of the aft limit {point.aft.text}",
                "arms grow towards the tail",
                point.place_of_key("forward"),
            )
    limit = aircraft.limits.get(aircraft.loading.maximum_take_off_mass)
    if points and limit and limit.value.kind == "mass" and limit.value.value > points[-1].mass.value:
        yield Finding(
            "P014",
            f"the envelope ends at {points[-1].mass.text}, below the take-off mass of {limit.value.text}",
            "add a point at the take-off mass",
            points[-1].place,
        )


def _profile(aircraft: Aircraft) -> Iterator[Finding]:
    open_phases = [phase for phase in aircraft.profile if phase.kind == "cruise" and phase.duration is None]
    if len(open_phases) != 1:
        yield Finding(
            "P015",
            f"{len(open_phases)} cruises have no duration, and just one must use up the battery",
            "leave out the duration of one phase of kind cruise",
            aircraft.place_of_key("profile"),
        )
    for phase in aircraft.profile:
        yield from _phase(phase)


def _phase(phase: Phase) -> Iterator[Finding]:
    if phase.duration is not None and phase.duration.kind != "time":
        yield Finding(
            "P016",
            f"{phase.duration.text!r} is no duration",
            'write for example "30 s" or "5 min"',
            phase.duration.place,
        )
    if phase.duration is None and phase.height is None and phase.kind != "cruise":
        yield Finding(
            "P016",
            f"the phase {str(phase.name)!r} has neither duration nor height",
            "write how long it lasts, or which height it gains",
            phase.place,
        )
    if phase.duration is not None and phase.height is not None:
        yield Finding(
            "P016",
            f"the phase {str(phase.name)!r} has a duration and a height",
            "keep one: the other follows from the rate of climb",
            phase.place,
        )
