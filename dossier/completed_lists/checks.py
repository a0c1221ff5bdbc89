"""A completed list against the list itself: the rules of its page (lists.js) are kept here once more."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from itertools import groupby

from dossier.compose.operating.list_text import Tick
from dossier.findings import Finding
from dossier.model.completed_list import CompletedList, TickMade

CLOCK_PLAY = timedelta(minutes=1)
"""By how much a clock may be set back without a reason, as on the page."""
AGAIN = "save the record file again from the page of the list; it is not meant to be edited"


def faults(one: CompletedList, ticks: Sequence[Tick]) -> Iterator[Finding]:
    """Say what is wrong with a list whose words are known to be right, all at once."""
    yield from people_faults(one)
    if unlike := list(_unlike(one, ticks)):
        yield from unlike
        return
    if not one.done:
        yield Finding(
            "T007",
            "nothing is ticked in this list",
            "tick the steps on the page of the list as they are done",
            one.place_of_key("ticks"),
        )
        return
    if one.day < one.as_of:
        yield Finding(
            "T009",
            f"the last tick is of {one.day}, and the list is made as of {one.as_of}",
            "set the clock of the device right, and do the list again",
            one.place_of_key("as_of"),
        )
    yield from _saved_before(one)
    yield from _times(one)
    yield from _against_the_rules(one)


def _saved_before(one: CompletedList) -> Iterator[Finding]:
    saved = datetime.fromisoformat(str(one.saved))
    for tick in one.done:
        if _time(tick) > saved + CLOCK_PLAY:
            yield Finding(
                "T011",
                f"{_name(tick)} is ticked at {tick.done}, and the file was saved at {one.saved}",
                "set the clock of the device right, and save the record file again",
                tick.place_of_key("done"),
            )


def people_faults(one: CompletedList) -> Iterator[Finding]:
    """Say why the people of a list cannot be told apart."""
    names = [str(name) for name in one.people]
    if len(names) > 2 or len({name.casefold() for name in names}) != len(names):
        yield Finding(
            "T010",
            f"the people of the list are {', '.join(names)}",
            "one or two people tick, with different names",
            one.place_of_key("people"),
        )
    for tick in one.done:
        if tick.by not in names:
            yield Finding(
                "T010",
                f"{_name(tick)} was ticked by {_said(tick.by)}, who is not among the people of the list",
                AGAIN,
                tick.place_of_key("by"),
            )


def _unlike(one: CompletedList, ticks: Sequence[Tick]) -> Iterator[Finding]:
    found = [(str(tick.tick), str(tick.kind), _plain(tick.text)) for tick in one.ticks]
    wanted = [(tick.name, tick.kind, _plain(tick.text)) for tick in ticks]
    for made, has, due in zip(one.ticks, found, wanted, strict=False):
        if has != due:
            yield Finding(
                "T004",
                f"{_name(made)} is not what stands in its place in the list: {due[0]}, {due[2]!r}",
                AGAIN,
                made.place,
            )
    if len(found) != len(wanted):
        yield Finding(
            "T004",
            f"the file has {len(found)} ticks, and the list has {len(wanted)}",
            AGAIN,
            one.place_of_key("ticks"),
        )
    if [str(name) for name in one.open] != [str(tick.tick) for tick in one.ticks if not tick.done]:
        yield Finding(
            "T004",
            "what the file calls open is not what is not ticked in it",
            AGAIN,
            one.place_of_key("open"),
        )
    names = {tick.name for tick in ticks}
    for back in one.taken_back:
        if str(back.tick) not in names:
            fault = f"{str(back.tick)!r} was taken back, and the list has no such tick"
            yield Finding("T004", fault, AGAIN, back.place)
    for made in one.ticks:
        if not made.done and (made.by or made.override):
            yield Finding(
                "T004", f"{_name(made)} is open, and yet somebody is named for it", AGAIN, made.place
            )


def _against_the_rules(one: CompletedList) -> Iterator[Finding]:
    made = {str(tick.tick): tick for tick in one.done}
    passed_over = {str(name) for tick in one.done if tick.override for name in tick.override.missing}
    for place, tick in enumerate(one.ticks):
        if not tick.done:
            continue
        earlier = [
            str(other.tick)
            for at, other in enumerate(one.ticks)
            if _comes_first(other, tick, before=at < place)
        ]
        lacking = [name for name in earlier if name not in made and name not in passed_over]
        step = str(tick.tick).removesuffix("-second")
        if tick.kind == "second-check" and step not in made:
            lacking = [step]
        if lacking:
            yield Finding(
                "T006",
                f"{_name(tick)} is ticked, and {', '.join(lacking)} is open, without a reason",
                AGAIN,
                tick.place,
            )
        elif (
            tick.kind == "second-check"
            and _same(made[step].by, tick.by)
            and not (tick.override and tick.override.same_person)
        ):
            yield Finding(
                "T005",
                f"{_name(tick)} was ticked by {_said(tick.by)}, who did the step",
                "another person makes the second check; if nobody was there, the page asks why",
                tick.place,
            )


def _times(one: CompletedList) -> Iterator[Finding]:
    """Follow the clock through the list: where it was set back, the page asks for a reason.

    A tick that was passed over and made up for later is not followed; counts have no order among themselves.
    """
    passed_over = {str(name) for tick in one.done if tick.override for name in tick.override.missing}
    followed = [tick for tick in one.done if tick.tick not in passed_over]
    before: TickMade | None = None
    for _, group in groupby(
        followed, key=lambda tick: _stage(tick) if tick.kind == "count" else str(tick.tick)
    ):
        ticks = list(group)
        for tick in ticks:
            if before and not tick.override and _time(tick) < _time(before) - CLOCK_PLAY:
                yield Finding(
                    "T011",
                    f"{_name(tick)} is ticked at {tick.done}, and {_name(before)}, which comes before it, "
                    f"at {before.done}",
                    AGAIN,
                    tick.place_of_key("done"),
                )
        before = (min if any(tick.override for tick in ticks) else max)(ticks, key=_time)


def _time(tick: TickMade) -> datetime:
    return datetime.fromisoformat(str(tick.done))


def _comes_first(other: TickMade, tick: TickMade, *, before: bool) -> bool:
    """Counts may be made in any order among themselves; all else in the order of the list."""
    stage, own = _stage(other), _stage(tick)
    return stage < own or (stage == own == 1 and before)


def _stage(tick: TickMade) -> int:
    return {"start": 0, "step": 1, "end": 2}[tick.tick.split("-")[0]]


def _same(one: str | None, other: str | None) -> bool:
    return (one or "").casefold() == (other or "").casefold()


def _plain(text: str) -> str:
    return " ".join(text.split())


def _name(tick: TickMade) -> str:
    return repr(str(tick.tick))


def _said(name: str | None) -> str:
    return str(name) if name else "nobody"
