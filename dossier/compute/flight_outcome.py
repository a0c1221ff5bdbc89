"""Why a question about flight may have no answer, and where an optimum was moved: each by name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike

from dossier.compute.curve import Array, Codes, Flags


class Obstacle(IntEnum):
    """Why there is no answer."""

    NONE = 0
    STALLED = 1
    """The speed asks for more lift coefficient than the wing has."""
    NO_LEVEL_FLIGHT = 2
    """The power does not keep height at any speed above the stall."""
    NO_CLIMB = 3
    """The power does not lift the aircraft, at the start or on the way."""
    NO_ADVANCE = 4
    """The headwind is faster than the aircraft may fly."""
    NO_DESCENT = 5
    """The air rises faster than the aircraft sinks, so a reach has no end."""
    NO_LIFT_OFF = 6
    """The aircraft stops accelerating before it is fast enough."""


class Clamp(IntEnum):
    """What moved an optimum away from where the drag polar has it."""

    NONE = 0
    STALL_MARGIN = 1
    """Raised to 1.1 times the stalling speed: the parabola does not hold nearer."""
    FASTEST = 2
    """Lowered to the fastest speed that is allowed."""


OBSTACLES: Mapping[Obstacle, str] = MappingProxyType(
    {
        Obstacle.STALLED: "the wing stalls at this speed and mass",
        Obstacle.NO_LEVEL_FLIGHT: "no level flight with this power and mass",
        Obstacle.NO_CLIMB: "no climb to this height with this power and mass",
        Obstacle.NO_ADVANCE: "no way against this wind",
        Obstacle.NO_DESCENT: "the air rises faster than the aircraft sinks",
        Obstacle.NO_LIFT_OFF: "no lift-off with this thrust, mass and ground",
    }
)
CLAMPS: Mapping[Clamp, str] = MappingProxyType(
    {
        Clamp.STALL_MARGIN: "raised to 1.1 times the stalling speed",
        Clamp.FASTEST: "held to the fastest speed allowed",
    }
)


@dataclass(frozen=True, eq=False)
class Answers:
    """Answers to many cases: every column has one row a case, in SI."""

    computed: Mapping[str, Array]
    """As the formulas have it, 0 where there is none; ``obstacle`` must be looked at beside it."""
    obstacle: Codes
    """Of :class:`Obstacle`: 0 where there is an answer."""
    clamp: Codes
    """Of :class:`Clamp`: 0 where the optimum stands where the polar has it."""

    @property
    def answered(self) -> Flags:
        """True where there is an answer."""
        return np.asarray(self.obstacle == Obstacle.NONE)

    def column(self, name: str, *, otherwise: float) -> Array:
        """Return one column, with ``otherwise`` where there is no answer."""
        return np.where(self.answered, self.computed[name], otherwise)

    def one(self, name: str, case: int | tuple[int, ...] = ()) -> float | Obstacle:
        """Return one value, or by name why there is none; ``()`` takes the only case of a scalar question."""
        obstacle = Obstacle(int(self.obstacle[case]))
        return obstacle or float(self.computed[name][case])


def answers(
    computed: Mapping[str, Array], *, obstacle: ArrayLike = Obstacle.NONE, clamp: ArrayLike = Clamp.NONE
) -> Answers:
    """Put columns and codes into one shape."""
    shape = np.broadcast_shapes(*(np.shape(column) for column in (*computed.values(), obstacle, clamp)))
    codes = [np.broadcast_to(np.asarray(code, np.int64), shape) for code in (obstacle, clamp)]
    valid = codes[0] == Obstacle.NONE
    filled = {name: np.where(valid, column, 0.0) for name, column in computed.items()}
    return Answers(MappingProxyType(filled), codes[0], codes[1])
