"""Wiring and fuses: what the circuit must carry, what it is made of, and how both stand to each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.compose.words import listed
from dossier.dossier import Dossier
from dossier.figures import Figure
from dossier.quantities import Quantity
from dossier.results.conductors import ConductorResult
from dossier.results.traction_currents import OptionCurrents
from dossier.results.wiring import SOURCES
from dossier.results.wiring_checks import Check, Standing, Valued

MARKS = {
    Standing.WITHIN: Mark("Within", "conforms"),
    Standing.OVER: Mark("Over", "fails"),
    Standing.CLOSE: Mark("Too close to tell", "inconclusive"),
    Standing.NOT_COVERED: Mark("Not covered", "not-shown"),
    Standing.NOT_STATED: Mark("Not stated", "not-shown"),
}
BELOW = Mark("Too low", "fails")
"""For what must be at least a bound."""
LAID = {"bundle": "in a bundle or sleeve", "free-air": "alone in free air"}


@dataclass(frozen=True)
class BatteryPart:
    """What one battery asks of the circuit."""

    anchor: str
    title: str
    phases: Grid
    facts: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page, if the record states the wiring."""
    wiring, made = dossier.project.battery.wiring, dossier.wiring
    if wiring is None:
        return ()
    at = Printer(dossier, links.WIRING)
    text = render(
        "wiring.md.jinja",
        top=notices(at),
        summary=_summary(made.checks),
        unknown=tuple(made.unknown.values()),
        coldest=_coldest(at),
        batteries=[_battery(at, one) for one in made.currents],
        conductors=_conductors(at, made.conductors),
        parts_table=_parts(at),
        checks=[_checks(at, what, checks) for what, checks in made.groups if checks],
        sources=tuple(map(str, SOURCES)),
    )
    return (Page(links.WIRING, "Wiring and fuses", "Weight and energy", text),)


def _summary(checks: Sequence[Check]) -> str:
    counts = Counter(check.standing for check in checks)
    parts = [f"{counts[one]} {one.value}" for one in Standing if counts[one]]
    return f"{len(checks)} comparisons: {listed(parts)}"


def _coldest(at: Printer) -> str:
    wiring = at.dossier.project.battery.wiring
    assert wiring
    limit = wiring.coldest_battery_limit
    coldest = at.dossier.project.aircraft.limits[limit].value if limit else wiring.coldest_battery
    return at.quantity(coldest) if coldest else ""


def _battery(at: Printer, one: OptionCurrents) -> BatteryPart:
    rows = [
        row(
            f"{phase.name} *" if phase.why_most else phase.name,
            at.value(phase.duration, "time" if phase.duration >= 600 else "seconds"),
            _figure(at, phase.voltage),
            _figure(at, phase.current),
        )
        for phase in one.phases
    ]
    most = tuple(f"* {phase.name}: {phase.why_most}." for phase in one.phases if phase.why_most)
    name = str(at.dossier.project.battery.options[one.option].name)
    return BatteryPart(
        links.anchor(f"currents-{one.option}"),
        name,
        grid(one.words, "Phase | # Lasts | # Lowest voltage | # Largest current", rows),
        tuple(_facts(at, one)),
        most,
    )


def _facts(at: Printer, one: OptionCurrents) -> Iterator[tuple[str, str]]:
    yield "Lasts longer than two minutes", _plain(at, one.continuous)
    if one.burst:
        yield "For a short time", f"{_plain(at, one.burst)}, {one.burst_time:.0f} s without a break"
    yield "Lowest voltage under load", _plain(at, one.lowest_voltage)
    yield "Short circuit at the terminals, an estimate", _plain(at, one.short_circuit)


def _plain(at: Printer, figure: Figure) -> str:
    return str(at.figure(figure))


def _figure(at: Printer, figure: Figure) -> Cell:
    """Print a figure to the habit of the trade; its uncertainty stands on its sheet."""
    return Cell(at.first(figure.value, figure.kind), at.sheet(figure.name))


def _conductors(at: Printer, conductors: Sequence[ConductorResult]) -> Grid:
    heads = (
        "Conductor | Wire | # One way | # Lasting current | # Table allows | # Drop, both ways "
        "| # Of the voltage"
    )
    return grid("Conductors", heads, [_conductor(at, one) for one in conductors])


def _conductor(at: Printer, one: ConductorResult) -> Row:
    wire, carried = one.conductor, one.carried
    gauge = f"gauge {one.wire.gauge}" if one.wire else "not in the table"
    size = f"{wire.area.text}, as {gauge}" if wire.area else f"gauge {wire.gauge}"
    times = f"{wire.parallel} × " if wire.parallel > 1 else ""
    insulation = f"{wire.insulation}, {wire.rated_temperature.text}, {LAID[wire.laid]}"
    return row(
        Cell(one.name, note=carried.words if carried else ""),
        Cell(f"{times}{size}", note=insulation),
        at.first(wire.one_way_length.value, "length"),
        at.first(carried.continuous.value, "current") if carried else "not known",
        *(
            _figure(at, one.figures[short]) if short in one.figures else "not known"
            for short in ("table_current", "voltage_drop", "drop_share")
        ),
    )


def _parts(at: Printer) -> Grid:
    wiring = at.dossier.project.battery.wiring
    assert wiring
    rows = [
        row(
            Cell(str(fuse.name), note=str(fuse.source)),
            "fuse",
            fuse.rated_current.text,
            fuse.rated_voltage.text if fuse.rated_voltage else "not stated",
            fuse.interrupt_rating.text if fuse.interrupt_rating else "not stated",
        )
        for fuse in wiring.fuses.values()
    ]
    rows += [
        row(
            Cell(str(one.name), note=str(one.source)),
            str(one.kind),
            one.rated_current.text,
            one.rated_voltage.text if one.rated_voltage else "not stated",
            "",
        )
        for one in wiring.connectors.values()
    ]
    heads = "Part | Kind | # Rated current | # Rated direct voltage | # Breaks"
    return grid("Fuses, plugs, contactors and switches", heads, rows)


def _checks(at: Printer, what: str, checks: Sequence[Check]) -> Grid:
    heads = "Part and question | State | # Value | # Bound | + By what"
    return grid(what, heads, [_check(at, one) for one in checks])


def _check(at: Printer, one: Check) -> Row:
    bound = "" if one.bound is None else _bound(at, one, one.bound)
    mark = BELOW if one.at_least and one.standing is Standing.OVER else MARKS[one.standing]
    what = Cell(one.subject, note=one.question)
    return row(what, mark, _value(at, one, one.value), bound, Cell(one.basis, note=one.words))


def _value(at: Printer, one: Check, value: Valued | None) -> Cell:
    if value is None:
        return Cell("not known" if one.standing is Standing.NOT_COVERED else "not stated")
    if isinstance(value, Quantity):
        return Cell(value.text)
    if one.bound is None:
        text = at.first(value.value, one.kind)
    else:
        text = at.beside(value.value, one.bound, one.kind)
    return Cell(text, at.sheet(value.name)) if isinstance(value, Figure) else Cell(text)


def _bound(at: Printer, one: Check, bound: float) -> str:
    return f"{'at least' if one.at_least else 'at most'} {at.first(bound, one.kind)}"
