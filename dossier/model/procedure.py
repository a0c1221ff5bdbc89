"""``hazards.yaml`` and ``procedures/*.yaml``: what can hurt, and what is done in which order."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from dossier.model.applicability import Applicability
from dossier.model.base import Part
from dossier.model.plan_view import StationPoint
from dossier.model.scalars import (
    Count,
    Duration,
    FilePath,
    Flag,
    Key,
    Name,
    Names,
    OneOf,
    Ratio,
    Text,
    Torque,
)

OBJECTS: Mapping[str, tuple[str, ...]] = {
    "fetch": ("parts", "items", "kits"),
    "place": ("parts",),
    "remove": ("parts",),
    "stow": ("parts", "items", "kits"),
    "hold": ("parts",),
    "let_go": ("parts",),
    **dict.fromkeys(
        ("engage", "lock", "torque", "safety", "release", "unlock", "open", "disturb"), ("connections",)
    ),
    **dict.fromkeys(("look", "pull_test", "inspect", "positive_check", "sense"), ("connections",)),
    "check": ("checks",),
    "count": ("items", "kits"),
    "cover": ("covers",),
    "uncover": ("covers",),
    "set": ("settings",),
    **dict.fromkeys(("isolate", "energise", "see_isolated"), ("circuits",)),
    **dict.fromkeys(("clear_propeller", "pause", "resume"), ()),
}
"""Verb -> what it may be done to: mappings of rigging.yaml."""
VERBS = tuple(OBJECTS)
"""What an act may be."""

KINDS_OF_LIST = (
    "rigging",
    "de-rigging",
    "preflight",
    "charging",
    "storage",
    "emergency",
    "transport",
    "inspection",
    "after-flight",
)


class Hazard(Part):
    """What can hurt, what follows, how to avoid it. ``{name_of_a_limit}`` stands for the value of that
    limit."""

    word: Annotated[str, OneOf("danger", "warning", "caution", "notice")]
    """Danger: death or serious injury will follow. Warning: could follow. Caution: minor or moderate injury
    could follow. Notice: damage, no injury."""
    hazard: Text
    consequence: Text
    avoidance: Text
    source: Text | None = None
    """Where the advice comes from, if from outside."""
    topic: Annotated[
        str,
        OneOf(
            "battery", "propeller", "rigging", "controls", "flight", "ground", "charging", "fire", "weather"
        ),
    ]


class Hazards(Part):
    """The hazards file."""

    hazards: dict[Key, Hazard]


class Tightening(Part):
    """A torque, for which fastener, and after which source."""

    value: Torque
    fastener: Text
    """Which thread, and which nut: ``1/4-28 bolt with a shear castle nut``. Where the source is AC 43.13-1B,
    table 7-1, thread and nut are looked up in it."""
    drag: Torque | None = None
    """Torque with which the nut runs down freely; it is added to the table's value."""
    source: Text


class Picture(Part):
    """A photo or drawing that a step shows: what is to be seen when the step is done."""

    file: FilePath
    """PNG or JPEG, in the folder of the type, such as ``pictures/main-pin.png``."""
    shows: Text
    """What is to be seen, in words: stands below the picture, and in its place for whoever does not see it."""  # noqa: E501 - its first line is the help where the key is missing


class Act(Part):
    """What a step does to an object of rigging.yaml, so that the list can be verified."""

    act: Annotated[str, OneOf(*VERBS)]
    """Parts: fetch, place, remove, stow, hold, let_go. Loose items and kits: fetch, count, stow.
    Connections: engage, lock, torque, safety;
    release (takes the safety part off), unlock, open, disturb (touches what was checked); look (at its
    mark), pull_test, inspect (complete),
    positive_check (held against its control, by two), sense (moved fully, the right way). Covers: cover,
    uncover. Settings: set. Checks: check.
    Circuits: isolate, energise, see_isolated. Without an object: clear_propeller, pause, resume."""
    what: Names = []
    """One name of rigging.yaml, or a list of names."""
    by: list[Name] = []
    """Roles; left out, those whom the step's ``by`` names, else the first role. In a second check: those whom
    its words name, else whoever did not do the step."""
    to: Name | None = None
    """For ``set``: the new position."""
    number: Count | None = None
    """For ``count``: how many pieces the text says there are."""
    how: Annotated[str, OneOf("carry", "roll", "slide")] = "carry"
    """For moving a part: what rolls or slides is not lifted."""
    share: Ratio | None = None
    """For moving a part: the share of its mass that is off the ground at a time, such as 50 % for one end."""


class CardWords(Part):
    """A step in few words, for its printed card when the whole words of the list do not fit on one sheet.
    What is left out here is said in whole words. A limit of the whole words stands here too."""

    do: Text | None = None
    expect: Text | None = None
    second_check: Text | None = None


class ProcedureStep(Applicability):
    """One step: one action. ``{name_of_a_limit}`` in its texts stands for the value of that limit."""

    do: Text
    """What is done, as a command."""
    expect: Text
    """The state or value that then is seen, not "checked"."""
    hazards: list[Name] = []
    """Hazards that begin here; their boxes stand before the step."""
    by: Text | None = None
    """Who does it, where that matters: pilot, helper at the wing tip."""
    second_check: Text | None = None
    """What another person looks at or moves, before the next step."""
    critical: Flag = False
    """True if a fault here can cost the aircraft."""
    if_not: Text | None = None
    """What to do if the expected state is not there."""
    torque: Tightening | None = None
    tool: Text | None = None
    time: Duration | None = None
    """How long it lasts, or how long to wait, where that matters."""
    signs: Text | None = None
    """Who signs for this step, by role, besides those who sign the list."""
    picture: Picture | None = None
    """What is to be seen, as a photo or drawing: stands beside the step."""
    on_card: CardWords | None = None
    """The step in few words, for a card that else is too long for one sheet."""
    acts: list[Act] = []
    """What the step does, for the verifier. One act a step is the rule."""
    second_acts: list[Act] = []
    """What the second check does, for the verifier."""
    together: Text | None = None
    """Why two actions cannot be parted, where a step has two."""
    differs: Text | None = None
    """Why the words name another thing, side or person than the acts, where that is meant."""


class Section(Part):
    """A group of steps: a place on the walk round, a stage of the work."""

    title: Text
    note: Text | None = None
    steps: list[ProcedureStep]
    if_not: Text | None = None
    """What to do if a check of the section fails that says nothing itself."""
    stop: Flag = False
    """True if the crew may stop after this section, and take apart or go on from there."""
    leaves: Text | None = None
    """With ``stop``: how the crew leaves the aircraft if it stops there, and what it still needs."""
    station: StationPoint | None = None
    """Where it is done, for the drawing from above on the page of the list."""


class Procedure(Part):
    """A procedure file. ``{name_of_a_limit}`` stands for the value of that limit in the purpose, the closing,
    the notes and the texts of steps, and is refused in titles and names."""

    title: Text
    kind: Annotated[
        str,
        OneOf(*KINDS_OF_LIST),
    ]
    purpose: Text
    people: Count
    """How many are needed."""
    duration: Duration | None = None
    """How long it takes; left out where every step states its time: then it is their sum."""
    signs: list[Text] = []
    """Who signs the whole list, by role; left out, as many as are needed."""
    tools: list[Text] = []
    loose_items: list[Text] = []
    """Pins, clips, covers: counted at the start and at the end."""
    hazards: list[Name] = []
    """Hazards of the whole procedure; their boxes stand at its head."""
    order: Count = 50
    """Where it stands among procedures of the same kind."""
    starts_from: Name | None = None
    """A state of rigging.yaml. With ``ends_in``, the procedure is replayed; all but emergencies have both."""
    ends_in: Name | None = None
    """A state of rigging.yaml."""
    sections: list[Section]
    closing: Text
    """The line that says the procedure is complete."""

    @property
    def pictures(self) -> tuple[Picture, ...]:
        """Every picture of its steps, in order."""
        steps = (step for section in self.sections for step in section.steps)
        return tuple(step.picture for step in steps if step.picture)
