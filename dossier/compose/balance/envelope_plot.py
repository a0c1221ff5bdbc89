"""The envelope of the centre of gravity with every loading in it."""

from __future__ import annotations

from matplotlib.axes import Axes

from dossier.compose.grid import Grid, grid, row
from dossier.compose.plots import BAD, DASHES, GOOD, LINES, MARKS, Plot, as_svg, axes, label
from dossier.compose.printer import Printer
from dossier.compute.envelope import Envelope
from dossier.results.loading import Loadings, LoadRow

NAME = "envelope"


def envelope_plot(at: Printer) -> Plot | None:
    """Draw it, if limits of the centre of gravity are laid down and the aircraft was weighed."""
    loads = at.dossier.loadings
    if loads is None or loads.envelope is None:
        return None
    title = "Loaded centre of gravity inside its limits"
    with axes(NAME, 5.4) as (drawing, plane):
        _limits(
            at,
            plane,
            loads.envelope,
            min((line.mass for line in loads.rows), default=loads.envelope.max_mass),
        )
        for number, option in enumerate(at.dossier.project.battery.options):
            _option(at, plane, number, [line for line in loads.rows if line.option == option])
        plane.set_xlabel(f"Centre of gravity, {at.unit('arm')[0]} behind the datum")
        plane.set_ylabel(f"Loaded mass, {at.unit('mass')[0]}")
        plane.grid(True)
        plane.margins(0.08)
        drawing.legend(loc="outside upper left", ncols=2)
        svg = as_svg(drawing, NAME, title, _words(at, loads))
    caption = (
        "The shaded area is inside the limits. Each line runs from the lightest to the heaviest pilot with "
        "one battery, each mark is one loading of the table."
    )
    return Plot(title, f"{caption} {_words(at, loads)}", svg, _values(at, loads.envelope))


def _limits(at: Printer, plane: Axes, envelope: Envelope, lightest: float) -> None:
    bottom = min(*envelope.masses, lightest)  # below the lowest corner the limits stay as they are
    masses = [at.in_unit(mass, "mass") for mass in (bottom, *envelope.masses)]
    forward = [at.in_unit(arm, "arm") for arm in (envelope.forward[0], *envelope.forward)]
    aft = [at.in_unit(arm, "arm") for arm in (envelope.aft[0], *envelope.aft)]
    plane.fill_betweenx(masses, forward, aft, color=GOOD, alpha=0.13, linewidth=0)
    plane.plot(
        [*forward, *reversed(aft)], [*masses, *reversed(masses)], color=BAD, linewidth=2.2, label="Limits"
    )


def _option(at: Printer, plane: Axes, number: int, rows: list[LoadRow]) -> None:
    """One line for each amount of ballast and baggage; only the first is named, the others are thinner."""
    name = str(at.dossier.project.battery.options[rows[0].option].name) if rows else ""
    for nth, aboard in enumerate(sorted({(line.ballast, line.baggage) for line in rows})):
        line = [one for one in rows if (one.ballast, one.baggage) == aboard]
        plane.plot(
            [at.in_unit(one.cg, "arm") for one in line],
            [at.in_unit(one.mass, "mass") for one in line],
            color=LINES[number % len(LINES)],
            linestyle=DASHES[number % len(DASHES)],
            marker=MARKS[number % len(MARKS)],
            markersize=7,
            linewidth=1.0 if nth else 2.0,
            label="_" if nth else label(name),
        )


def _words(at: Printer, loads: Loadings) -> str:
    """Tell the result, for those who do not see the drawing."""
    parts = []
    for option, design in at.dossier.project.battery.options.items():
        rows = [line for line in loads.rows if line.option == option]
        inside = sum(line.inside for line in rows)
        parts.append(f"with the {design.name} {inside} of {len(rows)} loadings are inside")
    text = "; ".join(parts)
    return f"{text[:1].upper()}{text[1:]}."


def _values(at: Printer, envelope: Envelope) -> Grid:
    rows = [
        row(at.value(mass, "mass"), at.value(forward, "arm"), at.value(aft, "arm"))
        for mass, forward, aft in zip(envelope.masses, envelope.forward, envelope.aft, strict=True)
    ]
    return grid("Limits of the centre of gravity", "# Loaded mass | # Forward limit | # Aft limit", rows)
