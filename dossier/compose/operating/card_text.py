"""What a card says, as blocks that are not parted: a step with its hazards and its second check is one block.

A card has the whole words of its list, or the short ones: then notes of sections, how the crew leaves what it
stops at, and what to do if a step fails are left to the list, and a step that has words for the card
(``on_card``) says those. A hazard that comes again in short words, or that comes in an emergency, is told by
its signal word and how to avoid it. No step, no second check and no way to avoid a hazard is ever left out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from dossier.compose.limit_text import LimitText
from dossier.compose.operating.hazard_boxes import HazardBox
from dossier.compose.operating.list_text import ListText, SectionText, StepText
from dossier.compose.operating.lists import List
from dossier.compose.operating.type_widths import Runs
from dossier.dossier import Dossier

_SHORT_NAME = 18
"""Letters of a name under half a line to sign on."""


@dataclass(frozen=True)
class Row:
    """A paragraph or more beside each other's number and box."""

    kind: str
    """``section``, ``note``, ``hazard``, ``count``, ``step``, ``second``, ``closing``, ``signature``,
    ``small``."""
    paragraphs: tuple[Runs, ...]
    number: str = ""
    box: bool = False
    """Whether there is a box to tick."""
    last_box: bool = False
    """Whether another box stands behind the last word, for the second check."""
    boxes: int = 0
    """Of a count: how many stand before each paragraph."""


@dataclass(frozen=True)
class Block:
    """Rows that stay together on one side."""

    rows: tuple[Row, ...]

    @property
    def opens_section(self) -> bool:
        """Whether the block begins a section of the list."""
        return self.rows[0].kind == "section"


@dataclass(frozen=True)
class CardFrame:
    """What stands on a card besides its list."""

    options: str
    signatures: tuple[str, ...]


def blocks(
    dossier: Dossier, one: List, said: ListText, frame: CardFrame, *, short: bool
) -> tuple[Block, ...]:
    """Make the blocks of a card, in whole words or in short ones."""
    made = _short(dossier, one, said) if short else said
    if one.is_emergency:
        made = _hazards(made, lambda box: replace(box, hazard=""))
    ticks = not one.is_emergency
    return (
        *(Block((_hazard(box),)) for box in made.boxes),
        *(_counts(made, short=short)[:1] if ticks else ()),
        *(block for section in made.sections for block in _section(section, ticks=ticks, short=short)),
        *(_counts(made, short=short)[1:] if ticks else ()),
        _close(made, frame, ticks=ticks, short=short),
    )


def _short(dossier: Dossier, one: List, said: ListText) -> ListText:
    written = {numbered.number: numbered.step.on_card for numbered in one.steps}
    fill = LimitText.of(dossier).fill

    def step(whole: StepText) -> StepText:
        words = written[whole.number]
        if words is None:
            return replace(whole, if_not="")
        return replace(
            whole,
            if_not="",
            do=fill(words.do) if words.do else whole.do,
            expect=fill(words.expect) if words.expect else whole.expect,
            second_check=fill(words.second_check) if words.second_check else whole.second_check,
        )

    sections = tuple(
        replace(section, note="", steps=tuple(map(step, section.steps))) for section in said.sections
    )
    return _each_hazard_described_once(replace(said, sections=sections))


def _each_hazard_described_once(said: ListText) -> ListText:
    """Where a hazard comes again, its signal word and how to avoid it are enough."""
    seen: set[str] = set()

    def once(box: HazardBox) -> HazardBox:
        told = replace(box, hazard="") if box.name in seen else box
        seen.add(box.name)
        return told

    return _hazards(said, once)


def _hazards(said: ListText, change: Callable[[HazardBox], HazardBox]) -> ListText:
    """Change every box, in the order of the list."""
    head = tuple(map(change, said.boxes))
    sections = tuple(
        replace(
            section,
            steps=tuple(replace(step, boxes=tuple(map(change, step.boxes))) for step in section.steps),
        )
        for section in said.sections
    )
    return replace(said, boxes=head, sections=sections)


def _hazard(box: HazardBox) -> Row:
    words = " ".join(filter(None, (box.hazard, box.avoidance)))
    return Row("hazard", (((f"{box.word}.", True), (f" {words}", False)),))


def _counts(said: ListText, *, short: bool) -> tuple[Block, ...]:
    """The count at the start and at the end; in short words both have their boxes at the start."""
    items = tuple(((item, False),) for item in said.counted)
    if not items:
        return ()
    start = "at the start, where it is stowed" if said.stowed else "at the start"
    if short:
        again = (("Count again, and tick the second boxes of the count.", True),)
        return _count(f"Count: first box {start}, second box at the end", items, 2), Block(
            (Row("step", (again,), box=True),)
        )
    return _count(f"Count {start}", items, 1), _count("Count at the end", items, 1)


def _count(title: str, items: tuple[Runs, ...], boxes: int) -> Block:
    return Block((Row("section", (((title, True),),)), Row("count", items, boxes=boxes)))


def _section(section: SectionText, *, ticks: bool, short: bool) -> Iterator[Block]:
    title = f"{section.title}. If not: {section.if_not}" if section.if_not else section.title
    head = [Row("section", (((title, True),),))]
    if section.note:
        head.append(Row("note", (((section.note, False),),)))
    for step in section.steps:
        stop = _stop(section.stop, short=short) if step is section.steps[-1] else ()
        yield Block((*head, *map(_hazard, step.boxes), *_step(step, ticks=ticks, short=short), *stop))
        head = []


def _stop(leaves: str | None, *, short: bool) -> tuple[Row, ...]:
    """That the crew may stop there; how it leaves the aircraft is left to the list in short words."""
    if leaves is None:
        return ()
    if short or not leaves:
        return (Row("note", ((("You may stop here.", True),),)),)
    return (Row("note", ((("You may stop here: ", True), (leaves, False)),)),)


def _step(step: StepText, *, ticks: bool, short: bool) -> Iterator[Row]:
    critical = [("Critical. ", True)] if step.critical else []
    torque = [(f" Torque: {step.torque}.", False)] if step.torque else []
    time = [(f" Time: {step.time}.", False)] if step.time else []
    signs = [(f" Signs: {step.signs}.", False)] if step.signs else []
    first = (*critical, (f"{step.do} ", False), (step.expect, True), *torque, *time, *signs)
    number, second = str(step.number), step.second_check
    if short:
        check = [(f" Second check: {second}", False)] if second else []
        yield Row("step", ((*first, *check),), number, ticks, bool(second) and ticks)
        return
    if_not = [(("If not: ", True), (step.if_not, False))] if step.if_not else []
    yield Row("step", (first, *if_not), number, ticks)
    if second:
        yield Row("second", ((("Second check: ", True), (second, False)),), box=ticks)


def _close(said: ListText, frame: CardFrame, *, ticks: bool, short: bool) -> Block:
    return Block(
        (
            Row("closing", (((said.closing, True),),)),
            *_signatures(frame.signatures),
            Row("small", ((("".join(_small_print(said, frame, ticks=ticks, short=short)), False),),)),
        )
    )


def _signatures(who: tuple[str, ...]) -> Iterator[Row]:
    """Two lines to sign on beside each other, where their names leave room for the date."""
    beside = 2 if max(map(len, who), default=0) <= _SHORT_NAME else 1
    for first in range(0, len(who), beside):
        yield Row("signature", tuple(((name, False),) for name in who[first : first + beside]))


def _small_print(said: ListText, frame: CardFrame, *, ticks: bool, short: bool) -> Iterator[str]:
    if short:
        yield "Short words: if a step is not as it says, stop and read it in the whole list. "
    else:
        yield "Read the whole list first. "
    if any(step.second_check for section in said.sections for step in section.steps):
        yield "Another person makes second checks. "
    if ticks:
        yield "A tick does not show that a joint is closed. "
    yield f"{frame.options} Local rules and licensed practice go first. "
    yield "No approval; does not say that the aircraft is airworthy."
