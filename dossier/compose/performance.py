"""What the aircraft does in the air: glide, climb, level flight and reach, computed from its drag polar."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.flight_comparison import measured_table, power_table
from dossier.compose.flight_runs import run_tables
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.performance_conditions import (
    air_grid,
    climb_by_pilot,
    glide_by_pilot,
    power_by_speed,
    run_table,
)
from dossier.compose.performance_pilots import reach_by_pilot
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
        compared=measured_table(at, made),
        powers=power_table(at, made),
        energy=at.to(links.ENERGY),
        conformity=at.to(links.CONFORMITY),
        plot=polar_plot(at, made),
        glides=glide_table(at, made),
        climbs=climb_table(at, made),
        heights=height_table(at, made),
        winds=wind_table(at, made),
        powers_by_speed=power_by_speed(at, made),
        reaches=reach_by_pilot(at, made),
        pilots=(climb_by_pilot(at, made), glide_by_pilot(at, made)),
        air=air_grid(at, made),
        flown=run_tables(at),
        runs=run_table(at, made),
        run_figures=tuple(at.figure(figure) for figure in made.take_off.figures) if made.take_off else (),
        ran_on=tuple(_ran_on(dossier)),
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
        option.climb_gradient,
        option.level_power,
        option.endurance_speed,
        option.range_speed,
    )
    return tuple(at.card(figure, figure.label.removesuffix(_who(option))) for figure in figures if figure)


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


def _ran_on(dossier: Dossier) -> Iterator[str]:
    """Say where the numbers of the take-off run come from."""
    aerodynamics = dossier.project.aircraft.aerodynamics
    part = aerodynamics.take_off if aerodynamics else None
    if part is None:
        return
    yield f"lift-off factor {part.lift_off_factor.value.text}: {part.lift_off_factor.reason}"
    yield f"rolling friction {part.rolling_friction.value.text}: {part.rolling_friction.reason}"
    yield (
        f"lift coefficient while it rolls {part.rolling_lift_coefficient.value.text}: "
        f"{part.rolling_lift_coefficient.reason}"
    )
    yield f"figure of merit of the propeller {part.propeller_merit.value.text}: {part.propeller_merit.reason}"


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
