"""A procedure as a variant has it: its steps numbered, each act with the object and the people that it
means."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from dossier.findings import Place
from dossier.model.procedure import Act, Procedure, ProcedureStep
from dossier.model.rigging import Person


@dataclass(frozen=True)
class Doing:
    """One act on one object."""

    act: Act
    verb: str
    name: str
    """The object; empty for acts that have none."""
    people: tuple[str, ...]
    """Roles."""
    step: Step
    second: bool
    """True if the second check does it."""


@dataclass(frozen=True, eq=False)
class Step:
    """One step of a list."""

    number: int
    """As the serial's own page numbers it, from 1."""
    written: ProcedureStep
    section: int
    """Index of its section."""
    doings: tuple[Doing, ...]

    @property
    def place(self) -> Place | None:
        """Where it stands in the file."""
        return self.written.place_of_key("do")


@dataclass(frozen=True, eq=False)
class Listing:
    """A procedure for one variant."""

    name: str
    """The file without its ending."""
    procedure: Procedure
    steps: tuple[Step, ...]

    @property
    def is_replayed(self) -> bool:
        """Whether it says from which state to which it leads, and is replayed."""
        return bool(self.procedure.starts_from and self.procedure.ends_in)

    @cached_property
    def doings(self) -> tuple[Doing, ...]:
        """Every act on every object, in order."""
        return tuple(doing for step in self.steps for doing in step.doings)

    def steps_to(self, section: int) -> tuple[Step, ...]:
        """Return the steps up to the end of a section."""
        return tuple(step for step in self.steps if step.section <= section)


def listing(
    name: str,
    procedure: Procedure,
    left_out: Collection[str],
    people: Mapping[str, Person],
    battery: str | None = None,
) -> Listing:
    """Make the list of a variant: steps for what it does not have are gone.

    Args:
        name: its file, without ending.
        procedure: as it is written.
        left_out: optional items that the variant does not have.
        people: roles of rigging.yaml.
        battery: the option of battery.yaml that is fitted; None keeps the steps for every battery.
    """
    kept = [
        (index, step)
        for index, section in enumerate(procedure.sections)
        for step in section.steps
        if step.applies(left_out, battery)
    ]
    return Listing(
        name,
        procedure,
        tuple(numbered(number, index, step, people) for number, (index, step) in enumerate(kept, start=1)),
    )


def numbered(number: int, section: int, step: ProcedureStep, people: Mapping[str, Person]) -> Step:
    """Make one step with its acts."""
    doers = named(step.by, people) or tuple(people)[:1]
    others = (
        named(step.second_check, people) or tuple(role for role in people if role not in doers)[:1] or doers
    )
    made = Step(number, step, section, ())
    doings = (
        *_doings(made, step.acts, doers, second=False),
        *_doings(made, step.second_acts, others, second=True),
    )
    object.__setattr__(
        made, "doings", tuple(doings)
    )  # a step and its acts name each other; nothing else sees the empty one
    return made


def named(text: str | None, people: Mapping[str, Person]) -> tuple[str, ...]:
    """Return the roles that a text names; ``Both`` names the first two, ``Everybody`` all."""
    if text is None:
        return ()
    low = text.lower()
    if low.startswith(("both", "everybody")):
        return tuple(people)[: 2 if low.startswith("both") else None]
    return tuple(role for role, person in people.items() if _is_word(person.name.lower(), low))


def _is_word(name: str, text: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(name)}(?!\w)", text) is not None


def _doings(step: Step, acts: list[Act], people: tuple[str, ...], *, second: bool) -> Iterator[Doing]:
    for act in acts:
        who = tuple(map(str, act.by)) or people
        for name in act.what or ("",):
            yield Doing(act, str(act.act), str(name), who, step, second)
