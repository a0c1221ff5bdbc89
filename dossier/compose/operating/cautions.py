"""The index of cautions: what each signal word means, every hazard by word, and where its box stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from dossier.compose.environment import render
from dossier.compose.limit_text import one_line
from dossier.compose.operating.controls import PATH as CONTROLS
from dossier.compose.operating.controls import system_anchor
from dossier.compose.operating.hazard_boxes import SIGNAL_WORDS, HazardBox, boxes
from dossier.compose.operating.limits import GROUP
from dossier.compose.operating.lists import List
from dossier.compose.packet import Page
from dossier.dossier import Dossier


@dataclass(frozen=True)
class Spot:
    """A place where a hazard's box stands."""

    hazard: str
    page: str
    address: str
    text: str


@dataclass(frozen=True)
class Standing:
    """A page with the places of one hazard's box."""

    page: str
    spots: tuple[Spot, ...]


@dataclass(frozen=True)
class Entry:
    """A hazard with all places of its box."""

    box: HazardBox
    standings: tuple[Standing, ...]


@dataclass(frozen=True)
class WordGroup:
    """All hazards of one signal word."""

    kind: str
    word: str
    meaning: str
    entries: tuple[Entry, ...]


def page(dossier: Dossier, of_serial: tuple[List, ...]) -> Page:
    """Make the page of cautions."""
    text = render("operating/cautions.md.jinja", groups=_groups(dossier, of_serial))
    return Page("cautions.md", "Cautions", GROUP, text)


def spots(dossier: Dossier, of_serial: tuple[List, ...]) -> Iterator[Spot]:
    """Say where boxes stand, in the order of the pages."""
    for number, system in enumerate(dossier.project.aircraft.systems, start=1):
        for name in system.cautions:
            yield Spot(str(name), "Systems", f"{CONTROLS}#{system_anchor(number)}", one_line(system.name))
    for one in of_serial:
        yield from _in_list(one)


def _in_list(one: List) -> Iterator[Spot]:
    title = one_line(one.procedure.title)
    for name in one.hazards:
        yield Spot(name, title, one.path, "at its head")
    for numbered in one.steps:
        for name in numbered.hazards:
            yield Spot(name, title, f"{one.path}#{numbered.anchor}", f"step {numbered.number}")


def _groups(dossier: Dossier, of_serial: tuple[List, ...]) -> tuple[WordGroup, ...]:
    found = tuple(spots(dossier, of_serial))
    entries = [
        Entry(box, _standings(spot for spot in found if spot.hazard == box.name))
        for box in boxes(dossier, dossier.project.hazards.hazards)
    ]
    of_kind = {kind: tuple(entry for entry in entries if entry.box.kind == kind) for kind in SIGNAL_WORDS}
    return tuple(
        WordGroup(kind, kind.capitalize(), meaning, of_kind[kind]) for kind, meaning in SIGNAL_WORDS.items()
    )


def _standings(found: Iterable[Spot]) -> tuple[Standing, ...]:
    # a box stands on a page in one run of spots: they come in the order of the pages
    return tuple(Standing(page, tuple(run)) for page, run in groupby(found, key=lambda spot: spot.page))
