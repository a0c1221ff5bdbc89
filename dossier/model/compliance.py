"""``compliance.yaml``: which rule sets the type is built to, how conformity is decided, what is
claimed in public."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import AnyQuantity, Date, FigureName, Key, Name, OneOf, Ratio, Text


class DecisionRule(Part):
    """How a measured value is held against a limit (JCGM 106). Agreed before the measurement."""

    kind: Annotated[str, OneOf("simple", "guarded")]
    """Simple: the value alone decides. Guarded: the value and its guard band must keep the limit."""
    coverage: Ratio | None = None
    """For a guarded rule: the one-sided probability that a value at the acceptance limit conforms, such
    as 95 %."""
    agreed: Date
    agreed_by: Text
    because: Text | None = None
    """Why this rule and not a stricter one."""


class Reliance(Part):
    """One rule set that the builder relies on."""

    rule_set: Name
    """The name of a rule set that the tool ships or of a file in ``rule_sets/`` of the project."""
    because: Text
    """Why this rule set applies."""
    battery_basis: Annotated[str, OneOf("counted", "not-counted")] = "counted"
    """Whether the traction battery counts in the empty weight. ``not-counted`` needs ``authority_letter``."""
    authority_letter: Text | None = None
    """What the authority wrote: from whom, to whom, when, and which words."""
    decision_rules: dict[Key, Name] = {}
    """Requirement -> decision rule, where it is not the usual one."""


class Declared(Part):
    """A fact that no measurement shows: the builder declares it and says on what ground."""

    value: Text
    ground: Text
    """What shows it: a drawing, an inspection, a document."""


QUANTITIES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        # the whole aircraft
        "take_off_mass": ("mass",),
        "wing_span": ("length",),
        "wing_area": ("area",),
        "aspect_ratio": ("number", "ratio"),
        # speeds and glides
        "stall_speed": ("speed",),
        "manoeuvring_speed": ("speed",),
        "level_speed": ("speed",),
        "least_sink": ("speed",),
        "best_glide_speed": ("speed",),
        "best_glide_sink": ("speed",),
        "best_glide_ratio": ("number", "ratio"),
        # power
        "level_power": ("power",),
        "climb_rate": ("speed",),
        "static_thrust": ("force",),
        "lift_off_speed": ("speed",),
        "take_off_run": ("length",),
        "propeller_diameter": ("length",),
        "trailer_width": ("length",),
        "rigging_time": ("time",),
        # how long and how far
        "endurance": ("time",),
        "range": ("length",),
        "height": ("length",),
        "fuel_equivalent": ("volume",),
        "fuel_equivalent_mass": ("mass",),
        # one battery
        "energy": ("energy",),
        "usable_energy": ("energy",),
        "pack_mass": ("mass",),
        "pack_volume": ("volume",),
        "specific_energy": ("specific_energy",),
        "full_voltage": ("voltage",),
        "half_voltage": ("voltage",),
        "empty_voltage": ("voltage",),
        "highest_voltage": ("voltage",),
        "charging_time": ("time",),
        "cycle_life": ("number", "ratio"),
        "calendar_life": ("time",),
    }
)
"""What a claim may be about, so that claims can be held against one another, and the kinds of value
it may have."""


class Claim(Part):
    """A number that the builder publishes."""

    text: Text
    """As it stands in public. ``{value}`` stands for the value."""
    where: Text
    """Where it is published."""
    value: AnyQuantity
    figure: FigureName | None = None
    """The computed figure that it is held against. Left out: that of its quantity and battery, where there is
    one."""
    relation: Annotated[str, OneOf("at least", "at most", "about")]
    tolerance: Ratio | None = None
    """For ``about``: how far off is still about."""
    quantity: Annotated[str, OneOf(*QUANTITIES)] | None = None
    """What it is a number of, for the claims to be held against one another. ``endurance``: in level
    flight, after the other phases of the profile; ``energy``: of the nameplate; ``usable_energy``: with
    the reserve kept."""
    battery: Name | None = None
    """Of which battery. Left out: of the one that ``figure`` names, or of the only one."""


class Compliance(Part):
    """The compliance file."""

    decision_rules: dict[Key, DecisionRule]
    usual_decision_rule: Name
    relies_on: list[Reliance]
    declared: dict[Key, Declared]
    """Facts by the name that requirements use, such as ``occupants``."""
    claims: dict[Key, Claim] = {}
