"""Can the list be read by cold hands in the wind? One action a step, short sentences, tools and lists that
exist."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from dossier.located import place_of
from dossier.model.rigging_bounds import Wording
from dossier.procedures.acts import CHECKING
from dossier.procedures.fault import Fault, of_text, of_words
from dossier.procedures.listing import Listing, Step
from dossier.procedures.rules.vocabulary import SAYS_NOTHING, TOOLS, tokens

_STILL = (*CHECKING, "check", "count", "see_isolated", "clear_propeller", "pause", "resume")
_ACTIONS = [
    "fit",
    "push",
    "pull",
    "tighten",
    "lock",
    "unlock",
    "close",
    "open",
    "put",
    "take",
    "plug",
    "unplug",
    "turn",
    "screw",
    "press",
    "set",
    "lift",
    "carry",
    "slide",
    "fold",
    "hang",
    "hook",
    "latch",
    "lower",
    "raise",
    "remove",
    "unscrew",
    "squeeze",
    "drain",
    "switch",
    "tie",
    "untie",
]
_SECOND_ACTION = re.compile(rf"(?:,|\band\b|,? then\b) (?:then )?(?P<verb>{'|'.join(_ACTIONS)})\b")
_FIRST_WORD = re.compile(rf"^(?:{'|'.join(_ACTIONS)})\b", re.IGNORECASE)
_QUOTED = re.compile(r'(?:[Gg]o (?:to|through|on with)|state in which|procedure|list|in) "(?P<title>[^"]+)"')
_UNIT = re.compile(r"(?<=\d) (?=(?:in-lb|ft-lb|N m|km|kg|lb|kt|mph|min|mm|cm|ft|in|m|s|h|V|A|kW|%|°C|°F)\b)")


def one_action(listing: Listing) -> Iterator[Fault]:
    """A step is one action; a step with two says why they cannot be parted.

    Source: ASD-STE100, rule 5.2 as quoted in a summary sheet (one instruction a sentence unless
    simultaneous); a tick must mean one fact. An emergency has no ticks, and its actions follow at once.
    """
    for step in listing.steps:
        if step.written.together is not None or listing.procedure.kind == "emergency":
            continue
        doing = [one for one in step.doings if not one.second and one.verb not in _STILL]
        found = _second_action(step.written.do)
        if len(doing) > 1:
            words = (
                f"this step does two things: {doing[0].verb} {doing[0].name}, {doing[1].verb} {doing[1].name}"
            )
        elif found:
            words = f"this step tells two things to do: {found!r} is the second"
        else:
            continue
        yield of_text(
            listing,
            "V090",
            step,
            (words, "make two steps of it, or say under together why they cannot be parted"),
        )


def _second_action(text: str) -> str | None:
    first, *others = re.split(r"(?<=[.!?])\s+", text)
    if not _FIRST_WORD.match(first):
        return None
    found = _SECOND_ACTION.search(first)
    behind = next((_FIRST_WORD.match(other) for other in others if _FIRST_WORD.match(other)), None)
    return found["verb"] if found else behind[0].lower() if behind else None


def short_sentences(listing: Listing, wording: Wording) -> Iterator[Fault]:
    """No sentence is longer than the wording rule of rigging.yaml: 20 words to instruct, 25 to describe.

    Source: ASD-STE100, rules 5.1 and 6.1, as quoted in summaries. A number with its unit is one word, a
    hyphenated word is one (our count).
    """
    for step in listing.steps:
        written = step.written
        texts = [
            (text, wording.instruction) for text in (written.do, written.second_check, written.if_not) if text
        ]
        for text, most in [*texts, (written.expect, wording.description)]:
            for sentence in re.split(r"(?<=[.!?])\s+", text):
                length = words_in(sentence)
                if length > most:
                    words = (
                        f"a sentence of {length} words, longer than {most}: {sentence.split()[0]} ... "
                        f"{sentence.split()[-1]}"
                    )
                    yield of_text(listing, "V091", step, (words, "make two sentences of it"), place_of(text))


def words_in(sentence: str) -> int:
    """Count the words of a sentence; a number with its unit and a limit in braces are one word each."""
    return len(_UNIT.sub("_", sentence).split())


def tools_listed(listing: Listing) -> Iterator[Fault]:
    """A tool that a step names, under tool or in its words, is among the tools of its list: laid out.

    Source: common practice, no source.
    """
    tools = [tool.lower() for tool in listing.procedure.tools]
    known = frozenset().union(*(tokens(tool) for tool in tools))
    for step in listing.steps:
        written = step.written
        missing = [
            (str(tool), place_of(tool))
            for tool in (written.tool,)
            if tool and not any(tool.lower() in one for one in tools)
        ]
        missing += [
            (word, place_of(text))
            for text in (written.do, written.second_check)
            for word in _WITH_TOOL.findall((text or "").lower())
            if word not in known
        ]
        for tool, place in missing[:1]:
            words = (
                f"the tool {tool!r} is not among the tools of this list",
                f"add it to tools: {', '.join(listing.procedure.tools) or 'none yet'}",
            )
            yield of_words(listing, "V092", step, words, place)


_WITH_TOOL = re.compile(
    rf"\b(?:with|using|use|by) (?:a |an |the )?(?:[\w-]+ ){{0,2}}?({'|'.join(sorted(TOOLS))})\b"
)


def answers_tell(listing: Listing) -> Iterator[Fault]:
    """The expected state is what is seen or a value, not that somebody looked.

    Source: "the response is the desired status, not checked", Degani and Wiener as read in summaries.
    """
    for step in listing.steps:
        if step.written.expect.lower().rstrip(".!") in SAYS_NOTHING:
            words = f"the expected state says nothing that can be seen: {str(step.written.expect)!r}"
            yield of_text(
                listing, "V104", step, (words, "write what is seen or read"), place_of(step.written.expect)
            )


def times_fit(listing: Listing) -> Iterator[Fault]:
    """The times of the steps together are no longer than the time of the list.

    Source: own reasoning (a crew plans its daylight by the head of the list).
    """
    duration = listing.procedure.duration
    times = [step.written.time.value for step in listing.steps if step.written.time]
    if duration and sum(times) > duration.value:
        words = f"the steps take {sum(times) / 60:.0f} min together, and the list says {duration.text}"
        yield of_text(listing, "V063", None, (words, "write the longer time at the head of the list"))


def stops_named(listing: Listing) -> Iterator[Fault]:
    """A list in which several parts are put on or taken off names a point at which the crew may stop.

    Source: own reasoning (rain and darkness stop every crew; only a named point is tried for its way back).
    """
    moved = {doing.name for doing in listing.doings if doing.verb in ("place", "remove")}
    kind = listing.procedure.kind
    if (
        kind in ("rigging", "de-rigging")
        and len(moved) > 1
        and not any(one.stop for one in listing.procedure.sections)
    ):
        words = f"{len(moved)} parts are moved, and no section says that the crew may stop behind it"
        yield of_text(
            listing, "V102", None, (words, "write  stop: true  at each section behind which it may")
        )


def references_exist(listing: Listing, titles: Collection[str]) -> Iterator[Fault]:
    """Another list that a step sends the reader to exists under that title.

    Source: own reasoning.
    """
    texts = [(step, text) for step in listing.steps for text in _texts(step)]
    for step, text in (*texts, (None, listing.procedure.closing)):
        for found in _QUOTED.finditer(text):
            if found["title"] not in titles:
                words = f"there is no list or section with the title {found['title']!r}"
                yield of_text(
                    listing, "V093", step, (words, "write the title as it stands there"), place_of(text)
                )


def _texts(step: Step) -> Iterator[str]:
    written = step.written
    yield from (text for text in (written.do, written.expect, written.second_check, written.if_not) if text)
