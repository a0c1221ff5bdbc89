"""``assembly.yaml``: how a serial is put together. The serial's record signs its steps off."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.procedure import Picture
from dossier.model.scalars import (
    AnyQuantity,
    Count,
    Duration,
    Flag,
    HeatingRate,
    Key,
    Name,
    OneOf,
    Temperature,
    Text,
    Torque,
)

SHOWN_BY = ("weighing", "pack-fitted", "inspection", "flight-test")
"""Kinds of event that can stand for the entry of a step."""


class Material(Part):
    """A material or a standard part whose lot is recorded."""

    name: Text
    specification: Text | None = None
    """The sheet or standard that it is bought to."""
    shelf_life: Count | None = None
    """Months from the making of a lot, for what ages, such as resin: a lot says ``made`` or ``expires``."""
    pot_life: Duration | None = None
    """From mixing to the last moment at which it may be worked, at its own temperature: a lot says
    ``worked``."""


class Tolerance(Part):
    """The values that pass: from ``minimum`` to ``maximum``, both included; one of them may be left out.

    A measured value is held against them with its uncertainty, by the usual decision rule of compliance.yaml.
    """

    minimum: AnyQuantity | None = None
    maximum: AnyQuantity | None = None
    source: Text
    """Drawing, calculation or table that sets it."""
    measured_within: AnyQuantity | None = None
    """How well the prescribed means measure it: the expanded uncertainty, k = 2, of an entry that states none
    behind ±."""
    fastener: Text | None = None
    """For a torque after AC 43.13-1B, table 7-1: thread and nut, such as ``5/16-24 bolt, tension nut``."""
    drag: Torque | None = None
    """For such a torque: what the nut needs to run down freely."""


class Cure(Part):
    """How a resin must harden. The serial's entry gives the log of it."""

    time: Duration
    """The least, at the lowest temperature or above."""
    lowest: Temperature
    highest: Temperature
    heating: HeatingRate | None = None
    """The fastest that it may be heated, such as ``2 °C/min``, as a mean over ten minutes."""
    log_asked: Flag = False
    """True: the entry must name the log of the cure as a file."""
    source: Text


class AssemblyStep(Part):
    """One step. The serial's record holds an entry for it."""

    do: Text
    expect: Text
    """The state that then is seen, or the drawing that shows it."""
    materials: list[Name] = []
    """Materials of this file whose lots the entry must give."""
    cure: Cure | None = None
    required: Tolerance | None = None
    """What the measured value must keep."""
    done_by: Text
    """Who does it and signs, by role."""
    checked_by: Text | None = None
    """Who looks at it and signs as well, by role; left out where one signature is enough."""
    critical: Flag = False
    """True for what can cost the aircraft if it is wrong, such as a control hooked up or a pin locked:
    another person than the one who did it makes the second check."""
    second_check: Text | None = None
    """What that person moves, pulls or looks at."""
    joins: list[Name] = []
    """Connections of rigging.yaml that are made or inspected here; if one is critical, so is the step."""
    senses: list[Name] = []
    """Connections and checks of rigging.yaml whose ``ways`` are looked at here: the entry states what was
    seen."""
    time: Duration | None = None
    """How long it is expected to last."""
    if_not: Text | None = None
    """What to do if the expected state is not there."""
    tool: Text | None = None
    hazards: list[Name] = []
    """Hazards of hazards.yaml that begin here; their boxes stand before the stage."""
    picture: Picture | None = None
    """What is to be seen, as a photo or drawing."""
    hold: Flag = False
    """True: nothing behind it, in its stage and in all later ones, is begun before both have signed."""
    binds: list[Name] | None = None
    """For a hold: the steps that wait for it, if not all behind it. The acceptance waits for every hold."""
    evidence: Flag = False
    """True: the entry must cite a photo or a log."""
    option: Name | None = None
    """An optional item of the type's list: the step is for serials built with it."""
    shown_by: Annotated[str, OneOf(*SHOWN_BY)] | None = None
    """An event of the serial that stands for the entry, so that nothing is written twice."""


class Stage(Part):
    """A stage of the work. Its steps stand in their order."""

    name: Text
    acceptance: Flag = False
    """True for work on the finished aircraft, such as weighing: it begins when every hold is signed."""
    beside: Flag = False
    """True for work on another bench, such as the battery: it waits for no hold of the stages before it."""
    steps: dict[Key, AssemblyStep]


class Assembly(Part):
    """The assembly file."""

    materials: dict[Key, Material] = {}
    traced: list[Name] = []
    """Items of the type's list of which every serial records the serial number or the lot."""
    stages: list[Stage]

    @property
    def pictures(self) -> tuple[Picture, ...]:
        """Every picture of its steps, in order."""
        steps = (step for stage in self.stages for step in stage.steps.values())
        return tuple(step.picture for step in steps if step.picture)
