"""Do the words of a step have each control surface go the way in which rigging.yaml has it go?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from dossier.located import place_of
from dossier.model.movement import Movement
from dossier.procedures.fault import Fault, of_words
from dossier.procedures.listing import Doing, Listing, Step
from dossier.procedures.rules.directions import said, texts_of
from dossier.procedures.rules.vocabulary import DIRECTIONS
from dossier.procedures.system import System


def ways_right(listing: Listing, system: System) -> Iterator[Fault]:
    """Where words say which way a surface goes with its control, they say what rigging.yaml has: in the
    command, the
    expected state, the second check and on the card, in every list.

    Source: GFA 6.3 as quoted (right sense); ATSB 199504285 (crossed ailerons passed four inspections).
    """
    everything = _everything(system)
    for step in listing.steps:
        told: set[str] = set()
        for texts in texts_of(step.written):
            for text, found in said(texts, everything, tuple(_own(step, system))):
                if found.is_wrong and text not in told:
                    told.add(text)
                    words = (
                        f"with the {_control(found.movement.control, found.moves)} the words have the "
                        f"{found.movement.surface.lower()} go {found.goes}, "
                        f"and rigging.yaml has it go {found.right}"
                    )
                    remedy = (
                        "correct the words; if they are right, correct  ways  in rigging.yaml and look again"
                    )
                    yield of_words(listing, "V106", step, (words, remedy), place_of(text))


def ways_told(listing: Listing, system: System) -> Iterator[Fault]:
    """A step that moves a control says which way its surface goes: free movement alone is no answer.

    Source: GFA 6.3 as quoted (right sense); ATSB 199504285 (crossed ailerons passed four inspections).
    """
    everything = _everything(system)
    for step in listing.steps:
        whole = next(texts_of(step.written))
        told = {str(one.movement.surface) for _, one in said(whole, everything, tuple(_own(step, system)))}
        missing = next(
            (one for one in _directed(step, system) if not _is_told(one, told, whole, system)), None
        )
        if missing:
            words = (
                f"this moves the {system.called(missing.name)}, and no word says which way the surface goes"
            )
            remedy = "write the way that is seen, such as: The left aileron is up."
            yield of_words(listing, "V034", step, (words, remedy), place_of(step.written.expect))


def _directed(step: Step, system: System) -> Iterator[Doing]:
    """List the acts of a step that look at a direction."""
    for doing in step.doings:
        senses = doing.verb == "sense" and system.connections[doing.name].kind == "manual control"
        if senses or (doing.verb == "check" and system.checks[doing.name].ways):
            yield doing


def _is_told(doing: Doing, told: set[str], whole: tuple[str, ...], system: System) -> bool:
    ways = tuple(_ways_of(doing.name, system))
    if ways:
        return bool({one.surface for one in ways} & told)
    return bool(frozenset(re.findall(r"[a-z]+", " ".join(whole[1:]).lower())) & DIRECTIONS)


def _control(control: str, moves: str) -> str:
    side = moves in ("left", "right") and control.lower() in ("pedal", "foot", "thumb", "hand")
    return f"{moves} {control.lower()} forward" if side else f"{control.lower()} {moves}"


def _own(step: Step, system: System) -> Iterator[Movement]:
    for name in dict.fromkeys(doing.name for doing in step.doings):
        yield from _ways_of(name, system)


def _ways_of(name: str, system: System) -> Iterator[Movement]:
    one = system.connections.get(name) or system.checks.get(name)
    yield from one.ways if one else ()


def _everything(system: System) -> tuple[Movement, ...]:
    of_checks = (way for one in system.checks.values() for way in one.ways)
    return (*(way for one in system.connections.values() for way in one.ways), *of_checks)
