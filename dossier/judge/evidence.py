"""What a serial can show: its figures, when and how they were measured, what is fitted, and as of when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from dossier.figures import Figure, Input

ESTIMATE = "estimate"
"""The basis of a figure that physics estimates and nobody measured. Nothing is shown by it."""


@dataclass(frozen=True)
class Allowance:
    """An item that is fitted, and that a rule may leave out of a mass or count in."""

    name: str
    mass: Input
    is_of_piece: bool
    """Whether the record gives the mass of the piece that is fitted; else it is that of the type's list."""


@dataclass(frozen=True)
class Evidence:
    """What the verdicts of one serial rest on."""

    figures: Mapping[str, Figure]
    measured_on: Mapping[str, date]
    """Figure -> date of its measurement."""
    bases: Mapping[str, str]
    """Figure -> ``CAS``, ``IAS``, ``TAS`` or :data:`ESTIMATE`; left out where a mass was weighed."""
    allowances: Mapping[str, tuple[Allowance, ...]]
    """Kind of item (``parachute``, ``float``, ``hull``, ``outrigger``) -> each one fitted."""
    as_of: date
    batteries: Mapping[str, str] = field(default_factory=dict)
    """Every battery that the type may carry, by its key: what it is called."""

    def roots(self, name: str) -> Iterator[str]:
        """Name a figure and every figure that went into it."""
        yield name
        figure = self.figures.get(name)
        for one in figure.working.inputs.values() if figure else ():
            for item in (one,) if isinstance(one, Input) else one:
                if isinstance(item.origin, str) and item.origin in self.figures:
                    yield from self.roots(item.origin)

    def first_measured(self, name: str) -> date | None:
        """Return the earliest measurement that went into a figure, if any is dated."""
        dates = [self.measured_on[root] for root in self.roots(name) if root in self.measured_on]
        return min(dates, default=None)

    def estimated_from(self, name: str) -> str | None:
        """Name what in a figure is an estimate, if anything is."""
        return next((root for root in self.roots(name) if self.bases.get(root) == ESTIMATE), None)


def estimate_in(name: str, figures: Mapping[str, Figure], bases: Mapping[str, str]) -> str | None:
    """Name what in a figure is an estimate, if anything is, where no more is known than the figures."""
    return Evidence(figures, {}, bases, {}, date.max).estimated_from(name)
