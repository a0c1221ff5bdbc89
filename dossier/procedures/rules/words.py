"""Do the words of a step and its acts say the same? People follow the words; the replay follows the acts."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from dossier.located import place_of
from dossier.procedures.fault import Fault, of_words
from dossier.procedures.listing import Doing, Listing, Step, named
from dossier.procedures.rules.vocabulary import (
    LOOKS,
    MAKES,
    READS,
    SIDES,
    SPEAKS,
    TOOLS,
    UNDOES,
    significant,
    tokens,
)
from dossier.procedures.system import System

_MAKING = ("engage", "lock", "torque", "safety", "place", "cover")
_UNDOING = ("release", "unlock", "open", "remove", "uncover")
_LOOKING = ("look", "inspect", "pull_test")
CORRECT = "correct the words or the acts; if both are right, say why under differs"


def same_side(listing: Listing, system: System) -> Iterator[Fault]:
    """A step whose words name one side does not act on the other side alone.

    Source: ATSB 199504285 (left and right exchanged, seen by nobody in four inspections); own reasoning.
    """
    for step, text, doings in _texts(listing):
        said = tokens(text)
        for pair in SIDES:
            for one, other in (pair, pair[::-1]):
                touched = {side for doing in doings for side in pair if side in _called(doing.name, system)}
                if one in said and other not in said and touched == {other}:
                    words = f"the words say {one}, and the acts work on the {_first(doings, other, system)}"
                    yield of_words(listing, "V094", step, (words, CORRECT), place_of(text))


def same_thing(listing: Listing, system: System) -> Iterator[Fault]:
    """A step whose words name a joint, a part or a cover whole acts on it, or on another that they name.

    Source: own reasoning.
    """
    for step, text, doings in _texts(listing):
        said, acted = tokens(text), [doing.name for doing in doings if doing.name in _named_things(system)]
        if not acted or any(significant(system.called(name)) & said for name in acted):
            continue
        for name in _named_things(system):
            if name not in acted and _whole_name(name, system) <= said:
                other = system.called(acted[0])
                words = f"the words name the {system.called(name)}, and the acts work on the {other}"
                yield of_words(listing, "V095", step, (words, CORRECT), place_of(text))
                break


def same_direction(listing: Listing, system: System) -> Iterator[Fault]:
    """A step whose first word joins something joins it, one that opens opens, and one that looks looks.

    Source: own reasoning.
    """
    for step in listing.steps:
        doings = [
            one for one in step.doings if not one.second and one.verb in (*_MAKING, *_UNDOING, *_LOOKING)
        ]
        verbs, first = {one.verb for one in doings}, _first_word(step)
        makes = first in MAKES and not verbs & {*_MAKING}
        undoes = first in UNDOES and not verbs & {*_UNDOING}
        looks = first in LOOKS and not verbs & {*_LOOKING}
        if doings and not step.written.differs and (makes or undoes or looks):
            called = system.called(doings[0].name)
            words = f"the words say {first!r}, and the act is {doings[0].verb!r} of the {called}"
            yield of_words(listing, "V095", step, (words, CORRECT), place_of(step.written.do))


def acted_on(listing: Listing, system: System) -> Iterator[Fault]:
    """A step that lays a hand on something says so in its acts as well.

    In a list that is replayed that is every step that names a joint, a cover, a part, a loose item, a
    setting, a circuit or a tool, and begins with a word that neither looks nor speaks. In one that is only
    read it is a step whose first word joins or parts.

    Source: own reasoning (a replay cannot see what stands only in words).
    """
    procedure = listing.procedure
    if procedure.kind == "emergency":
        return
    for step in listing.steps:
        text, first = step.written.do, _first_word(step)
        joins = first in MAKES or first in UNDOES
        still = first in LOOKS or first in SPEAKS or first in READS
        if step.doings or step.written.differs or not (joins or (listing.is_replayed and not still)):
            continue
        found = _handled(text, system, every=listing.is_replayed)
        if found:
            words = f"this works on the {found} in words, and no act says so"
            yield of_words(listing, "V098", step, (words, "add the act"), place_of(text))
        elif joins and procedure.kind in ("rigging", "de-rigging"):
            words = "this joins or parts something in words, and no act says what"
            remedy = "add the act, and what it works on to rigging.yaml if it is not there"
            yield of_words(listing, "V098", step, (words, remedy), place_of(text))


def _handled(text: str, system: System, *, every: bool) -> str | None:
    """Return the words for the first thing that a text names whole: joints first, tools last."""
    said = tokens(text)
    parts = (name for name in system.parts if not system.parts[name].fixed)
    names = (*system.connections, *system.covers, *parts)
    more = (*system.items, *system.settings, *system.circuits) if every else ()
    found = next((name for name in (*names, *more) if _whole_name(name, system) <= said), None)
    if found is not None:
        return system.called(found)
    return next(iter(sorted(TOOLS & said)), None) if every else None


def said_by_second(listing: Listing, system: System) -> Iterator[Fault]:
    """A second check that the acts have is asked for in words: who works from the list reads nothing else.

    Source: own reasoning; GFA 6.3 as quoted (the second look is what the list is for).
    """
    for step in listing.steps:
        acts = [doing for doing in step.doings if doing.second]
        if acts and step.written.second_check is None:
            called = system.called(acts[0].name)
            words = f"a second check of the {called} stands in the acts, and no word asks for it"
            yield of_words(listing, "V099", step, (words, "write second_check, or take second_acts out"))


def same_people(listing: Listing, system: System) -> Iterator[Fault]:
    """Whoever a step names is who its acts say, and whoever the second check names makes it.

    Source: GFA 6.3 as quoted (another person inspects); own reasoning.
    """
    people = system.rigging.people
    for step in listing.steps:
        written = step.written
        for text, acts in (
            (written.by, [doing for doing in step.doings if not doing.second and doing.act.by]),
            (written.second_check, [doing for doing in step.doings if doing.second]),
        ):
            said = set(named(text, people))
            for doing in acts:
                if said and not said & set(doing.people) and not written.differs:
                    who = " and ".join(people[one].name for one in doing.people if one in people)
                    words = f"the words name {_people(said, system)}, and the act {doing.verb} names {who}"
                    yield of_words(listing, "V097", step, (words, CORRECT), place_of(text))
                    break


def _people(roles: Collection[str], system: System) -> str:
    return " and ".join(str(one.name) for role, one in system.rigging.people.items() if role in roles)


def _texts(listing: Listing) -> Iterator[tuple[Step, str, list[Doing]]]:
    """List each command with the acts that stand for it: the step itself, and its second check."""
    for step in listing.steps:
        written, card = step.written, step.written.on_card
        if written.differs:
            continue
        texts = [(written.do, False), (written.second_check, True)]
        texts += [(card.do, False), (card.second_check, True)] if card else []
        for text, second in texts:
            doings = [doing for doing in step.doings if doing.second is second and doing.name]
            if text and doings:
                yield step, text, doings


def _whole_name(name: str, system: System) -> frozenset[str]:
    return tokens(system.called(name)) - {"the", "of", "and", "for", "a"}


def _first_word(step: Step) -> str:
    return next(iter(re.findall(r"[a-z]+", step.written.do.lower())), "")


def _named_things(system: System) -> tuple[str, ...]:
    return (*system.connections, *system.covers, *system.parts)


def _called(name: str, system: System) -> frozenset[str]:
    return tokens(f"{system.called(name)} {name.replace('-', ' ')}")


def _first(doings: list[Doing], side: str, system: System) -> str:
    return next(system.called(doing.name) for doing in doings if side in _called(doing.name, system))
