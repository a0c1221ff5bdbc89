"""Does rigging.yaml say which way each control goes, without contradiction, and as controls commonly do?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from dossier.findings import Finding, Severity
from dossier.model.movement import OPPOSITE, Movement
from dossier.project import Project

CONTROLS = ("manual control", "self-connecting control")
COMMON: Mapping[tuple[str, str, str], str] = {
    ("stick", "left", "left aileron"): "up",
    ("stick", "left", "right aileron"): "down",
    ("stick", "back", "elevator"): "up",
    ("pedal", "left", "rudder"): "left",
    ("airbrake lever", "back", "airbrake"): "out",
}
"""Control, its way, surface -> the way of the surface: right for the right wing down, rearward for nose up,
right
pedal forward for nose right, speed brakes aft to extend. Source: 14 CFR 23.779 (Amdt. 23-51), read in a
reprint."""


def check(project: Project) -> Iterator[Finding]:
    """Find controls without their directions, and directions that cannot both be or that are not the common
    ones."""
    rigging = project.rigging
    if rigging is None:
        return
    for connection in rigging.connections.values():
        if connection.kind in CONTROLS and not connection.ways:
            yield Finding(
                "V006",
                f"the connection {str(connection.name)!r} is a {connection.kind}, "
                "and nothing says which way it goes",
                "add  ways: [{control: stick, moves: left, surface: left aileron, goes: up}]  with its words",
                connection.place,
                Severity.WARNING,
            )
    groups: tuple[Mapping[str, object], ...] = (rigging.connections, rigging.checks)
    ways = [way for group in groups for one in group.values() for way in getattr(one, "ways", ())]
    yield from _against_each_other(ways)
    yield from _uncommon(ways)


def _against_each_other(ways: Sequence[Movement]) -> Iterator[Finding]:
    for first, second in combinations(ways, 2):
        if _key(first) == _key(second):
            same_way = first.moves == second.moves
            if same_way and first.goes != second.goes:
                words = f"goes {first.goes} and {second.goes} with the {first.control} {first.moves}"
            elif not same_way and first.goes == second.goes and second.moves == OPPOSITE[first.moves]:
                words = f"goes {first.goes} with the {first.control} {first.moves} and {second.moves}"
            else:
                continue
            yield _wrong(second, f"the {second.surface} {words}: both cannot be")


def _uncommon(ways: Sequence[Movement]) -> Iterator[Finding]:
    for one in ways:
        control, surface = _key(one)
        for (known, moves, part), goes in COMMON.items():
            if control != known or part not in surface or one.moves not in (moves, OPPOSITE[moves]):
                continue
            common = goes if one.moves == moves else OPPOSITE[goes]
            if one.goes != common:
                words = f"the {surface} goes {one.goes} with the {control} {one.moves}"
                yield _wrong(one, f"{words}; by 14 CFR 23.779 it goes {common}")


def _wrong(one: Movement, words: str) -> Finding:
    remedy = (
        "look at the aircraft and write what it does; if it is so, nobody used to others may fly it unwarned"
    )
    return Finding("V006", words, remedy, one.place, Severity.WARNING)


def _key(one: Movement) -> tuple[str, str]:
    return str(one.control).lower(), str(one.surface).lower()
