"""``wiring`` in ``battery.yaml``: conductors, fuses, and whatever else the current passes."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from dossier.model.base import Part
from dossier.model.scalars import (
    Area,
    Count,
    Current,
    Duration,
    Key,
    Length,
    Name,
    OneOf,
    Temperature,
    Text,
    Voltage,
)


class Burst(Part):
    """A current and for how long."""

    current: Current
    time: Duration


class Load(Part):
    """What a conductor carries that is not the current of the battery."""

    current: Current
    """The largest that lasts."""
    burst: Burst | None = None
    """More, for a short time."""
    voltage: Voltage
    """Of that circuit."""
    source: Text
    """The sheet of the consumer, or the measurement."""


class Rating(Part):
    """What the maker of a wire allows one wire to carry."""

    current: Current
    conditions: Text
    """For which it holds: laid how, in air of which temperature."""
    source: Text


class Conductor(Part):
    """A run of copper wire there, and one of the same kind and length back."""

    name: Text
    gauge: Text | None = None
    """American wire gauge, such as ``2`` or ``1/0``."""
    area: Area | None = None
    """Of the copper of one wire instead, such as ``35 mm²``: taken as the next smaller gauge of the table."""
    parallel: Count = 1
    """Wires side by side that share the current."""
    insulation: Text
    """Its material."""
    rated_temperature: Temperature
    """Of the insulation: the table has columns for 105, 150 and 200 °C."""
    rated_voltage: Voltage | None = None
    """Of the insulation."""
    rating: Rating | None = None
    """What the maker allows where the table ends, such as a wire in free air."""
    one_way_length: Length
    """One way. The current comes back through as much again, and that is counted."""
    laid: Annotated[str, OneOf("bundle", "free-air")]
    """Beside other wires, in a conduit or sleeve; or alone with air all round."""
    battery: Name | None = None
    """The battery to which it belongs; left out, it carries the current of every one that the type may fly
    with."""
    load: Load | None = None
    """Left out: it carries the current of the battery, there and back."""
    fuse: Name | None = None
    """The fuse that protects it."""
    no_fuse_because: Text | None = None
    """Why none does, such as: it is the link to the fuse, a hand long, in a sleeve."""
    through: list[Name] = Field(default_factory=list)
    """The plugs, contactors and switches that it leads through."""


class Fuse(Part):
    """A fuse."""

    name: Text
    rated_current: Current
    rated_voltage: Voltage | None = None
    """For direct current. A rating for alternating current alone is none: leave it out."""
    interrupt_rating: Current | None = None
    """The largest current that it breaks, at that direct voltage."""
    burst: Burst | None = None
    """A point of the maker's curve that it carries without opening."""
    source: Text
    """The maker's sheet."""


class Connector(Part):
    """A plug, contactor, switch or terminal in the way of the current."""

    name: Text
    kind: Annotated[str, OneOf("plug", "contactor", "switch", "terminal")]
    rated_current: Current
    """That lasts."""
    rated_voltage: Voltage | None = None
    """For direct current."""
    burst: Burst | None = None
    """More, for a short time, by its maker."""
    source: Text
    """The maker's sheet."""


class Wiring(Part):
    """The circuit between the battery and what it drives."""

    coldest_battery: Temperature | None = None
    """The coldest battery with which the aircraft takes off: there the voltage falls furthest, and the
    current is largest. From 5 °C up."""
    coldest_battery_limit: Name | None = None
    """The limit of ``aircraft.yaml`` that states it instead."""
    conductors: dict[Key, Conductor]
    fuses: dict[Key, Fuse] = Field(default_factory=dict)
    connectors: dict[Key, Connector] = Field(default_factory=dict)
