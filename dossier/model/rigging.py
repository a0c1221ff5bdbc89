"""``rigging.yaml``: what is joined to what, what lies loose, who works, what is live. Procedures are
verified against it."""

from __future__ import annotations

from typing import Annotated

from dossier.model.applicability import Applicability
from dossier.model.base import Part
from dossier.model.battery import Size
from dossier.model.movement import Movement
from dossier.model.procedure import KINDS_OF_LIST, VERBS
from dossier.model.rigging_bounds import Lifting, WarningPlaces, Wording
from dossier.model.scalars import Count, Flag, Key, Mass, Name, OneOf, Text, Torque

CONNECTION_KINDS = (
    "structural pin",
    "bolt and nut",
    "manual control",
    "self-connecting control",
    "power plug",
    "signal or pitot",
    "strap or hook",
)


class Condition(Part):
    """What must be so before something is done."""

    joined: list[Name] = []
    """Connections that are engaged, and locked if they have a lock."""
    secured: list[Name] = []
    """Connections that have all their mechanical facts, the safety part among them."""
    apart: list[Name] = []
    """Connections that are not engaged."""
    placed: list[Name] = []
    """Parts that are in place."""
    away: list[Name] = []
    """Parts that are not in place."""
    held: list[Name] = []
    """Parts that somebody holds."""
    closed: list[Name] = []
    """Covers that are closed."""
    opened: list[Name] = []
    """Covers that are open."""
    checked: list[Name] = []
    """Checks that were done earlier in the same procedure."""
    isolated: list[Name] = []
    """Circuits that are isolated, and were seen to be so in the same procedure."""
    live: list[Name] = []
    """Circuits that are energised."""
    settings: dict[Key, Name] = {}
    """Levers, locks and flagged things, each with the position that it must have."""


class Person(Part):
    """Somebody who works: a role, not a name."""

    name: Text
    """The word that stands in ``by`` of a step, such as: Second person."""


class NamedState(Part):
    """A state in which a crew may leave the aircraft, and from which a procedure may start."""

    name: Text
    complete: Flag = False
    """True if every flight-critical connection must be made, secured and checked in it, and every cover
    closed."""
    needs: Condition | None = None
    """What else must be so in it."""


class Load(Applicability):
    """A part that is taken apart and put together: a wing panel, a tailplane, a battery."""

    name: Text
    mass: Mass | None = None
    items: list[Name] = []
    """Items of the type's list whose masses make up this part, instead of a mass."""
    size: Size | None = None
    """Outer measures, as it is carried. A battery has those of its option."""
    battery: Flag = False
    """True for the traction battery: its mass is that of the option of battery.yaml which is fitted."""
    people: Count = 1
    """How many must move it, whatever it weighs: a long panel, a part with a handle on each side."""
    carried: Flag = False
    """True if carrying it to its place and away are steps of their own."""
    fixed: Flag = False
    """True if it is always in place: the pod, to which the others are joined."""
    before_moving: Condition | None = None
    before_letting_go: Condition | None = None
    """What must be so in its place before whoever holds it lets go."""
    held_until: list[Name] = []
    """Connections that must be made before whoever holds it may let go, and that may be opened only while it
    is held."""
    stands_with: dict[Key, Name] = {}
    """Settings, each with its position, without which it must be held: the stand under a wing tip."""
    rests_with: dict[Key, Name] = {}
    """Settings, each with its position, in which it rests by itself whatever is open: a wing with its nose
    on the ground."""


class Kit(Part):
    """What keeps loose items together: a pin box, a tool roll."""

    name: Text


class LooseItem(Applicability):
    """Pins, clips, bolts, tools: small things that are lost, left inside or left out."""

    name: Text
    count: Count
    kit: Name | None = None


class Setting(Applicability):
    """A lever, a lock, a stand, a thing with a red flag: something that has positions."""

    name: Text
    positions: dict[Key, Condition | None]
    """Each position, and what must be so before it is taken."""
    home: Name
    """The position in the home state."""
    stages: Flag = False
    """True if the positions follow one another: folded, half out, out."""


class Check(Applicability):
    """A look, a measurement or a trial that others depend on: the wind, the battery case, the rudder's
    direction."""

    name: Text
    critical: Flag = False
    """True if two people must make it."""
    required_in: list[Name] = []
    """Procedures, by file name, that must make it."""
    before: Condition | None = None
    """What must be so before it is made."""
    outside: Flag = False
    """True if somebody walks or reaches round the aircraft for it: never while the propeller can turn."""
    after: list[Name] = []
    """Connections, covers or settings after whose last change it must be made again."""
    ways: list[Movement] = []
    """For a look at the direction of a control that is no connection: what goes which way."""
    remedy: Flag = False
    """True if every list that makes it says what to do if it fails; emergencies excepted."""
    by_hand: Flag = False
    """True if a look shows nothing: its step pulls, pushes, presses or lifts."""
    tool: Text | None = None
    """The tool without which it shows nothing, such as: feeler gauge. The step that makes it names it."""


class Cover(Applicability):
    """A hatch, a seal, a zip: while it is closed, what lies under it cannot be seen."""

    name: Text
    hides: list[Name] = []
    """Connections that can be seen only while it is open."""
    window: Flag = False
    """True if they can still be looked at while it is closed, through a window or a hole."""
    open_at_home: Flag = False


class Fastening(Part):
    """Thread and nut of a joint that is tightened by torque."""

    thread: Text
    """As the table writes it, such as 1/4-28."""
    nut: Annotated[str, OneOf("tension", "shear", "tension self-locking", "shear self-locking")]
    drag: Torque | None = None
    """Torque with which the nut runs down freely; it is added to the table's value."""
    figure: Annotated[str, OneOf("table", "maker")]
    """Whether the torque comes from AC 43.13-1B, table 7-1, or from the maker of the joint."""
    rotates: Flag = False
    """True if bolt or nut turns in service."""


class WithItems(Part):
    """Which loose items make a connection."""

    engage: Name | None = None
    lock: Name | None = None
    safety: Name | None = None


class Connection(Applicability):
    """A joint, a control connector or a plug that must end up made, secured and checked."""

    name: Text
    kind: Annotated[str, OneOf(*CONNECTION_KINDS)]
    between: list[Name]
    """The parts that it joins; none for a plug of the charger, which goes into a battery wherever that is."""
    with_items: WithItems = WithItems()
    made_by_placing: Name | None = None
    """The part whose placing engages it, for what connects by itself."""
    lock: Annotated[str, OneOf("separate", "by engaging", "none")]
    """Whether locking is a step of its own, comes with engaging (a sprung sleeve), or does not exist."""
    safety: Flag = True
    """False if it has no safety part."""
    critical: Flag = False
    """True if the aircraft can be lost with it."""
    not_critical: Text | None = None
    """Why a control or a structural joint is not critical, if it is not."""
    pull_tested: Flag = False
    """True if it must be pulled after it is made; quick control connectors always must."""
    looked_at: Flag = False
    """True if its mark must be seen before the safety part goes in."""
    circuit: Name | None = None
    """The circuit that it carries, for a plug."""
    before_engaging: Condition | None = None
    before_opening: Condition | None = None
    """What must be so before its safety part, its lock or the joint itself is undone."""
    handed: Flag = False
    """True if the part of the other side would fit as well."""
    marking: Text | None = None
    """The key or colour that tells left from right."""
    fastening: Fastening | None = None
    ways: list[Movement] = []
    """Of a control: what goes which way."""
    remedy: list[Annotated[str, OneOf(*VERBS)]] = []
    """The acts whose steps say what to do if it does not go, in every list but emergencies."""
    tools: dict[Annotated[str, OneOf(*VERBS)], Text] = {}
    """Act -> the tool without which it cannot be done well: ``torque: torque wrench``."""
    pictures: dict[Annotated[str, OneOf(*VERBS)], list[Annotated[str, OneOf(*KINDS_OF_LIST)]]] = {}
    """Act -> the kinds of list whose first step that does it shows a picture of how it must look."""


class Circuit(Part):
    """A circuit that can hurt."""

    name: Text
    live_at_home: Flag = False
    propeller: Flag = False
    """True if the propeller can turn once it is energised."""
    live_by: list[Name] = []
    """Plugs that make it live as they are joined, where no switch lies between."""
    propeller_held_by: dict[Key, Name] = {}
    """Settings, each with its position, in which the propeller cannot turn: its strap tied."""
    before_energising: Condition | None = None


class Rigging(Part):
    """The rigging file."""

    home: Name
    """The state in which the aircraft is stored and carried."""
    states: dict[Key, NamedState]
    people: dict[Key, Person]
    """The first one does a step that names nobody."""
    parts: dict[Key, Load]
    kits: dict[Key, Kit] = {}
    items: dict[Key, LooseItem] = {}
    settings: dict[Key, Setting] = {}
    checks: dict[Key, Check] = {}
    covers: dict[Key, Cover] = {}
    connections: dict[Key, Connection]
    circuits: dict[Key, Circuit] = {}
    warnings: dict[Key, WarningPlaces] = {}
    """Hazards of hazards.yaml, by name; where one has several places, a list of them."""
    lifting: Lifting
    wording: Wording

    @property
    def ways(self) -> dict[str, tuple[Movement, ...]]:
        """The movements of every connection and check that has some, by name."""
        groups: tuple[dict[Key, Connection] | dict[Key, Check], ...] = (self.connections, self.checks)
        return {str(name): tuple(one.ways) for group in groups for name, one in group.items() if one.ways}
