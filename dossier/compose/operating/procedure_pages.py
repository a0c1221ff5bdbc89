"""One page a procedure: read it, do it, tick it."""

from __future__ import annotations

from dossier.compose import links
from dossier.compose.edition import edition_words
from dossier.compose.environment import render
from dossier.compose.limit_text import one_line
from dossier.compose.operating.expected_time import ExpectedTime, expected_time
from dossier.compose.operating.hazard_boxes import HazardBox, boxes
from dossier.compose.operating.list_text import list_text
from dossier.compose.operating.lists import KINDS, List
from dossier.compose.operating.moved_parts import moved_parts
from dossier.compose.operating.plan_view import plan
from dossier.compose.operating.verification import verification
from dossier.compose.packet import Page
from dossier.dossier import Dossier

_ORDINALS = ("Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth", "Tenth")


def page(dossier: Dossier, one: List) -> Page:
    """Make the page of one list."""
    said = list_text(dossier, one)
    text = render(
        "operating/procedure.md.jinja",
        said=said,
        name=one.name,
        card=links.card(one.path),
        type_name=one_line(dossier.project.aircraft.identification.name),
        serial_number=str(dossier.record.serial_number),
        edition=edition_words(dossier),
        as_of=dossier.state.as_of.isoformat(),
        options=options_line(dossier, one),
        is_emergency=one.is_emergency,
        summary=_summary(one, expected_time(one, dossier.preference)),
        tools=tuple(map(one_line, one.procedure.tools)),
        signatures=signatures(one),
        cautions=_cautions(dossier, one),
        plan=plan(dossier, one),
        moved=None if one.is_emergency else moved_parts(dossier, one),
        verification=verification(dossier, one.name),
    )
    return Page(one.path, said.title, KINDS[one.procedure.kind], text)


def _cautions(dossier: Dossier, one: List) -> tuple[HazardBox, ...]:
    """The whole boxes of an emergency, each once: above them stand only signal word and what to do."""
    if not one.is_emergency:
        return ()
    of_steps = (name for step in one.steps for name in step.hazards)
    return boxes(dossier, dict.fromkeys([*one.hazards, *of_steps]))


def options_line(dossier: Dossier, one: List, *, brief: bool = False) -> str:
    """Say which optional equipment and battery the list is for; in brief, without what follows from it."""
    if not one.options and not one.by_battery:
        return "No step depends on optional equipment."
    items, left_out = dossier.project.aircraft.items, dossier.state.left_out
    fitted = [one_line(items[name].name) for name in one.options if name not in left_out]
    missing = [one_line(items[name].name) for name in one.options if name in left_out]
    parts = []
    if fitted:
        parts.append(f"Written for this serial with: {'; '.join(fitted)}.")
    if missing:
        parts.append(f"Written for this serial without: {'; '.join(missing)}.")
    if missing and not brief:
        parts.append("Steps for it are left out.")
    if one.by_battery:
        parts.append(_battery_words(dossier))
    return " ".join(parts)


def _battery_words(dossier: Dossier) -> str:
    name = one_line(dossier.project.battery.options[dossier.battery_of_lists].name)
    if dossier.state.battery is None:
        return f"No battery is fitted by this date: written for the heaviest, {name}."
    return f"Written for the battery that is fitted: {name}."


def signatures(one: List) -> tuple[str, ...]:
    """Name who signs: whom the list names, else everybody who is needed and whoever made the second checks
    of a lone worker; and whom single steps name."""
    if one.is_emergency:
        return ()
    own = [one_line(numbered.step.signs) for numbered in one.steps if numbered.step.signs]
    if one.procedure.signs:
        return tuple(dict.fromkeys([*map(one_line, one.procedure.signs), *own]))
    people = one.procedure.people
    needed = ("Person in charge", *(f"{word} person" for word in _ORDINALS))[: max(1, people)]
    checked = any(numbered.step.second_check for numbered in one.steps)
    second = ("Person who made the second checks",) if checked and people < 2 else ()
    return tuple(dict.fromkeys([*needed, *second, *own]))


def _summary(one: List, time: ExpectedTime) -> tuple[tuple[str, str, str], ...]:
    """Name, value and a line below, for each thing to know before the start."""
    steps = [numbered.step for numbered in one.steps]
    critical = sum(step.critical for step in steps)
    rows = (
        ("People", str(one.procedure.people), ""),
        ("Time", time.amount, time.beside),
        ("Steps", str(len(steps)), f"{critical} of them critical" if critical else ""),
        ("Second checks", str(sum(step.second_check is not None for step in steps)), "by another person"),
    )
    return tuple(row for row in rows if row[1] not in ("", "0"))
