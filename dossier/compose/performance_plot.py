"""The drag polar as a drawing: sink against speed with its band, and the measured glides if there are any."""

from __future__ import annotations

from matplotlib.axes import Axes

from dossier.compose.grid import Grid, grid, row
from dossier.compose.plots import ACCENT, BAD, INK, PAPER, Plot, as_svg, axes
from dossier.compose.printer import Printer
from dossier.quantities import COVERAGE_FACTOR
from dossier.results.flight import Performance
from dossier.results.flight_curve import CurvePoint

NAME = "polar"
EVERY = 4
"""Of the points of the curve, how many lie between two lines of the table."""


def polar_plot(at: Printer, made: Performance) -> Plot:
    """Draw it at the mass of ``glide`` in the type's file, sea level, standard air."""
    title = "Sink against speed, motor off"
    with axes(NAME, 5.2) as (drawing, plane):
        _curve(at, plane, made.curve)
        _two_masses(at, plane, made)
        _glides(at, plane, made)
        plane.invert_yaxis()
        plane.set_xlabel(f"Calibrated speed, {at.unit('speed')[0]}")
        plane.set_ylabel(f"Sink, {at.unit('vertical_speed')[0]}")
        plane.grid(True)
        drawing.legend(loc="outside upper left", ncols=2)
        svg = as_svg(drawing, NAME, title, _words(at, made))
    return Plot(title, _words(at, made), svg, _values(at, made))


def _curve(at: Printer, plane: Axes, points: tuple[CurvePoint, ...]) -> None:
    speeds = [at.in_unit(point.speed, "speed") for point in points]
    edges = [
        [
            at.in_unit(point.sink + sign * COVERAGE_FACTOR * point.standard_uncertainty, "vertical_speed")
            for point in points
        ]
        for sign in (-1, 1)
    ]
    plane.fill_between(
        speeds, edges[0], edges[1], color=ACCENT, alpha=0.18, linewidth=0, label="Expanded uncertainty, k = 2"
    )
    plane.plot(
        speeds,
        [at.in_unit(point.sink, "vertical_speed") for point in points],
        color=ACCENT,
        linewidth=2.2,
        label="Computed",
    )
    best = min(points, key=lambda point: point.sink / point.speed)
    plane.plot(
        [at.in_unit(best.speed, "speed")],
        [at.in_unit(best.sink, "vertical_speed")],
        "D",
        color=INK,
        markersize=8,
        label="Best glide",
    )


def _two_masses(at: Printer, plane: Axes, made: Performance) -> None:
    """Draw the lightest and the heaviest aircraft that is flown, as thin lines."""
    for one, dashes in zip(made.curves, ("--", ":"), strict=False):
        plane.plot(
            [at.in_unit(speed, "speed") for speed, _ in one.points],
            [at.in_unit(sink, "vertical_speed") for _, sink in one.points],
            dashes,
            color=INK,
            linewidth=1.4,
            label=f"Computed, {at.first(one.mass, 'mass')}",
        )


def _glides(at: Printer, plane: Axes, made: Performance) -> None:
    if made.polar.session is None:
        return
    points = made.polar.session.points
    plane.errorbar(
        [at.in_unit(point.speed, "speed") for point in points],
        [at.in_unit(point.sink, "vertical_speed") for point in points],
        xerr=[COVERAGE_FACTOR * at.in_unit(point.speed_uncertainty, "speed") for point in points],
        yerr=[COVERAGE_FACTOR * at.in_unit(point.sink_uncertainty, "vertical_speed") for point in points],
        fmt="o",
        color=BAD,
        ecolor=BAD,
        markerfacecolor=PAPER,
        markeredgewidth=2,
        markersize=7,
        capsize=3,
        label="Measured glides, reduced",
    )


def _words(at: Printer, made: Performance) -> str:
    mass = at.value(at.dossier.project.aircraft.glide.at_mass.value, "mass")
    best = min(made.curve, key=lambda point: point.sink / point.speed)
    least = min(made.curve, key=lambda point: point.sink)
    session = made.polar.session
    source = (
        f"fitted to {len(session.points)} measured glides of {session.test.date}"
        if session
        else "computed from the coefficients that the type states; no glides of this serial were measured"
    )
    shared = (
        " The bars of the glides hold what differs from one to the other, the band also what all share."
        if session
        else ""
    )
    return (
        f"At {mass}, sea level, standard air, {source}. The least sink on the curve is "
        f"{at.first(least.sink, 'vertical_speed')} at {at.first(least.speed, 'speed')}; the flattest "
        f"glide is near {at.first(best.speed, 'speed')}. The curve begins at 1.1 times the estimated "
        f"stalling speed: nearer to the stall the parabola does not hold.{shared}{_masses(at, made)}"
    )


def _masses(at: Printer, made: Performance) -> str:
    if not made.curves:
        return ""
    named = " and ".join(f"{at.first(one.mass, 'mass')} ({one.words})" for one in made.curves)
    return f" The thin lines are the same polar at {named}."


def _values(at: Printer, made: Performance) -> Grid:
    rows = [
        row(
            "curve",
            at.value(point.speed, "speed"),
            at.value(point.sink, "vertical_speed"),
            f"± {at.first(COVERAGE_FACTOR * point.standard_uncertainty, 'vertical_speed')}",
        )
        for point in made.curve[::EVERY]
    ]
    rows += [
        row(
            f"curve at {at.first(one.mass, 'mass')}",
            at.value(speed, "speed"),
            at.value(sink, "vertical_speed"),
            "not reckoned",
        )
        for one in made.curves
        for speed, sink in one.points[::EVERY]
    ]
    rows += [
        row(
            "measured glide",
            at.value(point.speed, "speed"),
            at.value(point.sink, "vertical_speed"),
            f"± {at.first(COVERAGE_FACTOR * point.sink_uncertainty, 'vertical_speed')}",
        )
        for point in (made.polar.session.points if made.polar.session else ())
    ]
    return grid("Sink against speed", "What | # Calibrated speed | # Sink | # Uncertainty, k = 2", rows)
