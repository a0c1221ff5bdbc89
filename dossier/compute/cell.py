"""A cell as an equivalent circuit: rest voltage and resistance over state of charge, capacity, limits, and
its range.

All values are of one cell in SI. State of charge 0 and 1 are the ends of the table of rest voltage, and the
capacity is the charge between them: a capacity that was measured to another voltage belongs to another table.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf
from types import MappingProxyType
from typing import Literal

import numpy as np

from dossier.compute import lines
from dossier.compute.bounds import positive
from dossier.compute.cell_resistance import TEMPERATURES, USUAL_CONSTANT
from dossier.compute.curve import Array, Curve
from dossier.figures import OutsideRange

Application = Literal["energy", "power"]


@dataclass(frozen=True)
class RateRange:
    """Rates up to which one resistance stands for the cell, in capacities per hour (source pybamm)."""

    sustained: float
    """Nominal rate, power over nominal energy, that may last to the end."""
    burst: float
    """Rate by current that a phase of at most :data:`BURST_TIME` may reach. Each phase is looked at by
    itself: that a take-off and a climb in a row may last longer together was shown by no run."""


RATE_RANGES: Mapping[Application, RateRange] = MappingProxyType(
    {
        # constant power: 0.2 and 5.2 % at 1 for two sets, +14 and +26 % at 2; missions: 1 % of time with 2.75
        # in the climb
        "energy": RateRange(1.0, 3.0),
        # constant power: 2 and 2.5 % at 3 for two sets, 4 and 6 % at 5
        "power": RateRange(3.0, 5.0),
    }
)
BURST_TIME = 240.0
"""In s: the longest phase above the sustained rate that the simulated missions contain."""
COLD = 278.15
"""5 °C in K: below it a resistance alone is too kind to some cells, and a band is given."""


@dataclass(frozen=True)
class CellLimits:
    """What ends a discharge."""

    voltage: float
    """In V under load."""
    current: float = inf
    """In A."""
    coldest: float = TEMPERATURES[0]
    """In K."""
    hottest: float = TEMPERATURES[1]


@dataclass(frozen=True)
class Cell:
    """One cell at 25 °C when new."""

    rest: Curve
    """Rest voltage in V over state of charge, rising."""
    resistance: Curve
    """Quasi-steady resistance in Ω over state of charge, on the same ends as ``rest``."""
    capacity: float
    """In C between the ends of ``rest``."""
    nominal_voltage: float
    nominal_capacity: float
    """In C, as the maker rates it: with ``nominal_voltage`` it names the rate."""
    limits: CellLimits
    application: Application
    constant: float = USUAL_CONSTANT
    """Of the law of temperature, in K."""

    def __post_init__(self) -> None:
        """Refuse a cell for which the solvers do not hold.

        Raises:
            OutsideRange: a column that does not rise, ends that differ, a capacity that is not positive, or a
            voltage
                limit outside the table or not above half of its highest voltage, below which the quadratic of
                the working voltage has a second meaning.
        """
        lines.check_rising(self.rest.y, "rest voltage of the table")
        if (self.rest.x[0], self.rest.x[-1]) != (self.resistance.x[0], self.resistance.x[-1]):
            raise OutsideRange(
                "the tables of rest voltage and resistance do not cover the same states of charge"
            )
        if min(self.resistance.y) < 0:
            raise OutsideRange(
                f"the resistance of the table is {min(self.resistance.y):.6g} Ω, and must not be negative"
            )
        positive(self.capacity, "capacity", "C")
        positive(self.nominal_energy, "nominal energy", "J")
        least = max(self.rest.y[-1] / 2, 0.0)
        if not least < self.limits.voltage < self.rest.y[-1]:
            raise OutsideRange(
                f"the voltage under load at which the discharge ends is {self.limits.voltage:.4g} V, "
                f"and must be above {least:.4g} V, half of the highest rest voltage, "
                f"and below {self.rest.y[-1]:.4g} V"
            )

    @property
    def nominal_energy(self) -> float:
        """In J."""
        return self.nominal_voltage * self.nominal_capacity

    @property
    def rates(self) -> RateRange:
        """How far the model is shown to hold."""
        return RATE_RANGES[self.application]

    def nodes(self) -> tuple[Array, Array, Array]:
        """Return states of charge, rest voltages and resistances on common points, which loses nothing."""
        z = np.union1d(self.rest.x, self.resistance.x)
        return z, self.rest.along(z), self.resistance.along(z)
