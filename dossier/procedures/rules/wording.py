"""Can the list be read by cold hands in the wind? One action a step, short sentences, tools and lists that
exist."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from dossier.located import place_of
from dossier.model.rigging import Wording
from dossier.procedures.acts import CHECKING
from dossier.procedures.fault import Fault, of_text
from dossier.procedures.listing import Listing, Step

_STILL = (*CHECKING, "check", "count", "see_isolated", "clear_propeller", "pause", "resume")
_ACTIONS = (
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
)
_SECOND_ACTION = re.compile(rf"(?:,|\band\b|,? then\b) (?:then )?(?P<verb>{'|'.join(_ACTIONS)})\b")
_FIRST_WORD = re.compile(rf"^(?:{'|'.join(_ACTIONS)})\b", re.IGNORECASE)
_QUOTED = re.compile(r'(?:[Gg]o (?:to|through|on with)|state in which|procedure|list|in) "(?P<title>[^"]+)"')
_UNIT = re.compile(r"(?<=\d) (?=(?:in-lb|ft-lb|N m|km|kg|lb|kt|mph|min|mm|cm|ft|in|m|s|h|V|A|kW|%|°C|°F)\b)")


def one_action(listing: Listing) -> Iterator[Fault]:
    """A step is one action; a step with two says why they cannot be parted.

    Source: ASD-STE100, rule 5.2 as quoted in a summary sheet (one instruction a sentence unless
    simultaneous); a tick must mean one fact.
    """
    for step in listing.steps:
        if step.written.together is not None:
            continue
        doing = [one for one in step.doings if not one.second and one.verb not in _STILL]
        found = (
            _SECOND_ACTION.search(step.written.do)
            if _FIRST_WORD.match(step.written.do) and step.doings
            else None
        )
        if len(doing) > 1:
            words = (
                f"this step does two things: {doing[0].verb} {doing[0].name}, {doing[1].verb} {doing[1].name}"
            )
        elif found:
            words = f"this step tells two things to do: {found['verb']!r} is the second"
        else:
            continue
        yield of_text(
            listing,
            "V090",
            step,
            (words, "make two steps of it, or say under together why they cannot be parted"),
        )


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
    """A tool that a step names is among the tools of its list, so that it is laid out and counted.

    Source: common practice, no source.
    """
    tools = [tool.lower() for tool in listing.procedure.tools]
    for step in listing.steps:
        tool = step.written.tool
        if tool is not None and not any(tool.lower() in one for one in tools):
            yield of_text(
                listing,
                "V092",
                step,
                (
                    f"the tool {str(tool)!r} is not among the tools of this list",
                    f"add it to tools: {', '.join(listing.procedure.tools) or 'none yet'}",
                ),
                place_of(tool),
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
