"""What a text says of the direction of a control: with the stick left, the left aileron goes up."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from dossier.model.movement import OPPOSITE, Movement, expected_way
from dossier.model.procedure import ProcedureStep

_ENDINGS = {
    "left": "left|leftward|leftwards",
    "right": "right|rightward|rightwards",
    "forward": "forward|forwards|ahead",
    "back": "back|backward|backwards|rearward|rearwards|aft|rear",
    "up": "up|upward|upwards|rise|rises|rising|rose|raise|raises|raised|higher",
    "down": "down|downward|downwards|fall|falls|sink|sinks|sinking|drop|drops|dropped|lower|lowers|lowered",
    "in": "flush|closed|shut|inward|retracted",
    "out": "out|open|opened|outward|extended",
}
_WAY_OF = {word: way for way, words in _ENDINGS.items() for word in words.split("|")}
_WORD = re.compile(rf"\b(?:{'|'.join(sorted(_WAY_OF, key=len, reverse=True))})\b")
_CLAUSE = re.compile(r"[.;,:!?\"]|\band\b|\bwhile\b|\bthen\b|\bbut\b")
_BETWEEN = (
    r"(?: (?:is|are|goes|moves|moved|fully|hard|once|gently|all the way|a little|to|the|held|its|stop))*"
)
_BOTH = re.compile(
    r"\b(?:left|right|forward|back|up|down)\b(?:, | and | or )(?:to the )?"
    r"(?:left|right|forward|back|up|down)\b"
    r"|\bboth\b"
)
_NOT = re.compile(r"\b(?:not|no|never|neither|nothing|leading edge)\b")


@dataclass(frozen=True)
class Said:
    """One thing that a text says, and what rigging.yaml has of it."""

    movement: Movement
    """With the control as the text has it."""
    moves: str
    goes: str
    """As the text has it."""
    right: str
    """As rigging.yaml has it."""

    @property
    def is_wrong(self) -> bool:
        """Whether the text has it go against rigging.yaml."""
        return self.goes == OPPOSITE[self.right]


def texts_of(step: ProcedureStep) -> Iterator[tuple[str, ...]]:
    """Give the command, the expected state and the second check as one reader has them: from the list, and
    from its
    card, whose few words stand for the whole command."""
    yield tuple(text or "" for text in (step.do, step.expect, step.second_check))
    if step.on_card:
        card = step.on_card
        pairs = ((card.do, step.do), (card.expect, step.expect), (card.second_check, step.second_check))
        yield (step.do, *(short or whole or "" for short, whole in pairs))


def said(
    texts: Iterable[str], everything: Iterable[Movement], own: Iterable[Movement]
) -> Iterator[tuple[str, Said]]:
    """Find what texts say of the direction of controls, each with its text.

    Args:
        texts: in the order of reading; a control that was moved stays so until another movement is named.
        everything: the movements of the model.
        own: those of the objects of the step, which alone may be meant by a side without a surface.
    """
    everything, own = tuple(everything), tuple(own)
    controls = tuple(sorted({one.control.lower() for one in everything}))
    at: tuple[str, str] | None = None
    for text in texts:
        low = text.lower()
        ambiguous = {one for one in controls if _moved_both_ways(one, low)}
        for clause in _CLAUSE.split(low):
            moved, rest = _control(clause, controls)
            if moved:
                at = None if moved[0] in ambiguous else moved
            if at and not _NOT.search(clause):
                for found in _surface(rest, at, everything, own):
                    yield text, found


@cache
def _moved_both_ways(control: str, low: str) -> bool:
    return re.search(rf"\b{re.escape(control)}s?\b{_BETWEEN} (?:{_BOTH.pattern})", low) is not None


@cache
def _control(clause: str, controls: tuple[str, ...]) -> tuple[tuple[str, str] | None, str]:
    """Find which control is moved which way, and the clause without it.

    Kept: every variant of a list asks the same few clauses again.
    """
    for name in sorted(controls, key=lambda one: (-len(one), one)):
        word = rf"{re.escape(name)}s?"
        before = re.search(
            rf"\b(left|right|forward|back|rear) {word}\b(?P<behind>{_BETWEEN} (?:forward|back|aft)\b)?",
            clause,
        )
        behind = re.search(rf"\b{word}\b{_BETWEEN} ({_WORD.pattern})", clause)
        found = before or behind
        if found:
            way = _WAY_OF[found[1]]
            pulled = before and before["behind"] and not before["behind"].endswith("forward")
            return (name, OPPOSITE[way] if pulled else way), clause[: found.start()] + " " + clause[
                found.end() :
            ]
    return None, clause


def _surface(
    rest: str, at: tuple[str, str], everything: Iterable[Movement], own: Iterable[Movement]
) -> Iterator[Said]:
    named = [one for one in everything if re.search(rf"\b{re.escape(one.surface.lower())}s?\b", rest)]
    if named:
        longest = max(len(one.surface) for one in named)
        for one in (one for one in named if len(one.surface) == longest):
            without = re.sub(rf"\b{re.escape(one.surface.lower())}s?\b", " ", rest)
            yield from _compared(one, at, without, everything)
        return
    short = re.fullmatch(r"\W*(?:one )?(left|right)(?: one| side)?(?: is| goes)? (\w+)\W*", rest)
    for one in own if short else ():
        if short and one.surface.lower().split()[0] == short[1]:
            yield from _compared(one, at, short[2], own)


def _compared(one: Movement, at: tuple[str, str], words: str, known: Iterable[Movement]) -> Iterator[Said]:
    right = expected_way(one.surface, at[0], at[1], known)
    ways = {_WAY_OF[word] for word in _WORD.findall(words)}
    if right in ("in", "out"):
        ways = {{"up": "out", "down": "in"}.get(way, way) for way in ways}
    if right is None or one.control.lower() != at[0]:
        return
    for goes in sorted(ways & {right, OPPOSITE[right]}):
        yield Said(one, at[1], goes, right)
