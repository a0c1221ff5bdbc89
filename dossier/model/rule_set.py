"""A rule set: the requirements of one law or class, as data. The tool ships some; a project may add more."""

from __future__ import annotations

from typing import Annotated

from dossier.model.base import Part
from dossier.model.scalars import AnyQuantity, Date, FigureName, Flag, Key, Mass, Name, OneOf, Text

Excluded = Annotated[str, OneOf("parachute", "float", "hull", "outrigger")]
"""What an item of the type's list may be to a rule; the same words as ``allowance`` of an item."""
Relation = Annotated[str, OneOf("<", "<=", ">=", ">")]
"""The comparison as the law prints it: with ``<`` a value equal to the limit fails, with ``<=`` it passes."""


class RuleSource(Part):
    """Where a requirement was read."""

    title: Text
    publisher: Text
    edition: Text
    """The revision and its date."""
    basis: Annotated[str, OneOf("read", "read (secondary)", "memory")]
    """``read``: seen in a copy; ``read (secondary)``: a third party says so; ``memory``: recalled."""
    note: Text | None = None


class Fact(Part):
    """A fact that the rule set asks the builder to declare."""

    asks: Text
    """The question."""
    answers: list[Text] = []
    """The answers that are known; left out where the answer is a date or a quantity."""
    items: list[Excluded] = []
    """Without any such item in the serial the answer is ``without_items``, whatever the type declares."""
    without_items: Text | None = None


class Condition(Part):
    """When something applies, by a declared fact."""

    fact: Name
    one_of: list[Text] = []
    on_or_after: Date | None = None
    before: Date | None = None
    otherwise: Text
    """Why it does not apply where the fact is another, such as: no liquid fuel."""


class Exclusion(Part):
    """What the law leaves out of a mass."""

    item: Excluded
    cap: Mass
    """The most that is left out. What the item weighs beyond it counts."""
    each: Flag = False
    """True: the cap holds for each such item. False: one item alone, the heaviest, is left out."""
    source: Name


class Addition(Part):
    """What is added to a limit: an amount, or an amount for each ``per`` of a figure."""

    amount: AnyQuantity
    per: AnyQuantity | None = None
    figure: FigureName | None = None
    applies_if: list[Condition] = []


class FigureTest(Part):
    """A computed figure is held against a limit."""

    name: FigureName
    relation: Relation
    limit: AnyQuantity
    """In the unit of the law, and exact: the uncertainty is the measurement's alone."""
    additions: list[Addition] = []
    mass_basis: Annotated[str, OneOf("empty", "empty with rescue system", "take-off")] | None = None
    speed_basis: Annotated[str, OneOf("CAS", "IAS", "TAS")] | None = None
    configuration: Text | None = None
    exclusions: list[Exclusion] = []
    includes: list[Excluded] = []
    """Items that the law counts in: a serial without them has not shown the mass that the law means."""
    without_battery: FigureName | None = None
    """The same figure with the traction battery left out, where the law leaves open which one it means."""


class DeclaredTest(Part):
    """A declared fact must be one of some answers, or a declared quantity must keep a limit."""

    fact: Name
    one_of: list[Text] = []
    relation: Relation | None = None
    limit: AnyQuantity | None = None


class UnreadMethod(Part):
    """A method that a law or its guidance offers and whose values nobody here has read: a slot kept open.

    Nothing is estimated by it, and no requirement is met by it.
    """

    estimates: Text
    """What it would give, such as: the stall speed."""
    where: Text
    """Where in the source it stands, as far as that is known."""
    source: Name
    state: Annotated[str, OneOf("not read")]
    """There is no other state: a method that has been read becomes a formula with its own source."""


class Requirement(Part):
    """One requirement."""

    clause: Text
    statement: Text
    """In our own words."""
    figure: FigureTest | None = None
    declared: DeclaredTest | None = None
    applies_if: list[Condition] = []
    """All must hold. Alternatives of a law are requirements whose conditions exclude each other."""
    valid_from: Date | None = None
    valid_until: Date | None = None
    source: Name
    last_checked: Date | None = None
    """Left out: that of the rule set."""
    unsettled: list[Text] = []
    """Points that the law leaves open; they are printed with the verdict."""
    unread_methods: list[UnreadMethod] = []
    """Methods of estimating that are named and were not read."""


class RuleSet(Part):
    """The rule-set file."""

    rule_set: Name
    """The same as the name of the file."""
    title: Text
    jurisdiction: Text
    revision: Text
    valid_from: Date | None = None
    last_checked: Date
    scope: Text
    """What the rule set decides, and what it does not."""
    shows: Text | None = None
    """What is shown where every requirement that applies is met, as the words behind "it is shown that", such
    as: the aeroplane falls under the order."""
    lies_outside: Flag = False
    """True: an aircraft that keeps the rule set lies outside the law that the title names. What it keeps is
    counted apart, as conditions of scope, for it is no conformity with that law."""
    logic: list[Text] = []
    """How the requirements belong together."""
    unsettled: list[Text] = []
    sources: dict[Key, RuleSource]
    facts: dict[Key, Fact] = {}
    requirements: dict[Key, Requirement]
