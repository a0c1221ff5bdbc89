"""Hazard boxes: signal word, hazard, consequence, how to avoid it. They stand before what they guard."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dossier.compose.limit_text import LimitText, one_line
from dossier.dossier import Dossier

SIGNAL_WORDS: dict[str, str] = {
    "danger": "If you do not avoid the hazard, death or serious injury will follow.",
    "warning": "If you do not avoid the hazard, death or serious injury could follow.",
    "caution": "If you do not avoid the hazard, minor or moderate injury could follow.",
    "notice": "Damage could follow, or trouble with the law. Nobody is injured.",
}
"""Signal word -> what it means in this document, worst first.

The scheme is that of product safety, ANSI Z535.6 (read in a summary). Flight manuals use CAUTION otherwise,
so the definitions are printed, and no other scheme is mixed in.
"""


@dataclass(frozen=True)
class HazardBox:
    """One hazard, ready for print."""

    name: str
    kind: str
    """``danger``, ``warning``, ``caution`` or ``notice``."""
    hazard: str
    consequence: str
    avoidance: str
    topic: str
    source: str

    @property
    def word(self) -> str:
        """The signal word."""
        return self.kind.capitalize()


def box(dossier: Dossier, name: str) -> HazardBox:
    """Make the box of one hazard."""
    hazard = dossier.project.hazards.hazards[name]
    fill = LimitText.of(dossier).fill
    return HazardBox(
        str(name),
        str(hazard.word),
        fill(hazard.hazard),
        fill(hazard.consequence),
        fill(hazard.avoidance),
        str(hazard.topic),
        one_line(hazard.source or ""),
    )


def boxes(dossier: Dossier, names: Iterable[str]) -> tuple[HazardBox, ...]:
    """Make the boxes of several hazards, the worst word first, else in the order of the record."""
    made = [box(dossier, name) for name in names]
    return tuple(sorted(made, key=lambda one: list(SIGNAL_WORDS).index(one.kind)))
