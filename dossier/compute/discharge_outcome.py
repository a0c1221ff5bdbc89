"""How a discharge ends, and why there may be no answer: each by name, so that no number has to say it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum
from types import MappingProxyType


class Limit(IntEnum):
    """What ends a discharge. The first that binds is told."""

    NONE = 0
    """Nothing: the phases are flown and the battery could go on."""
    EMPTY = 1
    """The table ends."""
    FLOOR = 2
    """The state of charge that is to be kept."""
    VOLTAGE = 3
    """The voltage under load."""
    CURRENT = 4
    TEMPERATURE = 5
    """The cell becomes too hot."""
    POWER = 6
    """No voltage gives this power."""


class Reason(IntEnum):
    """Why the model gives no answer."""

    NONE = 0
    TEMPERATURE = 1
    """Outside the limits of the cell at the start."""
    POWER = 2
    """The cell cannot give the power in the state in which it is asked."""
    RATE = 3
    """Above the rate up to which one resistance stands for the cell."""
    COLD = 4
    """Below 5 °C, where only a band is honest: see :mod:`dossier.compute.cold`."""


WORDS: Mapping[Limit, str] = MappingProxyType(
    {
        Limit.NONE: "all phases flown",
        Limit.EMPTY: "the cell is empty",
        Limit.FLOOR: "the charge that is kept is reached",
        Limit.VOLTAGE: "the voltage under load reaches its limit",
        Limit.CURRENT: "the current reaches its limit",
        Limit.TEMPERATURE: "the temperature reaches its limit",
        Limit.POWER: "the battery cannot give the power",
    }
)


@dataclass(frozen=True)
class NoAnswer:
    """The model does not hold, or the battery cannot; ``message`` says which bound and which value."""

    reason: Reason
    message: str
