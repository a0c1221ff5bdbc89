"""What the aircraft does in the air: glide, climb, level flight and reach, computed from its drag polar."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.performance_plot import polar_plot
from dossier.compose.performance_tables import climb_table, glide_table, height_table, wind_table
from dossier.compose.printer import Printed, Printer
from dossier.dossier import Dossier
from dossier.halton import COUNT
from dossier.results.flight import Performance
from dossier.results.flight_figures import OptionFlight


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page; none where the type states no aerodynamics or the aircraft was not weighed."""
    made = dossier.performance
    if made is None:
        return ()
    at = Printer(dossier, links.PERFORMANCE)
    text = render(
        "performance.md.jinja",
        top=notices(at),
        draws=COUNT,
        general=[at.figure(figure) for figure in made.polar.figures],
        options=[(option.name, _cards(at, option)) for option in made.options],
        measured=tuple(_measured(at)),
        plot=polar_plot(at, made),
        glides=glide_table(at, made),
        climbs=climb_table(at, made),
        heights=height_table(at, made),
        winds=wind_table(at, made),
        cap=_cap(at, made),
        grounds=tuple(_grounds(made, dossier)),
        shared=_shared(at, made),
    )
    return (Page(links.PERFORMANCE, "Flight performance", "Weight and energy", text),)


def _cards(at: Printer, option: OptionFlight) -> tuple[Printed, ...]:
    figures = (
        option.stall,
        option.minimum_sink_speed,
        option.least_sink,
        option.best_glide_speed,
        option.climb_rate,
        option.level_power,
    )
    return tuple(at.figure(figure, figure.label.removesuffix(_who(option))) for figure in figures if figure)


def _who(option: OptionFlight) -> str:
    return f", {option.name}, heaviest pilot ({option.pilots[-1]:.0f} kg)"


def _measured(at: Printer) -> Iterator[Printed]:
    """Print what a flight test of this serial measured: it goes before anything that is computed."""
    for name in sorted(at.dossier.state.measured):
        if name in at.dossier.figures:
            yield at.figure(at.dossier.figures[name])


def _cap(at: Printer, made: Performance) -> str:
    limit = made.fastest
    if limit is None:
        return ""
    basis = f", {limit.basis}" if limit.basis else ""
    return f"{limit.name}, {at.quantity(limit.quantity)}{basis}"


def _grounds(made: Performance, dossier: Dossier) -> Iterator[str]:
    aerodynamics, session = dossier.project.aircraft.aerodynamics, made.polar.session
    assert aerodynamics is not None
    if session:
        yield (
            f"drag from {len(session.points)} glides of {session.test.date}, reduced to the mass of the "
            "polar and to sea level in standard air"
        )
    else:
        yield f"zero-lift drag: {aerodynamics.zero_lift_drag_coefficient.reason}"
        yield f"Oswald factor: {aerodynamics.oswald_factor.reason}"
    yield f"maximum lift coefficient: {aerodynamics.maximum_lift_coefficient.reason}"
    yield f"efficiency of the drive: {dossier.project.aircraft.propulsion.efficiency.reason}"


def _shared(at: Printer, made: Performance) -> Grid | None:
    """Say what the fit took for granted about the session, and where from."""
    session = made.polar.session
    if session is None:
        return None
    rows = [
        row(
            error.words,
            f"± {at.first(error.expanded, 'vertical_speed' if error.kind == 'speed' else 'ratio')}",
            Cell("the record of the flight test")
            if error.stated
            else Cell(
                "usual value of this tool", note="Own judgement, for a calm morning and a weighed aircraft"
            ),
        )
        for error in session.errors
    ]
    fitted = session.fitted
    rows += [
        row(
            "Oswald factor that the fit gives",
            f"{fitted.oswald:.2f}",
            "above 1 the air moved, or the airspeed is wrong",
        ),
        row(
            "zero-lift drag, fitted and of the design",
            f"{fitted.zero_lift_drag:.4f} and {made.polar.design[0]:.4f}",
            "the type's file",
        ),
        row("Oswald factor of the design", f"{made.polar.design[1]:.2f}", "the type's file"),
    ]
    return grid("What the fit rests on; expanded uncertainties, k = 2", "What | # Value | + From", rows)
