"""The runs of a flight test as they were read in the air: in the record, or in a CSV among its evidence."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from dossier.model.base import Part
from dossier.model.scalars import (
    Angle,
    AnyQuantity,
    FilePath,
    Key,
    Length,
    Mass,
    OneOf,
    Speed,
    Temperature,
    Text,
)

KINDS = {
    "indicated_speed": "speed",
    "calibrated_speed": "speed",
    "from_height": "length",
    "to_height": "length",
    "time": "time",
    "temperature": "temperature",
    "power": "power",
}
"""Quantity of a run -> its kind; ``ground_speed_1`` and so on are speeds."""
SPEED = ("indicated_speed", "calibrated_speed")
"""One of these two."""
BLOCKS = ("airspeed_calibration", "stalls", "timed_descents", "timed_glides", "level_runs")
"""Fields of a flight test that hold runs."""


QUANTITIES = {"stalls": "stall_speed", "timed_descents": "minimum_sink", "level_runs": "maximum_level_speed"}
"""Field of the runs -> the quantity that their mean gives."""


def kind_of(quantity: str) -> str | None:
    """Return the kind of a quantity of a run; None for one that is not known."""
    return "speed" if quantity.startswith("ground_speed_") else KINDS.get(quantity)


class Runs(Part):
    """Runs of one kind: ``file`` with ``columns``, or ``runs``."""

    file: FilePath | None = None
    """A table of comma-separated values, one of the files that the event cites as evidence."""
    columns: dict[Key, Text] = Field(default_factory=dict)
    """Quantity -> heading of its column, the unit behind a stroke: ``time: "time / s"``."""
    runs: list[dict[Key, AnyQuantity]] = Field(default_factory=list)
    """Quantity -> value, run by run, where there is no file."""

    def needs(self) -> tuple[tuple[str, ...], ...]:
        """Say what each run states: one of each group."""
        return ()


class AirspeedCalibration(Runs):
    """One indicated speed after another, each flown in three directions or more: ``indicated_speed``,
    ``ground_speed_1``, ``ground_speed_2`` ..."""

    directions: list[Angle]
    """Of ``ground_speed_1`` and so on, clockwise from north."""
    directions_are: Annotated[str, OneOf("headings", "tracks")]
    """Where the nose points, or the way over the ground."""
    pressure_altitude: Length
    temperature: Temperature
    shared_error: Speed
    """What all speeds share: motion of the air, the receiver. Expanded, k = 2."""

    def needs(self) -> tuple[tuple[str, ...], ...]:
        """Say what each run states: one of each group."""
        return (("indicated_speed",), *((f"ground_speed_{n}",) for n in range(1, len(self.directions) + 1)))


class Stalls(Runs):
    """``indicated_speed`` or ``calibrated_speed`` at the stall."""

    at_mass: Mass

    def needs(self) -> tuple[tuple[str, ...], ...]:
        """Say what each run states: one of each group."""
        return (SPEED,)


class TimedDescents(Runs):
    """``from_height``, ``to_height`` (pressure altitudes), ``time``, ``temperature``; motor off."""

    at_mass: Mass

    def needs(self) -> tuple[tuple[str, ...], ...]:
        """Say what each run states: one of each group."""
        return (("from_height",), ("to_height",), ("time",), ("temperature",))


class TimedGlides(TimedDescents):
    """Timed descents at several speeds, and so ``indicated_speed`` or ``calibrated_speed`` as well. The drag
    polar is fitted to them."""

    def needs(self) -> tuple[tuple[str, ...], ...]:
        """Say what each run states: one of each group."""
        return (SPEED, *super().needs())


class LevelRuns(Runs):
    """``indicated_speed`` or ``calibrated_speed``, and ``power`` from the battery."""

    at_mass: Mass
    held_by: Annotated[str, OneOf("power", "control")]
    """What held the aircraft at its speed: the power, or a stop of the stick or the bar."""
    pressure_altitude: Length
    temperature: Temperature

    def needs(self) -> tuple[tuple[str, ...], ...]:
        """Say what each run states: one of each group."""
        return (SPEED, ("power",))
