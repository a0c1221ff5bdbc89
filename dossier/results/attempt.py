"""A figure that may lie outside the range of its formula: then there is a finding instead, and never a number."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from dossier.figures import Figure, OutsideRange
from dossier.findings import Finding, Place, Severity


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
        return Attempt(None, Finding("C001", f"{what} cannot be computed: {error}",
                                     "correct the values named, or accept that this figure is not shown", place, Severity.WARNING))
