"""A flight as it is asked: phases of constant power, and what it begins with. All of one cell, in SI."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.cell_step import AT_ONCE, SLOWNESS
from dossier.figures import OutsideRange


@dataclass(frozen=True)
class MissionPhase:
    """A part of the flight; each value for all scenarios, or one for each."""

    name: str
    power: ArrayLike
    """In W a cell, 0 or more."""
    duration: ArrayLike | None = None
    """In s; left out, the phase goes on until a limit ends it, and must be the last."""


@dataclass(frozen=True)
class Conditions:
    """What the flight begins with; each value for all scenarios, or one for each."""

    start: ArrayLike = 1.0
    """State of charge."""
    floor: ArrayLike = 0.0
    """State of charge that is kept."""
    temperature: ArrayLike = 298.15
    """In K."""
    growth: ArrayLike = 1.0
    health: ArrayLike = 1.0
    wiring: ArrayLike = 0.0
    """In Ω in series with a cell."""


@dataclass(frozen=True)
class SlowPart:
    """How much of the resistance acts at once, and the time constant in s of the rest."""

    at_once: float = AT_ONCE
    slowness: float = SLOWNESS


def check_phases(phases: Sequence[MissionPhase]) -> None:
    """Refuse phases that cannot be flown in order.

    Raises:
        OutsideRange: a power or a duration is negative or no number, only the last phase may go without a
        duration,
            and it needs a power.
    """
    for number, phase in enumerate(phases, 1):
        if phase.duration is None and number < len(phases):
            raise OutsideRange(f"the phase {phase.name!r} has no duration and is not the last")
        if not np.all(np.asarray(phase.power, float) >= 0):
            raise OutsideRange(f"the power of the phase {phase.name!r} is negative or no number")
        if phase.duration is None:
            if not np.all(np.asarray(phase.power, float) > 0):
                raise OutsideRange(
                    f"the phase {phase.name!r} has no duration and no power, and would never end"
                )
        elif not np.all(np.asarray(phase.duration, float) >= 0):
            raise OutsideRange(f"the duration of the phase {phase.name!r} is negative or no number")
