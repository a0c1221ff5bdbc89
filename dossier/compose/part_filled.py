"""A box with part of its strings, and each other battery, beside the largest: from the plain share down to
what is left of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from dossier import display
from dossier.compose.grid import Cell, Grid, Head, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.results.part_filled import Filling

MINUTE = 60.0
NOTHING, PLUS, MINUS = "\u2013", "+", "\u2212"

Value = Callable[[Filling], float | None]
STEPS: tuple[tuple[str, str, Value], ...] = (
    ("Another reserve", "the part that is kept for the landing", lambda one: one.by_reserve),
    (
        "Climb, landing, what is kept back",
        "they take as much from a small battery as from a large one",
        lambda one: one.by_phases,
    ),
    ("Another mass in flight", "fewer cells, or another battery", lambda one: one.by_mass),
)
MODEL_STEPS: tuple[tuple[str, str, Value], ...] = (
    ("Voltage under load", "in place of one efficiency for every rate", lambda one: one.by_load),
    ("Charge kept for power", "so that a later phase gets its power", lambda one: one.by_power),
)


@dataclass(frozen=True)
class FillingPart:
    """The section. All ready strings."""

    table: Grid
    reasons: tuple[str, ...]
    """Why values are not there."""
    pilot: str


def part_filled(at: Printer) -> FillingPart | None:
    """Make the section; None where nothing flies."""
    made = at.dossier.part_filled
    if not made.fillings:
        return None
    heads = [Head("Minutes of level flight"), *(Head(_name(one), number=True) for one in made.fillings)]
    table = grid("Part of the strings, and each battery beside the largest", heads, _rows(at, made.fillings))
    reasons = tuple(f"{_name(one)}: {sentence(one.why)}" for one in made.fillings if one.why)
    return FillingPart(table, reasons, at.first(made.pilot, "mass"))


def _name(one: Filling) -> str:
    return one.name if one.whole else f"{one.name}, {one.strings} of {one.of} strings"


def _rows(at: Printer, found: tuple[Filling, ...]) -> Iterator[Row]:
    yield row("Mass of the battery", *(at.first(one.battery_mass, "mass") for one in found))
    yield row("Mass in flight", *(at.first(one.flying_mass, "mass") for one in found))
    yield row("Energy at rest between the limits", *(at.first(one.energy, "energy") for one in found))
    yield row("Its share of the largest", *(_percent(one.share) for one in found))
    yield row("Plain share of the endurance", *(_minutes(one.plain) for one in found))
    yield from (_step(found, *step) for step in STEPS)
    yield row("By the energy, reserve kept", *(_minutes(one.by_energy) for one in found), total=True)
    yield from (_step(found, *step) for step in MODEL_STEPS)
    yield row("By the discharge model", *(_minutes(one.modelled) for one in found), total=True)
    largest = found[0]
    yield row(
        "Share of the endurance, by the energy", *(_percent(one.share_by_energy(largest)) for one in found)
    )
    yield row(
        "Share of the endurance, by the model", *(_percent(one.share_modelled(largest)) for one in found)
    )


def _step(found: tuple[Filling, ...], name: str, note: str, of: Value) -> Row:
    return row(Cell(name, note=note), *(_signed(of(one)) for one in found))


def _minutes(time: float | None) -> str:
    return "no answer" if time is None else f"{time / MINUTE:.1f}\u00a0min"


def _signed(time: float | None) -> str:
    """Print what is added, with its sign; a dash for nothing."""
    if time is None:
        return "no answer"
    shown = f"{abs(time) / MINUTE:.1f}"
    if float(shown) == 0:
        return NOTHING
    return f"{PLUS if time > 0 else MINUS}{shown}\u00a0min"


def _percent(share: float | None) -> str:
    return "no answer" if share is None else f"{display.rounded(100 * share, 0)}\u00a0%"
