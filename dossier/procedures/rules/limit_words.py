"""Does a ``{limit}`` fit the words around it: what it limits, from which side, and what it is for?"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from dossier.located import place_of
from dossier.model.aircraft import PLACEHOLDER, Limit
from dossier.procedures.fault import Fault, of_words
from dossier.procedures.listing import Listing, Step
from dossier.procedures.rules.vocabulary import tokens
from dossier.procedures.system import System

LOWEST = frozenset(["minimum", "lowest", "least", "coldest", "smallest", "lightest", "shortest"])
HIGHEST = frozenset(
    [
        "maximum",
        "highest",
        "most",
        "largest",
        "strongest",
        "hottest",
        "warmest",
        "heaviest",
        "longest",
        "deepest",
    ]
)
_EMPTY = frozenset(
    (
        *("a", "an", "and", "at", "between", "by", "for", "from", "in", "is", "it", "its", "less", "more"),
        *("no", "not", "of", "on", "or", "than", "the", "to", "which", "with", "within"),
    )
)
_MOST = re.compile(
    r"(?:at most|not more than|no more than|not over|(?<!not )(?<!no )less than|under|below)\s*$"
)
_LEAST = re.compile(r"(?:at least|not less than|no less than|above|(?<!not )(?<!no )more than)\s*$")
_OR_LESS = re.compile(r"^\s*(?:or less|or below|or lower|at most)\b")
_OR_MORE = re.compile(r"^\s*(?:or more|or above|or higher|at least)\b")
_RANGE = re.compile(r"(?:[Bb]etween \{(\w+)\} and|\{(\w+)\} to) \{(\w+)\}")
_PHRASE = re.compile(r"[,;.:]|\band\b")
_MEASURED: Mapping[str, frozenset[str]] = {
    "wind": frozenset(["speed"]),
    "temperature": frozenset(["temperature"]),
    "pressure": frozenset(["pressure"]),
    "resistance": frozenset(["resistance"]),
    "insulation": frozenset(["resistance"]),
    "voltage": frozenset(["voltage"]),
    "spread": frozenset(["voltage"]),
    "cell": frozenset(["voltage", "temperature"]),
    "charge": frozenset(["ratio", "voltage", "time", "temperature"]),
    "capacity": frozenset(["ratio", "charge", "energy"]),
    "play": frozenset(["length", "angle"]),
    "mass": frozenset(["mass"]),
    "weight": frozenset(["mass"]),
    "force": frozenset(["force"]),
}
"""Word -> the kinds of quantity that it may stand for."""
_PURPOSES = (
    ("charging", re.compile(r"charg"), ("charging",)),
    ("storage", re.compile(r"stor"), ("storage",)),
    ("land", re.compile(r"\bland"), ("after-flight",)),
    ("road", re.compile(r"road|transport|trailer"), ("transport",)),
    ("rigging", re.compile(r"rig|moun|wing up"), ("rigging", "de-rigging")),
    ("take-off", re.compile(r"take[- ]off|fly|flight"), ("preflight",)),
)
"""Word in the name of a limit, what a list that uses it speaks of, and the kinds of list that are for it."""


def limits_fit(listing: Listing, system: System) -> Iterator[Fault]:
    """A limit stands where its own words stand: not that of another thing, from the wrong side or for another
    use.

    Source: own reasoning (maximum wind and crosswind exchanged read as well as they should).
    """
    limits = system.aircraft.limits
    for step in listing.steps:
        written = step.written
        texts = [written.do, written.expect, written.second_check]
        if written.on_card:
            texts += [written.on_card.do, written.on_card.expect, written.on_card.second_check]
        for text in (text for text in texts if text):
            wrong = next(_wrong(str(text), step, listing, limits), None)
            if wrong:
                remedy = "write the limit that is meant; if it is this one, say so in its words"
                yield of_words(listing, "V109", step, (wrong, remedy), place_of(text))


def _wrong(text: str, step: Step, listing: Listing, limits: Mapping[str, Limit]) -> Iterator[str]:
    for found in _RANGE.finditer(text):
        lower, upper = (name for name in found.groups() if name)
        low, high = limits.get(lower), limits.get(upper)
        if low and high and (low.value.kind != high.value.kind or low.value.value >= high.value.value):
            yield f"{{{lower}}} and {{{upper}}} are no range: {low.value.text} to {high.value.text}"
    for found in PLACEHOLDER.finditer(text):
        limit = limits.get(found[1])
        if limit is not None:
            phrase, before = _around(text, found)
            yield from _of_another(found[1], phrase, limits)
            if len(PLACEHOLDER.findall(text)) == 1:
                yield from _better_named(
                    found[1], f"{phrase} {PLACEHOLDER.sub(' ', str(step.written.do))}", limits
                )
            yield from _of_another_kind(found[1], limit, phrase, str(step.written.do))
            yield from _from_the_wrong_side(found[1], limit, before, text[found.end() :])
            yield from _for_another_use(found[1], limit, step, listing)
            yield from _of_this_use(found[1], listing, limits)
            yield from _of_what_is_measured(
                found[1], f"{step.written.do} {text}", limits, str(step.written.do)
            )


def _around(text: str, found: re.Match[str]) -> tuple[str, str]:
    """Return the phrase in which a placeholder stands, without placeholders, and what of it stands before."""
    starts = [one.end() for one in _PHRASE.finditer(text) if one.end() <= found.start()]
    ends = [one.start() for one in _PHRASE.finditer(text) if one.start() >= found.end()]
    start, end = max(starts, default=0), min(ends, default=len(text))
    return PLACEHOLDER.sub(" ", text[start:end]), text[start : found.start()]


def _of_another(name: str, phrase: str, limits: Mapping[str, Limit]) -> Iterator[str]:
    """The words name what another limit of the same kind is of, and nothing that this one is of."""
    said, own = _said(phrase), _words(limits[name])
    for other, limit in limits.items():
        if other == name or limit.value.kind != limits[name].value.kind:
            continue
        theirs, mine = _words(limit) - own, own - _words(limit)
        if theirs & said and not mine & said and len(theirs & said) >= min(len(theirs), 1 + bool(own & said)):
            yield f"{{{name}}} is {str(limits[name].name)!r}, and the words are those of {str(limit.name)!r}"
            return


def _better_named(name: str, text: str, limits: Mapping[str, Limit]) -> Iterator[str]:
    """Command and phrase together have two words or more of another limit of the kind, and fewer of this
    one."""
    said, own = _said(text), _words(limits[name])
    for other, limit in limits.items():
        theirs = len(_words(limit) & said) if limit.value.kind == limits[name].value.kind else 0
        if other != name and theirs > max(1, len(own & said)):
            yield f"{{{name}}} is {str(limits[name].name)!r}, and the words are those of {str(limit.name)!r}"
            return


def _of_what_is_measured(name: str, text: str, limits: Mapping[str, Limit], do: str) -> Iterator[str]:
    """The command names one thing that other limits of the kind are of, and this one is of nothing that is
    said."""
    limit, things = limits[name], sorted(_said(PLACEHOLDER.sub(" ", do)) & _MEASURED.keys())
    if len(things) != 1 or _words(limit) & _said(PLACEHOLDER.sub(" ", text)):
        return
    for other in limits.values():
        if other.value.kind == limit.value.kind in _MEASURED[things[0]] and things[0] in _words(other):
            yield f"{{{name}}} is {str(limit.name)!r}, and the words are those of {str(other.name)!r}"
            return


def _of_another_kind(name: str, limit: Limit, phrase: str, do: str) -> Iterator[str]:
    for words in (tokens(phrase), tokens(phrase) | tokens(PLACEHOLDER.sub(" ", do))):
        kinds = [_MEASURED[word] for word in sorted(words) if word in _MEASURED]
        if kinds and not any(limit.value.kind in one for one in kinds):
            called = f"{{{name}}} is {str(limit.name)!r}, a {limit.value.kind}"
            yield f"{called}, and the words speak of another thing"
            return


def _from_the_wrong_side(name: str, limit: Limit, before: str, behind: str) -> Iterator[str]:
    words = tokens(limit.name)
    most = _MOST.search(before.lower()) or _OR_LESS.match(behind.lower())
    least = _LEAST.search(before.lower()) or _OR_MORE.match(behind.lower())
    if (most and words & LOWEST and not words & HIGHEST) or (
        least and words & HIGHEST and not words & LOWEST
    ):
        side = "most" if most else "least"
        yield f"{{{name}}} is {str(limit.name)!r}, and the words take it for the {side} that may be"


def _for_another_use(name: str, limit: Limit, step: Step, listing: Listing) -> Iterator[str]:
    section = listing.procedure.sections[step.section]
    texts = [
        listing.procedure.title,
        section.title,
        step.written.do,
        step.written.expect,
        step.written.if_not or "",
    ]
    around = PLACEHOLDER.sub(" ", " ".join(map(str, texts)).lower())
    uses = [one for one in _PURPOSES if one[0] in str(limit.name).lower()]
    if uses and not any(listing.procedure.kind in kinds or said.search(around) for _, said, kinds in uses):
        yield f"{{{name}}} is {str(limit.name)!r}, and this step is for another use"


def _of_this_use(name: str, listing: Listing, limits: Mapping[str, Limit]) -> Iterator[str]:
    """Another limit is the one for lists of this kind: it has all that this one is of, or this one is for
    flight."""
    limit, kind = limits[name], str(listing.procedure.kind)
    for use in (one[0] for one in _PURPOSES if kind in one[2]):
        for other in limits.values():
            theirs = use in str(other.name).lower() and use not in str(limit.name).lower()
            if theirs and other.value.kind == limit.value.kind and _less_fitting(limit, other, kind):
                yield f"{{{name}}} is {str(limit.name)!r}, and for this list there is {str(other.name)!r}"
                return


def _less_fitting(limit: Limit, other: Limit, kind: str) -> bool:
    own, theirs = _words(limit), _words(other)
    for_flight = "flight" in own and kind not in ("preflight", "after-flight")
    return own < theirs or (for_flight and bool(own & theirs & _MEASURED.keys()))


def _words(limit: Limit) -> frozenset[str]:
    return _said(str(limit.name))


def _said(text: str) -> frozenset[str]:
    """Return the words that tell one limit from another; a crosswind blows across."""
    return tokens(re.sub(r"\bcrosswind\b", "wind across", text.lower())) - _EMPTY - LOWEST - HIGHEST
