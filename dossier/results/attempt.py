"""A figure that may lie outside the range of its formula: then there is a finding, and never a number.

Where the estimate itself has an answer and a value close by has none, the finding says how often
there is one.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from dossier.display import Preference, sampled_words
from dossier.figures import Figure, FirstOrderFails, Input, OutsideRange
from dossier.findings import Finding, Place, Severity
from dossier.halton import COUNT
from dossier.sampling import Draws


@dataclass(frozen=True)
class Attempt:
    """One figure or one finding."""

    figure: Figure | None
    finding: Finding | None

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The figure, if there is one."""
        return (self.figure,) if self.figure else ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The finding, if there is one."""
        return (self.finding,) if self.finding else ()


def attempt(make: Callable[[], Figure], what: str, place: Place | None) -> Attempt:
    """Make a figure, or say why its formula does not hold.

    Args:
        make: makes the figure; may raise OutsideRange.
        what: what the figure would have been, for the message.
        place: where the reader should look.
    """
    try:
        return Attempt(make(), None)
    except OutsideRange as error:
        message = f"{what} cannot be computed: {reason(error)}"
        remedy = "correct the values named, or accept that this figure is not shown"
        return Attempt(None, Finding("C001", message, remedy, place, Severity.WARNING))


def reason(error: OutsideRange) -> str:
    """Say why there is no figure, and what draws say where only first order fails."""
    if not isinstance(error, FirstOrderFails):
        return str(error)
    given = (
        item for many in error.inputs.values() for item in ((many,) if isinstance(many, Input) else many)
    )
    sampled = Draws(given).evaluate(error.formula, error.inputs).sampled()
    return f"{error}; on {COUNT} draws of all inputs: {sampled_words(sampled, error.style, Preference())}"
