"""Where the energy goes: phases of flight, endurance, with every battery and three pilots."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.contributors import mostly_from, taken_as_exact
from dossier.compose.energy_plots import endurance_plot, flight_names, phase_plot
from dossier.compose.environment import render
from dossier.compose.flight_comparison import sink_words
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.notices import notices
from dossier.compose.outlook import MODEL_NOTE, modelled_cell, outlooks
from dossier.compose.packet import Page
from dossier.compose.part_filled import part_filled
from dossier.compose.phases_flown import assumptions, flown_table, heat_parts
from dossier.compose.plots import Plot
from dossier.compose.printer import Printed, Printer
from dossier.display import with_doubt
from dossier.dossier import Dossier
from dossier.results.profile import Flight


@dataclass(frozen=True)
class FlightPart:
    """One flight. All ready strings."""

    name: str
    phases: Grid
    flown: Grid | None
    """By the discharge model."""
    why: str
    """Why that is missing, or ends early."""
    figures: tuple[Printed, ...]


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page; without a weighing there are no flights on it."""
    at = Printer(dossier, links.ENERGY)
    flights = dossier.energy.flights if dossier.energy else ()
    glide, chain = dossier.project.aircraft.glide, dossier.project.aircraft.propulsion.efficiency
    text = render(
        "energy.md.jinja",
        top=notices(at),
        endurance=_endurance(at, flights) if flights else None,
        origins=tuple(_origins(flights)),
        plots=tuple(_plots(at)),
        filling=part_filled(at),
        outlooks=outlooks(at),
        heats=heat_parts(at),
        assumptions=assumptions(),
        model_note=MODEL_NOTE if dossier.modelled.models else "",
        gauge=at.to(links.GAUGE) if dossier.modelled.gauges else "",
        grounds=(glide.reason, chain.reason),
        sinks=tuple(sink_words(at)),
        performance=at.to(links.PERFORMANCE) if dossier.performance else "",
        flights=[_flight(at, name, flight) for name, flight in zip(flight_names(at), flights, strict=True)],
    )
    return (Page(links.ENERGY, "Energy and endurance", "Weight and energy", text),)


def _plots(at: Printer) -> Iterator[Plot]:
    if at.dossier.energy and at.dossier.energy.flights:
        yield endurance_plot(at)
        yield phase_plot(at)


def _origins(flights: Sequence[Flight]) -> Iterator[str]:
    """Say of the heaviest pilot with each battery what makes most of the ±, and what is taken as exact."""
    for flight in {one.option: one for one in flights}.values():
        lines = (mostly_from(flight.endurance), taken_as_exact(flight.endurance))
        yield f"{flight.endurance.label}: {'. '.join(line for line in lines if line)}."


def _endurance(at: Printer, flights: tuple[Flight, ...]) -> Grid:
    modelled = {one.flight.endurance.name: one for one in at.dossier.modelled.flights}
    rows = []
    for name, flight in zip(flight_names(at), flights, strict=True):
        kept, used = at.figure(flight.endurance), at.figure(flight.without_reserve)
        rows.append(
            row(
                name,
                at.value(flight.mass, "mass"),
                Cell(with_doubt(kept.first, kept.uncertainty), kept.sheet),
                Cell(with_doubt(used.first, used.uncertainty), used.sheet),
                modelled_cell(at, modelled.get(flight.endurance.name)),
            )
        )
    return grid(
        "Endurance in level flight",
        "Battery and pilot | # Mass in flight | # By energy, reserve kept | # By energy, reserve used up "
        "| # By the discharge model, reserve kept",
        rows,
    )


def _flight(at: Printer, name: str, flight: Flight) -> FlightPart:
    rows = [
        row(
            phase.name,
            f"{phase.kind}, kept back" if phase.kept else phase.kind,
            at.value(phase.power, "power"),
            at.value(phase.duration, "time")
            if phase.duration >= 600
            else at.value(phase.duration, "seconds"),
            at.value(phase.energy, "energy"),
        )
        for phase in flight.rows
    ]
    shown = [
        at.figure(figure, figure.label.partition(",")[0])
        for figure in flight.figures
        if not figure.name.startswith("energy_")
    ]
    return FlightPart(
        name,
        grid("Phases, by the energy", "Phase | Kind | # Power | # Duration | # Energy", rows),
        *flown_table(at, flight),
        tuple(shown),
    )
