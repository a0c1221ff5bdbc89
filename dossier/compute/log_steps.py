"""Resistance of a battery from the steps of the current in a log."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from dossier.battery_log import BatteryLog
from dossier.compute.log_instruments import Instruments, Measured

STEP = 0.2
"""Of the largest current: a greater change gives a resistance."""
LONGEST_STEP = 10.0
"""In s between the rows of a step: behind a longer one the state of charge has moved too (source
practice)."""


@dataclass(frozen=True)
class ResistanceStep:
    """Resistance of the pack in Ω from one step of the current."""

    row: int
    """After the step."""
    resistance: Measured
    after: float
    """In s from before the step: a resistance grows with the time."""
    current_step: float
    """In A, discharge positive."""


def resistance_steps(log: BatteryLog, instruments: Instruments) -> tuple[ResistanceStep, ...]:
    """Find the resistance of the pack at every step.

    Args:
        log: discharge positive.
        instruments: their uncertainties.

    Valid: rows at most :data:`LONGEST_STEP` apart; the resistance belongs to that time and grows with it, so
        it is below the quasi-steady one of a long discharge. Source: ohm.
    """
    least = STEP * float(np.abs(log.current).max())
    found = []
    for row, after in pairwise(range(len(log))):
        jump, step = float(log.current[after] - log.current[row]), float(log.time[after] - log.time[row])
        if abs(jump) < least or step > LONGEST_STEP:
            continue
        R = -float(log.voltage[after] - log.voltage[row]) / jump
        doubt = np.hypot(
            np.sqrt(2) * instruments.voltage_noise / abs(jump),
            np.hypot(instruments.current_gain, instruments.voltage_gain) * R,
        )
        found.append(ResistanceStep(after, Measured(R, float(doubt)), step, jump))
    return tuple(found)
