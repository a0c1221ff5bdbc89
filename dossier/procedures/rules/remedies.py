"""Does every check of a preflight and of an inspection say what to do if it fails, and every reading what it
may be?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from dossier.located import place_of
from dossier.model.aircraft import PLACEHOLDER
from dossier.procedures.acts import CHECKING
from dossier.procedures.fault import Fault, of_words
from dossier.procedures.listing import Listing, Step
from dossier.procedures.rules.vocabulary import MAKES, QUANTITIES, READS, UNDOES, WORKS, numbers_in, tokens

_LOOKS_AT = (*CHECKING, "check", "count", "see_isolated", "clear_propeller")
_NONE = re.compile(r"\b(?:no|none|neither|nothing|calm)\b|\d")


def remedied(listing: Listing) -> Iterator[Fault]:
    """A check of a preflight or an inspection says what to do if it fails, itself or in its section; a
    critical one
    itself.

    Source: own reasoning (whoever finds a fault alone on a field, late, decides by what stands there).
    """
    if listing.procedure.kind not in ("preflight", "inspection"):
        return
    for step in listing.steps:
        written, section = step.written, listing.procedure.sections[step.section]
        if written.if_not is not None or not _checks(step) or (section.if_not and not written.critical):
            continue
        words = "this check says nothing of what to do if it fails"
        if section.if_not:
            words = "this check is critical, and only its section says what to do if it fails"
        remedy = "write  if_not: ...  such as: Do not fly. Call the builder."
        yield of_words(listing, "V107", step, (words, remedy), place_of(written.do))


def readings(listing: Listing) -> Iterator[Fault]:
    """A step that reads or measures says in its expected state which values are right.

    Source: own reasoning (a gauge that is read against nothing is not read).
    """
    if listing.procedure.kind == "emergency":
        return
    for step in listing.steps:
        written = step.written
        expect = str(written.expect)
        told = PLACEHOLDER.search(expect) or numbers_in(expect) or _NONE.search(expect.lower())
        if (
            not told
            and first_word(step) in READS
            and (first_word(step) != "read" or tokens(written.do) & QUANTITIES)
        ):
            words = f"this reads a value, and the expected state has none: {expect!r}"
            remedy = "write the number, or a limit of aircraft.yaml in braces"
            yield of_words(listing, "V108", step, (words, remedy), place_of(written.expect))


def first_word(step: Step) -> str:
    """Return the first word of the command, small."""
    return next(iter(re.findall(r"[a-z]+", str(step.written.do).lower())), "")


def _checks(step: Step) -> bool:
    if step.written.second_check is not None or any(doing.verb in _LOOKS_AT for doing in step.doings):
        return True
    return not step.doings and first_word(step) not in (*MAKES, *UNDOES, *WORKS)
