"""Which working sheet stands on which page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dossier.dossier import Dossier
from dossier.figures import Figure
from dossier.judge.verdict import Verdict


@dataclass(frozen=True)
class Topic:
    """One page of working sheets."""

    path: str
    title: str
    names: tuple[str, ...]
    """The figures on it, in the order of their making."""


LIVES = ("cycle_life_", "calendar_life_")
"""How the names of the figures of a battery's life begin."""


ROWS = {
    "pilots": ("rows-pilots", "Power and range of lighter pilots"),
    "gliding": ("rows-gliding", "A row worked: gliding"),
    "climb": ("rows-climb", "A row worked: climb and top speed"),
    "power": ("rows-power", "A row worked: power against speed"),
    "air": ("rows-air", "A row worked: density altitude"),
    "run": ("rows-take-off", "A row worked: take-off run"),
    "reach": ("rows-reach", "A row worked: reach in wind"),
    "gauge": ("rows-gauge-card", "A row worked: gauge card"),
    "energy": ("rows-cold-and-age", "A row worked: cold and age"),
    "years": ("rows-years", "A row worked: years"),
    "charging": ("rows-charging", "A row worked: charging"),
}
"""Key of a page of worked rows -> its path and its title."""


def topics(dossier: Dossier) -> tuple[Topic, ...]:
    """Share out all figures of a dossier; every figure stands on exactly one page, and no page is empty."""
    taken: set[str] = set()
    found = []
    for path, title, wanted in _groups(dossier):
        names = tuple(name for name in wanted if name in dossier.with_sheets and name not in taken)
        taken.update(names)
        if names:
            found.append(Topic(f"working/{path}.md", title, names))
    return tuple(found)


def _groups(dossier: Dossier) -> Iterator[tuple[str, str, list[str]]]:
    if dossier.weighing:
        yield "weighing", "Weighing", _names(dossier.weighing.figures)
    if dossier.empty:
        yield "empty-aircraft", "Empty aircraft", _names(dossier.empty.figures)
    if dossier.loadings:
        yield "loading", "Loading", _names(dossier.loadings.figures)
    for pack in dossier.packs:
        yield (
            f"battery-{pack.option}",
            f"Battery: {_option(dossier, pack.option)}",
            _names(pack.figures.values()),
        )
    for pack in dossier.packs:
        flown = [
            figure
            for flight in (dossier.energy.flights if dossier.energy else ())
            if flight.option == pack.option
            for figure in flight.figures
        ]
        yield f"energy-{pack.option}", f"Energy in flight: {_option(dossier, pack.option)}", _names(flown)
        modelled = [
            figure
            for one in dossier.modelled.flights
            if one.flight.option == pack.option
            for figure in one.figures
        ]
        yield (
            f"discharge-{pack.option}",
            f"Discharge model: {_option(dossier, pack.option)}",
            _names(modelled),
        )
    yield "battery-life", "Life of the battery", [name for name in dossier.figures if name.startswith(LIVES)]
    yield from _whole_aircraft(dossier)
    yield "wiring", "Wiring and fuses", _names(dossier.wiring.figures)
    yield "capacity-tests", "Tests of the battery's capacity", _names(dossier.capacity_logs.figures)
    judged = {
        name for verdict in dossier.verdicts for one in _asked(verdict) for name in [one.figure] if name
    }
    yield (
        "requirements",
        "Masses that count for a rule",
        [name for name in dossier.figures if name in judged and name.startswith("counted_mass.")],
    )
    yield from _rows(dossier)
    yield "limits-and-flight-tests", "Limits and flight tests", list(dossier.figures)


def _whole_aircraft(dossier: Dossier) -> Iterator[tuple[str, str, list[str]]]:
    if dossier.performance:
        yield "performance", "Flight performance", _names(dossier.performance.figures)
    if dossier.maintenance:
        yield "maintenance", "Maintenance due", _names(dossier.maintenance.figures)
    if dossier.road:
        yield "trailer", "On the trailer", _names(dossier.road.figures)


def _rows(dossier: Dossier) -> Iterator[tuple[str, str, list[str]]]:
    """A page of sheets for the worked rows of each page of tables."""
    for page in dict.fromkeys(one.page for one in dossier.worked.rows):
        path, title = ROWS[page]
        own = (one for one in dossier.worked.rows if one.page == page)
        yield path, title, _names(figure for one in own for figure in one.figures)


def _asked(verdict: Verdict) -> Iterator[Verdict]:
    """A verdict, and those of the same requirement on the other basis and with other batteries."""
    for one in (verdict, verdict.on_other_basis):
        if one:
            yield one
            yield from one.with_each_battery


def _names(figures: Iterable[Figure]) -> list[str]:
    return [figure.name for figure in figures]


def _option(dossier: Dossier, option: str) -> str:
    return str(dossier.project.battery.options[option].name)


def sheet_addresses(dossier: Dossier) -> dict[str, str]:
    """Return the address of every figure's sheet from the root of the packet, by name of the figure."""
    return {name: f"{topic.path}#{name}" for topic in topics(dossier) for name in topic.names}
