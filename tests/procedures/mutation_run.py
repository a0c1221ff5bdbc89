"""Which of the spoiled lists the verifier notices: a sample without chance, of every variant."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import islice
from typing import ClassVar

from procedures.mutants import EVERYTHING, MOVED, Mutant, all_variants, caught_by, mutants
from procedures.survivors import WEAK, explanation

MOST = 120
"""How many of a kind are tried in one project with everything fitted."""
OF_A_VARIANT = 12
"""How many are tried in each other variant."""
UNEXPLAINED = "UNEXPLAINED"


@dataclass
class Outcome:
    """What came of the mutants of one project."""

    COUNTS: ClassVar = ("there", "tried", "caught", "as_good")
    project: str
    variants: int = 0
    there: Counter[str] = field(default_factory=Counter)
    tried: Counter[str] = field(default_factory=Counter)
    caught: Counter[str] = field(default_factory=Counter)
    as_good: Counter[str] = field(default_factory=Counter)
    """Not caught, and not spoiled either."""
    survivors: list[tuple[str, str]] = field(default_factory=list)
    """Name and reason."""


def outcome(project: str, most: int = MOST, every: int = 1) -> Outcome:
    """Try the mutants of a project: those with everything fitted, at most so many of a kind, and some of each
    other variant, or of every so many-th, the serials' own first."""
    made = Outcome(project)
    chosen = all_variants(project)[::every]
    made.variants = len({EVERYTHING, *chosen})
    everything = list(mutants(project))
    by_kind: dict[str, list[Mutant]] = {}
    for mutant in everything:
        by_kind.setdefault(mutant.kind, []).append(mutant)
    for of_kind in by_kind.values():
        for mutant in _spread(of_kind, most):
            _try(mutant, made)
    made.there.update(mutant.kind for mutant in everything)
    for number, variant in enumerate(chosen):
        there = [mutant for mutant in mutants(project, variant) if mutant.kind != MOVED]
        made.there.update(mutant.kind for mutant in there)
        for mutant in _spread(there[number % 7 :], OF_A_VARIANT):
            _try(mutant, made)
    return made


def _spread(some: list[Mutant], most: int) -> Iterator[Mutant]:
    """Take every so many-th, so that all lists have their share."""
    step = max(1, -(-len(some) // most))
    return islice(some, len(some) % step, None, step)


def _try(mutant: Mutant, made: Outcome) -> None:
    made.tried[mutant.kind] += 1
    if caught_by(mutant) is not None:
        made.caught[mutant.kind] += 1
        return
    reason = explanation(mutant) or UNEXPLAINED
    made.as_good[mutant.kind] += not reason.startswith((WEAK, UNEXPLAINED))
    made.survivors.append((mutant.name, reason))
