"""The procedures of one serial: steps for equipment that it does not have are gone, the rest is numbered."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import count

from dossier.dossier import Dossier
from dossier.model.plan_view import StationPoint
from dossier.model.procedure import Procedure, ProcedureStep
from dossier.read.published import list_name

KINDS: dict[str, str] = {
    "rigging": "Procedures",
    "de-rigging": "Procedures",
    "preflight": "Procedures",
    "after-flight": "Procedures",
    "charging": "Procedures",
    "storage": "Procedures",
    "transport": "Procedures",
    "inspection": "Procedures",
    "emergency": "Emergencies",
}
"""Kind of procedure -> its group in the navigation, in the order of the navigation."""


@dataclass(frozen=True)
class NumberedStep:
    """A step with the number that it has in this serial's list."""

    number: int
    step: ProcedureStep
    hazards: tuple[str, ...]
    """Whose boxes stand before this step."""

    @property
    def anchor(self) -> str:
        """What a link to the step points at."""
        return f"step-{self.number}"


@dataclass(frozen=True)
class ListSection:
    """A section that has steps for this serial."""

    title: str
    note: str
    steps: tuple[NumberedStep, ...]
    if_not: str
    """What to do if a check of it fails that says nothing itself."""
    station: StationPoint | None
    """Where it is done, if the list says so."""
    stop: str | None = None
    """How the crew leaves the aircraft if it stops behind it, perhaps empty; None where it may not stop."""


@dataclass(frozen=True)
class List:
    """A procedure as one serial has it."""

    name: str
    """The name of its file, without ending."""
    procedure: Procedure
    path: str
    hazards: tuple[str, ...]
    """Whose boxes stand at the head."""
    sections: tuple[ListSection, ...]
    options: tuple[str, ...]
    """Optional items, by name, on which some step of the procedure depends."""
    by_battery: bool
    """Whether some step depends on the battery that is fitted."""

    @property
    def steps(self) -> tuple[NumberedStep, ...]:
        """All steps in order."""
        return tuple(step for section in self.sections for step in section.steps)

    def takes_out(self, kits: Collection[str]) -> bool:
        """Whether one of its steps takes a kit out of its place: until then what it counts is stowed."""
        acts = (act for numbered in self.steps for act in numbered.step.acts)
        return any(act.act == "fetch" and set(act.what) & set(kits) for act in acts)

    @property
    def is_emergency(self) -> bool:
        """Whether there is no time for ticks, counts and signatures."""
        return self.procedure.kind == "emergency"


def lists(dossier: Dossier) -> tuple[List, ...]:
    """Number every procedure for the serial, in the order of the navigation: kind, order in it, file name.

    A procedure all of whose steps are for equipment that the serial does not have is not among them.
    """
    procedures = dossier.project.procedures
    of_kind = Counter(str(procedure.kind) for procedure in procedures.values())

    def place(name: str) -> tuple[int, int, str]:
        return list(KINDS).index(procedures[name].kind), procedures[name].order, name

    def path(name: str) -> str:
        return _path(name, procedures[name].kind, alone=of_kind[procedures[name].kind] == 1)

    in_order, fitted = sorted(procedures, key=place), (dossier.state.left_out, dossier.battery_of_lists)
    made = (_list(name, procedures[name], path(name), fitted) for name in in_order)
    return tuple(one for one in made if one.steps)


def _list(name: str, procedure: Procedure, path: str, fitted: tuple[Collection[str], str]) -> List:
    steps = [step for section in procedure.sections for step in section.steps]
    asked = (item for step in steps for item in (step.option, step.without) if item is not None)
    sections = tuple(_sections(procedure, fitted))
    by_battery = any(step.for_battery for step in steps)
    hazards = tuple(map(str, procedure.hazards))
    return List(name, procedure, path, hazards, sections, tuple(dict.fromkeys(map(str, asked))), by_battery)


def _sections(procedure: Procedure, fitted: tuple[Collection[str], str]) -> Iterator[ListSection]:
    numbers = count(1)
    for number, section in enumerate(procedure.sections, start=1):
        steps = [step for step in section.steps if step.applies(*fitted)]
        kept = tuple(NumberedStep(next(numbers), step, tuple(map(str, step.hazards))) for step in steps)
        if kept:
            note, if_not = section.note or "", section.if_not or ""
            stop = (section.leaves or "") if section.stop and number < len(procedure.sections) else None
            yield ListSection(section.title, note, kept, if_not, section.station, stop)


def _path(file_name: str, kind: str, *, alone: bool) -> str:
    if alone and kind != "emergency":
        return f"{kind}.md"
    plain = list_name(file_name)
    return f"{plain}.md" if plain.startswith(kind) else f"{kind}-{plain}.md"
