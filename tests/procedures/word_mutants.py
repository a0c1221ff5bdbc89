"""Spoiled words: the acts stay as they are, and the text says another side or another number."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from dossier.model.procedure import ProcedureStep
from dossier.procedures.listing import Step

_SIDES = {"left": "right", "right": "left", "upper": "lower", "lower": "upper"}
_SIDE = re.compile(rf"\b({'|'.join(_SIDES)})\b")
_NEXT = {
    "two": "three",
    "three": "four",
    "four": "five",
    "six": "seven",
    "seven": "eight",
    "ten": "eleven",
}
_NUMBER = re.compile(rf"\b({'|'.join(_NEXT)})\b", re.IGNORECASE)


def spoiled_words(step: Step, other: Mapping[str, str]) -> Iterator[tuple[str, ProcedureStep]]:
    """Make each mutant of one step's words.

    Args:
        step: of a good list.
        other: an object -> its twin on the other side.
    """
    written = step.written
    first = [doing.name for doing in step.doings if not doing.second]
    if len(set(first)) == 1 and first[0] in other and _SIDE.search(written.do):
        changed = _SIDE.sub(lambda found: _SIDES[found[1]], written.do)
        yield "words of the other side", written.model_copy(update={"do": changed})
    if any(act.number for act in written.acts) and _NUMBER.search(written.expect):
        words = _NUMBER.sub(lambda found: _NEXT[found[1].lower()], written.expect, count=1)
        yield "number in words wrong", written.model_copy(update={"expect": words})
