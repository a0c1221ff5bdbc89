"""Endurance and energy by phase, as drawings."""

from __future__ import annotations

from matplotlib.axes import Axes

from dossier.compose.grid import Grid, columns, grid, numbers, row
from dossier.compose.plots import INK, LINES, MARKS, MUTED, PAPER, Plot, as_svg, axes, label
from dossier.compose.printer import Printer
from dossier.display import with_doubt
from dossier.results.profile import Flight

_HATCHES = ("", "//", "..", "xx", "--", "\\\\")
_BAR = 0.62


def flight_names(at: Printer) -> list[str]:
    """Name each flight by battery and pilot."""
    options = at.dossier.project.battery.options
    return [
        f"{options[flight.option].name}, pilot {at.first(flight.pilot, 'mass')}" for flight in _flights(at)
    ]


def _flights(at: Printer) -> tuple[Flight, ...]:
    return at.dossier.energy.flights if at.dossier.energy else ()


def _lines(at: Printer) -> list[str]:
    """The names, short enough to leave room for the bars."""
    return [label(name.replace(", pilot", ",")) for name in flight_names(at)]


def endurance_plot(at: Printer) -> Plot:
    """Draw how long each flight lasts in level flight, with its uncertainty."""
    name, flights = "endurance", _flights(at)
    title = "Endurance in level flight"
    with axes(name, 1.3 + 0.62 * len(flights)) as (drawing, plane):
        for offset, mark, colour, words, pick in (
            (-0.14, MARKS[0], LINES[0], "Reserve kept", "endurance"),
            (0.14, MARKS[1], LINES[1], "Reserve used up", "without_reserve"),
        ):
            figures = [getattr(flight, pick) for flight in flights]
            plane.errorbar(
                [at.in_unit(figure.value, "time") for figure in figures],
                [number + offset for number in range(len(flights))],
                xerr=[[at.in_unit(at.reach(figure)[side], "time") for figure in figures] for side in (0, 1)],
                fmt=mark,
                color=colour,
                ecolor=colour,
                capsize=5,
                markersize=8,
                linewidth=2,
                label=words,
                markerfacecolor=PAPER if pick == "without_reserve" else colour,
                markeredgewidth=2,
            )
        _named(at, plane)
        plane.set_xlim(left=0)
        plane.set_xlabel("Minutes; bars show the uncertainty")
        drawing.legend(loc="outside upper left", ncols=2)
        svg = as_svg(drawing, name, title, _endurance_words(at))
    return Plot(title, _endurance_words(at), svg, _endurance_values(at))


def _named(at: Printer, plane: Axes) -> None:
    plane.set_yticks(range(len(_flights(at))), _lines(at))
    plane.invert_yaxis()
    plane.grid(True, axis="x")


def _endurance_words(at: Printer) -> str:
    flights = _flights(at)
    shortest = min(range(len(flights)), key=lambda number: flights[number].endurance.value)
    longest = max(range(len(flights)), key=lambda number: flights[number].endurance.value)
    ends = [
        f"{at.first(flights[number].endurance.value, 'time')} ({flight_names(at)[number]})"
        for number in (shortest, longest)
    ]
    return f"Reserve kept, the endurance runs from {ends[0]} to {ends[1]}."


def _endurance_values(at: Printer) -> Grid:
    rows = [
        row(
            name,
            *(
                with_doubt(shown.first, shown.uncertainty)
                for shown in (at.figure(flight.endurance), at.figure(flight.without_reserve))
            ),
        )
        for name, flight in zip(flight_names(at), _flights(at), strict=True)
    ]
    return grid("Endurance", "Battery and pilot | # Reserve kept | # Reserve used up", rows)


def phase_plot(at: Printer) -> Plot:
    """Draw how the usable energy is shared out among the phases, stacked for each flight."""
    name, flights = "phases", _flights(at)
    title = "Energy by phase of flight"
    phases = [phase.name for phase in flights[0].rows]
    with axes(name, 1.7 + 0.6 * len(flights)) as (drawing, plane):
        start = [0.0] * len(flights)
        for number, phase in enumerate(phases):
            widths = [at.in_unit(flight.rows[number].energy, "energy") for flight in flights]
            plane.barh(
                range(len(flights)),
                widths,
                _BAR,
                left=start,
                label=label(phase),
                color=MUTED if flights[0].rows[number].kept else LINES[number % len(LINES)],
                hatch=_HATCHES[number % len(_HATCHES)],
                edgecolor=PAPER,
                linewidth=1,
            )
            start = [left + width for left, width in zip(start, widths, strict=True)]
        _named(at, plane)
        plane.set_xlabel(f"Energy from the battery, {at.unit('energy')[0]}", color=INK)
        drawing.legend(loc="outside upper left", ncols=2)
        svg = as_svg(drawing, name, title, _phase_words(at))
    return Plot(title, _phase_words(at), svg, _phase_values(at))


def _phase_words(at: Printer) -> str:
    largest = max(_flights(at)[-1].rows, key=lambda phase: phase.energy)
    return (
        "Each bar is the usable energy of one flight, shared out among its phases in their order. The "
        f"largest part is {largest.name}: {at.first(largest.energy, 'energy')} in the last flight. What is "
        "kept as the reserve of the battery is not in the bars."
    )


def _phase_values(at: Printer) -> Grid:
    flights = _flights(at)
    heads = (*columns("Phase"), *numbers(flight_names(at)))
    rows = [
        row(phase.name, *(at.first(flight.rows[number].energy, "energy") for flight in flights))
        for number, phase in enumerate(flights[0].rows)
    ]
    return grid("Energy by phase", heads, rows)
