"""``compliance.yaml``: which rule sets the type is built to, how conformity is decided, what is claimed in public."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import AnyQuantity, Date, FigureName, Key, Name, OneOf, Ratio, Text


class DecisionRule(Part):
    """How a measured value is held against a limit (JCGM 106). Agreed before the measurement."""

    kind: Annotated[str, OneOf("simple", "guarded")]
    """Simple: the value alone decides. Guarded: the value and its guard band must keep the limit."""
    coverage: Ratio | None = None
    """For a guarded rule: the one-sided probability that a value at the acceptance limit conforms, such as 95 %."""
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


class Claim(Part):
    """A number that the builder publishes."""

    text: Text
    """As it stands in public. ``{value}`` stands for the value."""
    where: Text
    """Where it is published."""
    value: AnyQuantity
    figure: FigureName | None = None
    """The computed figure that it is held against; left out where nothing computes it yet."""
    relation: Annotated[str, OneOf("at least", "at most", "about")]
    tolerance: Ratio | None = None
    """For ``about``: how far off is still about."""


class Compliance(Part):
    """The compliance file."""

    decision_rules: dict[Key, DecisionRule]
    usual_decision_rule: Name
    relies_on: list[Reliance]
    declared: dict[Key, Declared]
    """Facts by the name that requirements use, such as ``occupants``."""
    claims: dict[Key, Claim] = {}
