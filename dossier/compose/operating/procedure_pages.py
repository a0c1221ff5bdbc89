"""One page a procedure: read it, do it, tick it."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.environment import render
from dossier.compose.limit_text import LimitText, one_line, printed
from dossier.compose.operating.hazard_boxes import HazardBox, boxes
from dossier.compose.operating.lists import KINDS, List, ListSection, NumberedStep
from dossier.compose.packet import Page
from dossier.display import Preference
from dossier.dossier import Dossier
from dossier.model.procedure import Tightening

_ORDINALS = ("Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth", "Tenth")


@dataclass(frozen=True)
class StepText:
    """One step, ready for print; empty where the record says nothing."""

    number: int
    anchor: str
    boxes: tuple[HazardBox, ...]
    critical: bool
    do: str
    expect: str
    if_not: str
    by: str
    second_check: str
    torque: str
    tool: str


@dataclass(frozen=True)
class SectionText:
    """A section, ready for print."""

    anchor: str
    title: str
    note: str
    steps: tuple[StepText, ...]


def page(dossier: Dossier, one: List) -> Page:
    """Make the page of one list."""
    procedure = one.procedure
    duration = procedure.duration
    text = render(
        "operating/procedure.md.jinja",
        title=one_line(procedure.title),
        purpose=one_line(procedure.purpose),
        serial_number=str(dossier.record.serial_number),
        as_of=dossier.state.as_of.isoformat(),
        options=options_line(dossier, one),
        is_emergency=one.is_emergency,
        summary=_summary(one, str(printed(duration, dossier.preference)) if duration else ""),
        boxes=boxes(dossier, one.hazards),
        counted=tuple(map(one_line, (*procedure.loose_items, *procedure.tools))),
        tools=tuple(map(one_line, procedure.tools)),
        sections=tuple(_section(dossier, *numbered) for numbered in enumerate(one.sections, start=1)),
        closing=one_line(procedure.closing),
        signatures=signatures(one),
    )
    return Page(one.path, one_line(procedure.title), KINDS[procedure.kind], text)


def options_line(dossier: Dossier, one: List) -> str:
    """Say which optional equipment the list is for."""
    if not one.options:
        return "No step depends on optional equipment."
    items, left_out = dossier.project.aircraft.items, dossier.state.left_out
    fitted = [one_line(items[name].name) for name in one.options if name not in left_out]
    missing = [one_line(items[name].name) for name in one.options if name in left_out]
    parts = []
    if fitted:
        parts.append(f"Written for this serial with: {'; '.join(fitted)}.")
    if missing:
        parts.append(f"Written for this serial without: {'; '.join(missing)}. Steps for it are left out.")
    return " ".join(parts)


def signatures(one: List) -> tuple[str, ...]:
    """Name who signs: everybody who is needed, and whoever made the second checks of a lone worker."""
    if one.is_emergency:
        return ()
    people = one.procedure.people
    needed = ("Person in charge", *(f"{word} person" for word in _ORDINALS))[: max(1, people)]
    checked = any(numbered.step.second_check for numbered in one.steps)
    return (*needed, "Person who made the second checks") if checked and people < 2 else needed


def _summary(one: List, duration: str) -> tuple[tuple[str, str, str], ...]:
    """Name, value and a line below, for each thing to know before the start."""
    steps = [numbered.step for numbered in one.steps]
    critical = sum(step.critical for step in steps)
    rows = (
        ("People", str(one.procedure.people), ""),
        ("Time", duration, ""),
        ("Steps", str(len(steps)), f"{critical} of them critical" if critical else ""),
        ("Second checks", str(sum(step.second_check is not None for step in steps)), "by another person"),
    )
    return tuple(row for row in rows if row[1] not in ("", "0"))


def _section(dossier: Dossier, number: int, section: ListSection) -> SectionText:
    steps = tuple(_step(dossier, numbered) for numbered in section.steps)
    return SectionText(f"section-{number}", one_line(section.title), one_line(section.note), steps)


def _step(dossier: Dossier, numbered: NumberedStep) -> StepText:
    step = numbered.step
    fill = LimitText.of(dossier).fill
    return StepText(
        number=numbered.number,
        anchor=numbered.anchor,
        boxes=boxes(dossier, numbered.hazards),
        critical=step.critical,
        do=fill(step.do),
        expect=fill(step.expect),
        if_not=fill(step.if_not or ""),
        by=one_line(step.by or ""),
        second_check=fill(step.second_check or ""),
        torque=torque(step.torque, dossier.preference) if step.torque else "",
        tool=one_line(step.tool or ""),
    )


def torque(tightening: Tightening, preference: Preference) -> str:
    """Say how tight, which fastener, and after which source; a tolerance stays as it is written."""
    value = tightening.value
    spread = f", written as {one_line(value.text)}" if value.standard_uncertainty else ""
    fastener, source = one_line(tightening.fastener), one_line(tightening.source)
    return f"{printed(value, preference)}{spread}; {fastener}; after {source}"
