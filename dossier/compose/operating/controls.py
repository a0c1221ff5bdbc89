"""What the pilot works, and what there is to know of each system. Hazards stand before the description."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.environment import render
from dossier.compose.limit_text import LimitText, one_line
from dossier.compose.operating.hazard_boxes import HazardBox, boxes
from dossier.compose.operating.limits import GROUP
from dossier.compose.packet import Page
from dossier.dossier import Dossier

PATH = "controls.md"


@dataclass(frozen=True)
class ControlText:
    """A control, ready for print."""

    name: str
    where: str
    does: str
    detents: tuple[str, ...]
    marking: str


@dataclass(frozen=True)
class SystemText:
    """A system, ready for print."""

    anchor: str
    name: str
    boxes: tuple[HazardBox, ...]
    description: str


def page(dossier: Dossier) -> Page:
    """Make the page of controls and systems."""
    aircraft = dossier.project.aircraft
    controls = tuple(
        ControlText(
            one_line(control.name),
            one_line(control.where),
            one_line(control.does),
            tuple(map(one_line, control.detents)),
            one_line(control.marking),
        )
        for control in aircraft.controls
    )
    text = render("operating/controls.md.jinja", controls=controls, systems=_systems(dossier))
    return Page(PATH, "Controls and systems", GROUP, text)


def system_anchor(number: int) -> str:
    """What a link to a system points at; systems count from 1."""
    return f"system-{number}"


def _systems(dossier: Dossier) -> tuple[SystemText, ...]:
    fill = LimitText.of(dossier).fill
    return tuple(
        SystemText(
            system_anchor(number),
            one_line(system.name),
            boxes(dossier, system.cautions),
            fill(system.description),
        )
        for number, system in enumerate(dossier.project.aircraft.systems, start=1)
    )
