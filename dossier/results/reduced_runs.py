"""What the runs of flight tests give: each run reduced, and their mean in place of a stated result."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from dossier.figures import Figure
from dossier.findings import Finding
from dossier.model.events import FlightTest
from dossier.model.flight_runs import QUANTITIES
from dossier.quantities import Quantity
from dossier.replay import State

Run = Mapping[str, Quantity]
Tables = Mapping[tuple[int, str], Sequence[Run]]
"""Number of the flight test among those of the serial, from 1, and field of its runs -> runs of its file."""


@dataclass(frozen=True)
class Reduced:
    """The runs of one kind of one flight test."""

    test: FlightTest
    kind: str
    """The field of the event."""
    readings: tuple[Run, ...]
    runs: tuple[Figure, ...]
    """Of each reading: the correction of the airspeed, or the speed or sink reduced."""
    mean: Figure | None
    """None for a calibration, and for glides at several speeds."""
    scatter: float = 0.0
    """Standard deviation of the runs, in m/s."""
    speeds: tuple[Figure, ...] = ()
    """Of glides: the calibrated speed of each, at the mass that it is reduced to."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Runs, then their mean."""
        return (*self.speeds, *self.runs, *((self.mean,) if self.mean else ()))


@dataclass(frozen=True)
class FlightRuns:
    """All runs of one serial, in the order of its events."""

    reduced: tuple[Reduced, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return tuple(figure for one in self.reduced for figure in one.figures)

    def seen_in(self, state: State) -> State:
        """Put the means of runs in the place of the values that stand stated for them, or of none."""
        seen = dict(state.measured)
        for name, one in state.measured.items():
            found = self.mean_of(name, one.test)
            if found:
                mean, mass = found
                stated = one.result.value or Quantity(0.0, "speed", place=one.result.place)
                value = replace(
                    stated,
                    value=mean.value,
                    standard_uncertainty=mean.standard_uncertainty,
                    _estimates={},
                )
                seen[name] = replace(
                    one, result=one.result.model_copy(update={"value": value, "at_mass": mass})
                )
        return replace(state, measured=seen)

    def mean_of(self, quantity: str, test: FlightTest) -> tuple[Figure, Quantity] | None:
        """Return mean and mass of the runs that a flight test made for a quantity, if it made any."""
        for one in self.reduced:
            if one.test is test and QUANTITIES.get(one.kind) == quantity:
                return (one.mean, getattr(test, one.kind).at_mass) if one.mean else None
        return None
