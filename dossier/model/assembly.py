"""``assembly.yaml``: how a serial is put together. The serial's record signs its steps off."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import AnyQuantity, Count, Duration, Flag, Key, Name, OneOf, Temperature, Text

SHOWN_BY = ("weighing", "pack-fitted", "inspection", "flight-test")
"""Kinds of event that can stand for the entry of a step."""


class Material(Part):
    """A material or a standard part whose lot is recorded."""

    name: Text
    specification: Text | None = None
    """The sheet or standard that it is bought to."""
    shelf_life: Count | None = None
    """Months from the making of a lot, for what ages, such as resin: a lot says ``made`` or ``expires``."""


class Tolerance(Part):
    """The values that pass: from ``minimum`` to ``maximum``, both included; one of them may be left out."""

    minimum: AnyQuantity | None = None
    maximum: AnyQuantity | None = None
    source: Text
    """Drawing, calculation or table that sets it."""


class Cure(Part):
    """How a resin must harden. The serial's entry gives the log of it."""

    time: Duration
    """The least."""
    lowest: Temperature
    highest: Temperature
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
    hold: Flag = False
    """True: nothing that stands behind it in its stage is begun before both have signed."""
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
    steps: dict[Key, AssemblyStep]


class Assembly(Part):
    """The assembly file."""

    materials: dict[Key, Material] = {}
    traced: list[Name] = []
    """Items of the type's list of which every serial records the serial number or the lot."""
    stages: list[Stage]
