"""Do the words ask for less than the acts: a look for a pull, a plain step for a critical one, a torque by
hand?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from dossier.located import place_of
from dossier.procedures.acts import CHECKING
from dossier.procedures.fault import Fault, of_text, of_words
from dossier.procedures.listing import Doing, Listing
from dossier.procedures.rules.vocabulary import EYES, MAKES, PULLS, UNDOES, WORKS, tokens, verbs
from dossier.procedures.system import System

_TRIED = ("pull_test", "positive_check")
_WORK = PULLS | MAKES | UNDOES | WORKS
_SECOND = re.compile(r"(?:\band|\bthen|\bto|,|\.) ([a-z]+)")
_DONE = (
    *("fetch", "place", "remove", "stow", "engage", "lock", "torque", "safety", "release", "unlock", "open"),
    *("cover", "uncover", "set", "isolate", "energise"),
)


def pull_told(listing: Listing, system: System) -> Iterator[Fault]:
    """The words of a pull test pull, push, lift or move what is tried: a look finds no connector that is not
    home.

    Source: BGA, Safe rigging as quoted (every connector is pulled); own reasoning for which words are one.
    """
    for step in listing.steps:
        written = step.written
        for text, second in ((written.do, False), (written.second_check, True)):
            doing = next((one for one in step.doings if one.verb in _TRIED and one.second is second), None)
            if doing and text is not None and not verbs(text) & (PULLS | {"against"}) and not written.differs:
                did = "pulls at" if doing.verb == "pull_test" else "loads"
                words = f"the act {did} the {system.called(doing.name)}, and the words do not"
                yield of_words(
                    listing, "V095", step, (words, "write what is pulled or pressed"), place_of(text)
                )


def more_than_a_look(listing: Listing, system: System) -> Iterator[Fault]:
    """A step whose act moves, fits or switches something does not only look at it in words.

    Source: own reasoning (whoever follows the words has done nothing).
    """
    for step in listing.steps:
        said = frozenset(_SECOND.findall(str(step.written.do).lower()))
        doing = next((one for one in step.doings if not one.second and one.verb in _DONE), None)
        looks = next((word for word in re.findall(r"[a-z]+", str(step.written.do).lower())), "") in EYES
        if doing and looks and not said & _WORK and not step.written.differs:
            words = f"the words only look, and the act is {doing.verb!r} of the {system.called(doing.name)}"
            yield of_words(listing, "V095", step, (words, "write what is done"), place_of(step.written.do))


def called_critical(listing: Listing, system: System) -> Iterator[Fault]:
    """A step whose second check looks at something flight-critical is called critical: page and card then say
    so.

    Source: own reasoning (what can cost the aircraft is told from what cannot, in words).
    """
    for step in listing.steps:
        seconded = step.written.second_check is not None
        doing = next(
            (
                one
                for one in step.doings
                if (one.second or (seconded and one.verb in CHECKING)) and _is_critical(one, system)
            ),
            None,
        )
        if doing and not step.written.critical:
            called = system.called(doing.name)
            words = f"the second check is of the {called}, which is critical, and the step is not"
            yield of_text(listing, "V105", step, (words, "write  critical: true"), step.place)


def _is_critical(doing: Doing, system: System) -> bool:
    known = system.connections.get(doing.name) or system.checks.get(doing.name)
    return known is not None and known.critical


def torque_tool(listing: Listing) -> Iterator[Fault]:
    """A step with a torque names the tool that shows it.

    Source: own reasoning (no hand feels 35 in-lb).
    """
    for step in listing.steps:
        written = step.written
        said = tokens(" ".join(str(text) for text in (written.tool, written.do, written.expect) if text))
        if written.torque and written.tool is None and not said & {"wrench", "driver"}:
            words = "this tightens to a torque, and no word names the tool that shows it"
            yield of_text(listing, "V114", step, (words, "write  tool: ...  with the wrench"), step.place)
