"""What may be on board: which pilots fit, the worst cases, and every loading with its margins."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose.balance.pilots import baggage_figures, pilots_with_baggage
from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.printer import Printed, Printer
from dossier.compose.verdict_words import yes_no
from dossier.compute.load_cases import Corner
from dossier.quantities import Quantity
from dossier.results.loading import Loadings, LoadRow, mass_limit

LIMITS = {"forward": "Forward limit", "aft": "Aft limit", "mass": "Take-off weight"}


@dataclass(frozen=True)
class LoadingTables:
    """All ready strings."""

    has_envelope: bool
    limits: tuple[tuple[str, str], ...]
    pilots: Grid | None
    """With any, no and the most baggage; none where there is no baggage station."""
    figures: tuple[Printed, ...]
    """What is not in another table."""
    ballast: tuple[str, ...]
    worst: Grid | None
    loadings: tuple[Grid, ...]


def loading_tables(at: Printer) -> LoadingTables | None:
    """Print the loadings, if the aircraft was weighed."""
    loads = at.dossier.loadings
    if loads is None:
        return None
    told = baggage_figures(at)
    rest = (figure for figure in loads.figures if "worst_" not in figure.name and figure.name not in told)
    return LoadingTables(
        loads.envelope is not None,
        tuple(_limits(at)),
        pilots_with_baggage(at),
        tuple(map(at.figure, rest)),
        tuple(_ballast(at, loads)),
        _worst(at, loads),
        tuple(_tables(at, loads)),
    )


def _limits(at: Printer) -> Iterator[tuple[str, str]]:
    loading, limits = at.dossier.project.aircraft.loading, at.dossier.project.aircraft.limits
    seat, baggage, ballast = loading.seat, loading.baggage, loading.ballast
    limit = limits[loading.maximum_take_off_mass]
    yield str(limit.name), at.quantity(limit.value)
    yield str(seat.name), f"{at.quantity(seat.minimum)} to {at.quantity(seat.maximum)}, {_arm(at, seat.arm)}"
    if baggage:
        yield str(baggage.name), f"up to {at.quantity(baggage.maximum)}, {_arm(at, baggage.arm)}"
    if ballast:
        yield (
            "Ballast",
            f"up to {ballast.pieces} pieces of {at.quantity(ballast.piece)}, {_arm(at, ballast.arm)}",
        )


def _arm(at: Printer, arm: Quantity) -> str:
    return f"arm {at.quantity(arm, 'arm')}"


def _ballast(at: Printer, loads: Loadings) -> Iterator[str]:
    pilot = at.value(at.dossier.project.aircraft.loading.seat.minimum.value, "mass")
    for option, pieces in loads.ballast_pieces.items():
        words = f"{at.dossier.project.battery.options[option].name}: "
        if pieces is None:
            yield f"{words}no ballast brings the lightest pilot, {pilot}, inside the limits."
        else:
            needs = f"{pieces} {'piece' if pieces == 1 else 'pieces'} of" if pieces else "no"
            yield f"{words}the lightest pilot, {pilot}, needs {needs} ballast."


def _worst(at: Printer, loads: Loadings) -> Grid | None:
    """The nearest to each limit, over all that may be on board, as figures with uncertainty."""
    rows = [line for corner in loads.worst for line in [_corner(at, corner)] if line]
    heads = "Limit | + On board | # Mass | # Centre of gravity | # Margin | State"
    return grid("Worst cases", heads, rows) if rows else None


def _corner(at: Printer, corner: Corner) -> Row | None:
    figures = at.dossier.figures
    names = [f"{short}.worst_{corner.limit}" for short in ("loaded_mass", "loaded_cg", "margin")]
    if not all(name in figures for name in names):
        return None
    margin = figures[names[2]]
    left = at.beside(margin.value, 0.0, margin.style or margin.kind, margin.standard_uncertainty)
    return row(
        LIMITS[corner.limit],
        _on_board(at, corner),
        *(_linked(at, name) for name in names[:2]),
        Cell(f"{left} {at.figure(margin).uncertainty}".rstrip(), at.sheet(margin.name)),
        yes_no(corner.margin >= 0, "Inside", "Outside"),
    )


def _on_board(at: Printer, corner: Corner) -> str:
    """Name what is on board, in the reader's units."""
    aircraft, pilot, ballast, baggage = corner.loads
    loading = at.dossier.project.aircraft.loading
    parts = [
        str(at.dossier.project.battery.options[aircraft.name].name),
        f"pilot {at.value(pilot.mass, 'mass')}",
    ]
    parts += [f"ballast {_aboard(at, ballast.mass)}"] if loading.ballast else []
    parts += [f"baggage {_aboard(at, baggage.mass)}"] if loading.baggage else []
    return ", ".join(parts)


def _aboard(at: Printer, mass: float) -> str:
    return at.value(mass, "mass") if mass else "none"


def _linked(at: Printer, name: str) -> Cell:
    printed = at.figure(at.dossier.figures[name])
    return Cell(printed.first, printed.sheet)


def _tables(at: Printer, loads: Loadings) -> Iterator[Grid]:
    extras = [name for name in ("ballast", "baggage") if any(getattr(line, name) for line in loads.rows)]
    heads = [
        "# Pilot",
        *(f"# {name.capitalize()}" for name in extras),
        "# Mass",
        "# Centre of gravity",
        "# Below the weight limit",
        *(["# Behind the forward limit", "# Ahead of the aft limit"] if loads.envelope else []),
        "State",
    ]
    for option, design in at.dossier.project.battery.options.items():
        rows = [
            _loading(at, line, extras, loads.envelope is not None)
            for line in loads.rows
            if line.option == option
        ]
        yield grid(f"Loadings with the {design.name}", " | ".join(heads), rows)


def _loading(at: Printer, line: LoadRow, extras: list[str], enveloped: bool) -> Row:
    total = at.beside(line.mass, mass_limit(at.dossier.project.aircraft), "mass")
    arms = [
        at.beside(margin, 0.0, "arm") if margin is not None else "over weight"
        for margin in (line.forward, line.aft)
    ]
    return row(
        at.value(line.pilot, "mass"),
        *(at.first(mass, "mass") if mass else "none" for mass in (getattr(line, name) for name in extras)),
        total,
        at.first(line.cg, "arm"),
        at.beside(line.below_limit, 0.0, "mass"),
        *(arms if enveloped else []),
        yes_no(line.inside, "Inside", "Outside"),
    )
