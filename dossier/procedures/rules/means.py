"""Does a step name what rigging.yaml says it needs: a remedy, a tool, a picture, a hand?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from dossier.located import place_of
from dossier.procedures.fault import Fault, of_words
from dossier.procedures.listing import Doing, Listing, Step
from dossier.procedures.rules.vocabulary import PULLS, verbs
from dossier.procedures.system import System


def remedy_named(listing: Listing, system: System) -> Iterator[Fault]:
    """A step whose act or check must have a remedy says what to do if it does not go, itself or, where it is
    not critical, in its section.

    Source: own reasoning (whoever is stopped half way, in wind, decides by what stands there).
    """
    if listing.procedure.kind == "emergency":
        return
    for step in listing.steps:
        section = listing.procedure.sections[step.section]
        has_one = step.written.if_not or (section.if_not and not step.written.critical)
        doing = next((one for one in step.doings if _needs_remedy(one, system)), None)
        if doing and not has_one:
            words = (
                f"nothing says what to do if this fails: {doing.verb!r} of the {system.called(doing.name)}"
            )
            remedy = "write  if_not: ...  ; rigging.yaml asks for it"
            yield of_words(listing, "V115", step, (words, remedy), place_of(step.written.do))


def _needs_remedy(doing: Doing, system: System) -> bool:
    if doing.verb == "check":
        return system.checks[doing.name].remedy
    joint = system.connections.get(doing.name)
    return joint is not None and not doing.second and doing.verb in joint.remedy


def tool_named(listing: Listing, system: System) -> Iterator[Fault]:
    """A step that cannot be done well without a tool names it, under ``tool`` or in its words.

    Source: own reasoning (what is not at hand on the field is replaced by a guess).
    """
    if listing.procedure.kind == "emergency":
        return
    for step in listing.steps:
        for doing in step.doings:
            tool = _tool(doing, system)
            if tool and not doing.second and not _is_named(tool, step):
                words = f"{doing.verb!r} of the {system.called(doing.name)} needs a tool: {tool}"
                remedy = f"write  tool: {tool}  ; rigging.yaml asks for it"
                yield of_words(listing, "V116", step, (words, remedy), place_of(step.written.do))


def _tool(doing: Doing, system: System) -> str | None:
    if doing.verb == "check":
        return system.checks[doing.name].tool
    joint = system.connections.get(doing.name)
    return joint.tools.get(doing.verb) if joint else None


def _is_named(tool: str, step: Step) -> bool:
    """Whether every word of the tool stands in the step, such as ``torque`` and ``wrench``."""
    written = step.written
    said = " ".join(
        filter(None, map(_text, (written.tool, written.do, written.expect, written.second_check)))
    )
    return set(re.findall(r"[a-z]+", tool.lower())) <= set(re.findall(r"[a-z]+", said.lower()))


def _text(text: str | None) -> str:
    return str(text or "")


def picture_shown(listing: Listing, system: System) -> Iterator[Fault]:
    """The first step that does what rigging.yaml shows by a picture has one.

    Source: own reasoning (how a joint that is home looks is seen faster than read).
    """
    seen: set[tuple[str, str]] = set()
    for step in listing.steps:
        for doing in step.doings:
            joint, key = system.connections.get(doing.name), (doing.verb, doing.name)
            kinds = joint.pictures.get(doing.verb, ()) if joint and not doing.second else ()
            if listing.procedure.kind not in kinds or key in seen:
                continue
            seen.add(key)
            if step.written.picture is None:
                words = f"no picture shows how the {system.called(doing.name)} must look"
                remedy = "add  picture: {file: ..., shows: ...}  ; rigging.yaml asks for it"
                yield of_words(listing, "V117", step, (words, remedy), place_of(step.written.do))


def by_hand(listing: Listing, system: System) -> Iterator[Fault]:
    """A check that a look does not show is not only looked at in words: its command pulls, pushes, presses or
    lifts.

    Source: own reasoning (a strap that is sewn half through looks whole).
    """
    for step in listing.steps:
        doing = next((one for one in step.doings if one.verb == "check" and not one.second), None)
        if doing is None or not system.checks[doing.name].by_hand:
            continue
        done = verbs(step.written.do)
        if not done & PULLS:
            words = f"a look does not show this: {system.called(doing.name)}"
            remedy = "write what is pulled, pushed, pressed or lifted; rigging.yaml asks for it"
            yield of_words(listing, "V118", step, (words, remedy), place_of(step.written.do))
