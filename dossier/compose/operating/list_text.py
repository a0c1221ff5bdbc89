"""All words of one list, ready for print, and the digest that tells one wording from another."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass

from dossier.compose.limit_text import LimitText, one_line, printed
from dossier.compose.operating.hazard_boxes import HazardBox, boxes
from dossier.compose.operating.lists import List, ListSection, NumberedStep
from dossier.compose.pictures import PictureText, picture_text
from dossier.display import Preference
from dossier.dossier import Dossier
from dossier.model.procedure import Tightening


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
    time: str | None = None
    """None where the record says nothing."""
    signs: str | None = None
    picture: PictureText | None = None


@dataclass(frozen=True)
class SectionText:
    """A section, ready for print."""

    anchor: str
    title: str
    note: str
    steps: tuple[StepText, ...]
    if_not: str | None = None
    """None where the record says nothing."""
    stop: str | None = None
    """How the crew leaves the aircraft if it stops behind it, perhaps empty; None where it may not stop.
    Behind the last section the list is done, and its closing says what is so."""


@dataclass(frozen=True)
class Tick:
    """One box to tick."""

    name: str
    """Such as ``start-2``, ``step-4``, ``step-4-second``, ``end-2``."""
    kind: str
    """``count``, ``step`` or ``second-check``."""
    text: str

    @property
    def words(self) -> str:
        """Such as ``step 4, second check``."""
        stage, number, *second = self.name.split("-")
        if self.kind == "count":
            return f"count at the {stage}, {self.text}"
        return f"step {number}, second check" if second else f"step {number}"


@dataclass(frozen=True)
class ListText:
    """What a list says, for one serial."""

    title: str
    purpose: str
    people: int
    boxes: tuple[HazardBox, ...]
    counted: tuple[str, ...]
    """Loose items, then tools."""
    sections: tuple[SectionText, ...]
    closing: str
    stowed: bool | None = None
    """True if what is counted at the start is still stowed; None where it lies out."""

    @property
    def digest(self) -> str:
        """SHA-256 of all words, in hexadecimal: one other word, step or caution gives another digest.

        Serial, date and edition are not in it: an event that leaves the list as it was keeps its ticks.
        """
        said = _said(asdict(self))
        plain = json.dumps(said, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
        return hashlib.sha256(plain.encode()).hexdigest()

    @property
    def pictures(self) -> tuple[PictureText, ...]:
        """Each picture of its steps once, in order."""
        steps = (step for section in self.sections for step in section.steps)
        return tuple({step.picture.link: step.picture for step in steps if step.picture}.values())

    @property
    def ticks(self) -> tuple[Tick, ...]:
        """Every box of the list, in the order of the page."""
        return (*self._count("start"), *self._steps(), *self._count("end"))

    def _count(self, stage: str) -> Iterator[Tick]:
        for number, item in enumerate(self.counted, start=1):
            yield Tick(f"{stage}-{number}", "count", item)

    def _steps(self) -> Iterator[Tick]:
        for step in (step for section in self.sections for step in section.steps):
            yield Tick(step.anchor, "step", step.do)
            if step.second_check:
                yield Tick(f"{step.anchor}-second", "second-check", step.second_check)


def _said(value: object) -> object:
    """Leave out what a list does not say, so that a key which lists may have leaves the digest
    of others alone."""
    if isinstance(value, dict):
        return {key: _said(inner) for key, inner in value.items() if inner is not None}
    return [_said(inner) for inner in value] if isinstance(value, list | tuple) else value


def list_text(dossier: Dossier, one: List) -> ListText:
    """Fill in and print all that a list says."""
    procedure, rigging = one.procedure, dossier.project.rigging
    fill = LimitText.of(dossier).fill
    return ListText(
        title=one_line(procedure.title),
        purpose=fill(procedure.purpose),
        people=procedure.people,
        boxes=boxes(dossier, one.hazards),
        counted=tuple(map(one_line, (*procedure.loose_items, *procedure.tools))),
        sections=tuple(_section(dossier, *numbered) for numbered in enumerate(one.sections, start=1)),
        closing=fill(procedure.closing),
        stowed=(rigging is not None and one.takes_out(rigging.kits)) or None,
    )


def _section(dossier: Dossier, number: int, section: ListSection) -> SectionText:
    steps = tuple(_step(dossier, numbered) for numbered in section.steps)
    note = LimitText.of(dossier).fill(section.note)
    if_not = LimitText.of(dossier).fill(section.if_not) if section.if_not else None
    stop = None if section.stop is None else LimitText.of(dossier).fill(section.stop)
    return SectionText(f"section-{number}", one_line(section.title), note, steps, if_not, stop)


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
        by=fill(step.by or ""),
        second_check=fill(step.second_check or ""),
        torque=torque(step.torque, dossier.preference) if step.torque else "",
        tool=one_line(step.tool or ""),
        time=str(printed(step.time, dossier.preference)) if step.time else None,
        signs=one_line(step.signs) if step.signs else None,
        picture=picture_text(dossier, step.picture),
    )


def torque(tightening: Tightening, preference: Preference) -> str:
    """Say how tight, which fastener, and after which source; a tolerance stays as it is written."""
    value = tightening.value
    spread = f", written as {one_line(value.text)}" if value.standard_uncertainty else ""
    fastener, source = one_line(tightening.fastener), one_line(tightening.source)
    return f"{printed(value, preference)}{spread}; {fastener}; after {source}"
