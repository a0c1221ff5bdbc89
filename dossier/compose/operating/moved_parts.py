"""What a list moves: each part with its mass, its size and how many people it takes."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose.grid import Grid, Row, grid, row
from dossier.compose.limit_text import one_line
from dossier.compose.operating.lists import List
from dossier.compose.printer import Printer
from dossier.dossier import Dossier
from dossier.model.battery import Size
from dossier.procedures.acts import MOVING
from dossier.procedures.system import System

_HEADS = "+ Part | # People | # Mass | # Length | # Width | # Height"


def moved_parts(dossier: Dossier, one: List) -> Grid | None:
    """Make the table of the parts that a step of the list fetches, places, takes off or stows, if any."""
    rigging = dossier.project.rigging
    if rigging is None:
        return None
    system = System(
        rigging,
        dossier.project.aircraft,
        dossier.project.battery,
        dossier.state.left_out,
        dossier.battery_of_lists,
    )
    rows = [_row(dossier, one, system, name) for name in dict.fromkeys(_moved(one)) if name in system.parts]
    return grid("What is moved, as the type states it", _HEADS, rows) if rows else None


def _moved(one: List) -> Iterator[str]:
    for numbered in one.steps:
        for act in (*numbered.step.acts, *numbered.step.second_acts):
            if act.act in MOVING:
                yield from map(str, act.what)


def _row(dossier: Dossier, one: List, system: System, name: str) -> Row:
    part, at = system.parts[name], Printer(dossier, one.path)
    size: Size | None = part.size
    named = one_line(part.name)
    if part.battery:
        battery = system.battery.options[dossier.battery_of_lists]
        size, named = battery.size, f"{named}, {one_line(battery.name)}"
    mass = system.mass(name)
    lengths = (size.length, size.width, size.height) if size else ()
    return row(
        named,
        str(part.people),
        at.value(mass, "mass") if mass is not None else "not stated",
        *(at.value(length.value, "length") for length in lengths),
        *("not stated" for _ in range(3 - len(lengths))),
    )
