"""The record file that the page of a list saves: who ticked what, when. Read once, kept as evidence."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from datetime import date, datetime
from typing import Annotated, Any, Literal

from dossier.located import LocatedText
from dossier.model.base import Part
from dossier.model.scalars import Count, Date, Digest, Flag, Leaf, OneOf, SerialNumber, wrong

FORMAT: Literal["dossier-list/1"] = "dossier-list/1"
_HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Unicode categories of signs that nobody sees; the page of a list saves none."""
_TICK = re.compile(r"(?:start|end)-[1-9]\d{0,3}|step-[1-9]\d{0,3}(?:-second)?")
_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d")


def _quoted(value: Any) -> LocatedText:
    if isinstance(value, LocatedText) and value.quoted:
        return value
    raise wrong(
        "M003",
        "something else stands where text in quotes is due",
        'write it in quotes, such as "Odile Marrack"',
    )


def _words(longest: int) -> Callable[[Any], LocatedText]:
    def check(value: Any) -> LocatedText:
        text = _quoted(value)
        if not text.strip() or len(text) > longest:
            raise wrong(
                "M004",
                f"the text has {len(text)} characters, where 1 to {longest} are due",
                "save the record file again from the page of the list",
            )
        hidden = next((sign for sign in text if unicodedata.category(sign) in _HIDDEN), None)
        if hidden is not None:
            raise wrong("M016", f"the text holds the invisible character U+{ord(hidden):04X}", "delete it")
        return text

    return check


def _tick(value: Any) -> LocatedText:
    text = _quoted(value)
    if not _TICK.fullmatch(text):
        raise wrong(
            "M005",
            f"{str(text)!r} is not the name of a tick",
            "write it as the page does, such as  step-4  or  step-4-second",
        )
    return text


def _time(value: Any) -> LocatedText:
    text = _quoted(value)
    try:
        if not _TIME.fullmatch(text):
            raise ValueError
        datetime.fromisoformat(text)
    except ValueError:
        raise wrong(
            "M017", f"{str(text)!r} is not a time with its offset", "write it as 2026-05-14T09:31:00+02:00"
        ) from None
    return text


def _format(value: Any) -> LocatedText:
    text = _quoted(value)
    if text != FORMAT:
        raise wrong(
            "M012",
            f"{str(text)!r} is not known here",
            f"write {FORMAT}; a later format needs a later version of this tool",
        )
    return text


Line = Annotated[LocatedText, Leaf(_words(4000), {"type": "string", "minLength": 1, "maxLength": 4000})]
PersonName = Annotated[LocatedText, Leaf(_words(80), {"type": "string", "minLength": 1, "maxLength": 80})]
Reason = Annotated[LocatedText, Leaf(_words(300), {"type": "string", "minLength": 1, "maxLength": 300})]
Note = Annotated[LocatedText, Leaf(_words(500), {"type": "string", "minLength": 1, "maxLength": 500})]
TickName = Annotated[LocatedText, Leaf(_tick, {"type": "string", "pattern": f"^(?:{_TICK.pattern})$"})]
Time = Annotated[LocatedText, Leaf(_time, {"type": "string", "format": "date-time"})]


class Override(Part):
    """Why a tick was made although the rules of the list were against it."""

    reason: Reason
    missing: list[TickName]
    """What came first and was open."""
    same_person: Flag
    """Whether the second check was made by the person who did the step."""


class TickMade(Part):
    """One box of the list, ticked or open."""

    tick: TickName
    kind: Annotated[str, OneOf("count", "step", "second-check")]
    text: Line
    done: Time | None = None
    by: PersonName | None = None
    note: Note | None = None
    override: Override | None = None


class TakenBack(Part):
    """A tick that was withdrawn, with those that stood on it."""

    tick: TickName
    at: Time
    ticks: Count


class CompletedList(Part):
    """The whole record file."""

    format: Annotated[str, Leaf(_format, {"const": FORMAT})]
    type: Line
    serial_number: SerialNumber
    edition: Line
    as_of: Date
    procedure: Line
    title: Line
    digest: Digest
    people: list[PersonName]
    started: Time
    saved: Time
    ticks: list[TickMade]
    open: list[TickName]
    taken_back: list[TakenBack]

    @property
    def done(self) -> tuple[TickMade, ...]:
        """The ticks that were made."""
        return tuple(tick for tick in self.ticks if tick.done)

    @property
    def day(self) -> date:
        """The day of the last tick, by the clock of the device."""
        return date.fromisoformat(max(str(tick.done) for tick in self.done)[:10])
