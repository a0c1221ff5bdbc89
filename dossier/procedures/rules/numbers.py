"""Do the numbers in the words of a count agree with its act and with rigging.yaml?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from dossier.located import place_of
from dossier.procedures.fault import Fault, of_list, of_words
from dossier.procedures.listing import Doing, Listing
from dossier.procedures.rules.vocabulary import counted_in, significant
from dossier.procedures.rules.words import CORRECT
from dossier.procedures.system import System


def same_number(listing: Listing, system: System) -> Iterator[Fault]:
    """The number that a count's act has stands in the words too, alone or as a sum; and what the words count
    by its name is as many as rigging.yaml lists.

    Source: own reasoning (people count to the number that they read).
    """
    for step in listing.steps:
        written, card = step.written, step.written.on_card
        groups: list[tuple[tuple[str | None, ...], bool]] = [
            ((written.do, written.expect), False),
            ((written.second_check,), True),
            *([((card.do, card.expect), False), ((card.second_check,), True)] if card else []),
        ]
        for texts, second in groups:
            counts = [doing for doing in step.doings if doing.second is second and doing.verb == "count"]
            said = " . ".join(text for text in texts if text)
            for words in _wrong(said, counts, system) if counts and not written.differs else ():
                yield of_words(listing, "V096", step, (words, CORRECT), place_of(texts[-1]))


def _wrong(text: str, counts: list[Doing], system: System) -> Iterator[str]:
    numbers = [number for number, _ in counted_in(text)]
    for doing in counts:
        number, called = doing.act.number, system.called(doing.name)
        if number and numbers and not _is_sum(number, numbers):
            told = " and ".join(map(str, numbers))
            yield f"the words count {told}, and the act counts {number} in the {called}"
    pieces = {piece for doing in counts for piece in system.pieces_of(doing.name)}
    yield from _of_items(text, pieces, system)


def _of_items(text: str, pieces: set[str], system: System) -> Iterator[str]:
    """Hold each number before a loose item against how many there are; the longest name counts."""
    for number, behind in counted_in(text):
        fitting = [name for name in pieces if significant(system.called(name)) <= behind]
        best = max(sorted(fitting), key=lambda name: len(significant(system.called(name))), default=None)
        if best and system.items[best].count != number:
            listed = system.items[best].count
            yield f"the words count {number} of the {system.called(best)}, and rigging.yaml has {listed}"


def _is_sum(number: int, said: list[int]) -> bool:
    chosen = sorted(said)[:8]
    return any(
        sum(some) == number for size in range(1, len(chosen) + 1) for some in combinations(chosen, size)
    )


def loose_numbers(listing: Listing, system: System) -> Iterator[Fault]:
    """The loose items at the head of a list are as many as rigging.yaml has.

    Source: own reasoning (counted multiples match the parts list).
    """
    for text in listing.procedure.loose_items:
        for words in _of_items(str(text), set(system.items), system):
            yield of_list(listing, "V096", (words, "correct the list or rigging.yaml"), place_of(text))
