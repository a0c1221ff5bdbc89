"""Which sets of optional equipment the lists are verified with. Of n items there are 2 to the n sets:
beyond a few items a choice is made of them, and what was left out is told."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import combinations

EVERY = 6
"""Up to so many items each set is verified: 64 sets (own choice, for the time that it takes)."""
PAIRS = 11
"""Up to so many, each set that differs from the serial's own by one or two items: 67 sets."""


@dataclass(frozen=True)
class Variants:
    """The sets of optional items left out that are verified."""

    left_out: tuple[frozenset[str], ...]
    """The serial's own first."""
    possible: int
    """How many sets there are."""
    words: str
    """Which of them these are; empty where these are all."""


def variants(left_out: Collection[str], mentioned: Collection[str]) -> Variants:
    """Choose the sets: the serial's own is always among them, and so is none and all of the items left out.

    Args:
        left_out: optional items that the serial does not have.
        mentioned: optional items on which lists or rigging.yaml depend.
    """
    own, names = frozenset(left_out), sorted(mentioned)
    sets = tuple(dict.fromkeys((own, *_others(own, names))))
    if len(names) <= EVERY:
        return Variants(sets, 2 ** len(names), "")
    most = "one or two items" if len(names) <= PAIRS else "one item"
    return Variants(
        sets,
        2 ** len(names),
        f"that of this serial, each that differs from it by {most}, the one with every item and the one "
        "with none",
    )


def _others(own: frozenset[str], names: list[str]) -> Iterator[frozenset[str]]:
    fixed = own - frozenset(names)
    if len(names) <= EVERY:
        for mask in range(2 ** len(names)):
            yield fixed | {name for bit, name in enumerate(names) if mask >> bit & 1}
        return
    for count in (1, 2) if len(names) <= PAIRS else (1,):
        for changed in combinations(names, count):
            yield own ^ frozenset(changed)
    yield fixed
    yield fixed | frozenset(names)
