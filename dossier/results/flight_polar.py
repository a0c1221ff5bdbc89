"""The drag polar that is used for one aircraft: fitted to its glides, or else that of the design."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dossier.compute import performance, polar
from dossier.compute.glide import Polar
from dossier.compute.polar_fit import GlidePoint, PolarFit, Reference, fit
from dossier.compute.polar_fit_doubts import WORDS, Doubt, doubts
from dossier.figures import Figure, Input, OutsideRange, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aerodynamics import Aerodynamics
from dossier.model.aircraft import Aircraft
from dossier.model.events import FlightTest
from dossier.results.airspeed import Flights
from dossier.results.flight_glides import (
    SharedError,
    common_errors,
    glide_points,
    glides_place,
    latest_glides,
    shared_errors,
)

CODES = {
    Doubt.OSWALD_ABOVE_ONE: "F002",
    Doubt.BEST_GLIDE_OUTSIDE: "F003",
    Doubt.LEAST_SINK_OUTSIDE: "F004",
    Doubt.FEW_POINTS: "F005",
    Doubt.ROUNDED: "F006",
    Doubt.SCATTER: "F007",
}
"""Doubt of a fit -> code of its finding."""
REMEDIES = {
    Doubt.OSWALD_ABOVE_ONE: "fly again in calm air, and check the calibration of the airspeed",
    Doubt.BEST_GLIDE_OUTSIDE: "fly slower and faster, so that both speeds lie inside",
    Doubt.LEAST_SINK_OUTSIDE: "fly slower and faster, so that both speeds lie inside",
    Doubt.FEW_POINTS: "fly four speeds at the least",
    Doubt.ROUNDED: "write the sinks as they were read, with one more digit",
    Doubt.SCATTER: "look for air motion, or state the uncertainty of each glide as it was",
}


@dataclass(frozen=True)
class Session:
    """The glides that a polar was fitted to."""

    test: FlightTest
    fitted: PolarFit
    errors: tuple[SharedError, ...]

    @property
    def points(self) -> tuple[GlidePoint, ...]:
        """Reduced to the mass of the reference and to sea level."""
        return self.fitted.points


@dataclass(frozen=True)
class PolarInUse:
    """Two numbers, their uncertainty, and where they come from."""

    zero_lift: Figure
    induced: Figure
    lift_maximum: Input
    area: Input
    ratio: Figure
    """Best glide ratio."""
    aspect: Figure
    session: Session | None
    """None: the coefficients are those of the design."""
    design: tuple[float, float]
    """Zero-lift drag coefficient and Oswald factor that the type states."""
    oswald: float
    """Of the polar in use."""
    findings: tuple[Finding, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """In the order of their making."""
        return (self.aspect, self.zero_lift, self.induced, self.ratio)

    @property
    def polar(self) -> Polar:
        """The numbers alone."""
        return Polar(self.zero_lift.value, self.induced.value, self.area.value, self.lift_maximum.value)


def polar_in_use(aerodynamics: Aerodynamics, aircraft: Aircraft, flights: Flights) -> PolarInUse:
    """Fit the latest glides, or take the coefficients of the type; a fit that fails is told.

    Raises:
        OutsideRange: the coefficients make no polar.
    """
    area = given(aircraft.geometry.wing_area, "wing area")
    aspect = evaluate(
        polar.aspect_ratio,
        "aspect_ratio.wing",
        "Aspect ratio of the wing",
        "number",
        {"b_w": given(aircraft.geometry.wing_span, "span"), "S": area},
    )
    session, findings = _session(aircraft, flights, aspect.value)
    zero_lift, induced = _fitted(session) if session else _designed(aerodynamics, aspect)
    ratio = evaluate(
        polar.best_glide_ratio,
        "best_glide_ratio.polar",
        "Best glide ratio in still air, computed",
        "number",
        {"C_D0": taken(zero_lift), "K": taken(induced)},
        style="glide_ratio",
    )
    stated = (aerodynamics.zero_lift_drag_coefficient.value.value, aerodynamics.oswald_factor.value.value)
    lift = given(aerodynamics.maximum_lift_coefficient.value, "maximum lift coefficient")
    oswald = session.fitted.oswald if session else stated[1]
    return PolarInUse(zero_lift, induced, lift, area, ratio, aspect, session, stated, oswald, findings)


def _session(
    aircraft: Aircraft, flights: Flights, aspect: float
) -> tuple[Session | None, tuple[Finding, ...]]:
    found = latest_glides(flights)
    if found is None:
        return None, ()
    number, test = found
    errors = shared_errors(test.shared_errors)
    mass = aircraft.glide.at_mass
    place = glides_place(test)
    try:
        points = glide_points(flights, number, test, mass)
        fitted = fit(
            points, Reference(mass.value, aircraft.geometry.wing_area.value, aspect), common_errors(errors)
        )
    except OutsideRange as error:
        message = (
            f"the glides of {test.date} give no drag polar, and the coefficients of the type stand: {error}"
        )
        return None, (
            Finding("F001", message, "correct the glides, or fly them again", place, Severity.WARNING),
        )
    told = tuple(
        Finding(
            CODES[doubt],
            f"the polar fitted to the glides of {test.date} is doubtful: {WORDS[doubt]}",
            REMEDIES[doubt],
            place,
            Severity.WARNING,
        )
        for doubt in doubts(fitted)
    )
    return Session(test, fitted, errors), told


def _fitted(session: Session) -> tuple[Figure, Figure]:
    """Both come from one fit: whatever is made of both carries their correlation."""
    origin = glides_place(session.test) or "not in a file"
    text = f"{len(session.points)} glides of {session.test.date}"
    zero_lift, induced = (
        replace(one, origin=origin, label=f"{one.label}, fit to {text}") for one in session.fitted.estimates()
    )
    note = (
        f"Weighted least squares over {text}, reduced to one mass and to sea level. The uncertainty "
        "holds the scatter of the glides and what all of them share."
    )
    return (
        evaluate(
            performance.as_stated,
            "zero_lift_drag.polar",
            "Zero-lift drag coefficient, fitted to glides",
            "number",
            {"y": zero_lift},
            style="coefficient",
            note=note,
        ),
        evaluate(
            performance.as_stated,
            "induced_drag.polar",
            "Induced drag factor, fitted to glides",
            "number",
            {"y": induced},
            style="coefficient",
            note=note,
        ),
    )


def _designed(aerodynamics: Aerodynamics, aspect: Figure) -> tuple[Figure, Figure]:
    zero_lift = given(aerodynamics.zero_lift_drag_coefficient.value, "zero-lift drag coefficient")
    oswald = given(aerodynamics.oswald_factor.value, "Oswald factor")
    return (
        evaluate(
            performance.as_stated,
            "zero_lift_drag.polar",
            "Zero-lift drag coefficient, as the type states it",
            "number",
            {"y": zero_lift},
            style="coefficient",
        ),
        evaluate(
            polar.induced_drag_factor,
            "induced_drag.polar",
            "Induced drag factor",
            "number",
            {"e": oswald, "A_R": taken(aspect)},
            style="coefficient",
        ),
    )
