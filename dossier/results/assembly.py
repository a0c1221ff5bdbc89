"""The assembly record of one serial: the steps of the type, and what the record has for each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from dossier.findings import Finding
from dossier.model.assembly import Assembly, AssemblyStep
from dossier.model.events import Event, FlightTest, Inspection, PackFitted, Weighing
from dossier.model.record import AssemblyEntry, Nonconformity, SerialRecord
from dossier.replay import State
from dossier.results.assembly_cures import LoggedCure
from dossier.results.assembly_tolerances import Held

PASSED = ("done", "accepted with reason")
_EVENTS: dict[str, type[Weighing | PackFitted | Inspection | FlightTest]] = {
    "weighing": Weighing,
    "pack-fitted": PackFitted,
    "inspection": Inspection,
    "flight-test": FlightTest,
}


@dataclass(frozen=True)
class Block:
    """One thing that keeps a serial from delivery."""

    subject: str
    state: str
    """In words, such as ``open`` or ``out of tolerance``."""
    reason: str
    fails: bool
    """True for what is known to be wrong; false for what is only open."""


@dataclass(frozen=True)
class StepRecord:
    """A step with all that the serial's record has for it by the date."""

    name: str
    """As assembly.yaml has it; empty where the entry says in words what was done."""
    title: str
    step: AssemblyStep | None
    entries: tuple[AssemblyEntry, ...]
    """Oldest first; the last one counts."""
    event: Event | None
    """What stands for the entry, if the step is shown by an event."""
    nonconformities: tuple[Nonconformity, ...]

    @property
    def entry(self) -> AssemblyEntry | None:
        """The entry that counts."""
        return self.entries[-1] if self.entries else None

    @property
    def begun(self) -> date | None:
        """The day of the first entry, or of the event."""
        days = [entry.date for entry in self.entries if entry.date] or (
            [self.event.date] if self.event else []
        )
        return min(days, default=None)

    def signed(self, entry: AssemblyEntry | None) -> date | None:
        """The day on which every signature that the step asks for stood; None if one is missing."""
        if entry is None:
            return self.event.date if self.event else None
        needs_two = self.step is not None and self.step.checked_by is not None
        if (
            entry.result not in PASSED
            or entry.date is None
            or not entry.by
            or (needs_two and not entry.checked_by)
        ):
            return None
        return max(entry.date, entry.checked or entry.date)

    @property
    def released(self) -> date | None:
        """The first day on which the step was done and fully signed."""
        days = [self.signed(entry) for entry in (self.entries or (None,))]
        return min((day for day in days if day), default=None)

    @property
    def is_accepted(self) -> bool:
        """Whether a fault of this step was accepted as it is, with a reason."""
        own = (
            self.entry is not None and self.entry.result == "accepted with reason" and bool(self.entry.reason)
        )
        return own or any(
            one.disposition == "accepted" and one.reason and one.closed for one in self.nonconformities
        )

    @property
    def is_undecided(self) -> bool:
        """Whether a nonconformity of this step is open."""
        return any(one.closed is None for one in self.nonconformities)


@dataclass(frozen=True)
class StageRecord:
    """A stage with the steps that this serial has."""

    name: str
    acceptance: bool
    steps: tuple[StepRecord, ...]
    beside: bool = False
    """Whether it waits for no hold of the stages before it."""


@dataclass(frozen=True)
class AssemblyRecord:
    """How a serial was put together, by the date of the dossier."""

    stages: tuple[StageRecord, ...]
    nonconformities: tuple[Nonconformity, ...]
    findings: tuple[Finding, ...] = field(default=(), repr=False)
    blocks: tuple[Block, ...] = ()
    """What keeps the serial from delivery; empty if nothing on record does."""
    judged: Mapping[str, tuple[tuple[Held, ...], ...]] = field(default_factory=dict)
    """Step -> for each of its entries, every value held against its limits."""
    cures: Mapping[tuple[str, int], LoggedCure] = field(default_factory=dict)
    """Step and number of the entry from 0 -> its cure as the log has it, where that is a file."""

    @property
    def steps(self) -> tuple[StepRecord, ...]:
        """All steps in order."""
        return tuple(step for stage in self.stages for step in stage.steps)


def stages(assembly: Assembly | None, record: SerialRecord, state: State) -> tuple[StageRecord, ...]:
    """Put the entries of a serial to the steps of the type; without assembly.yaml each is its own."""
    if assembly is None:
        entries = [entry for entry in record.assembly if entry.date is None or entry.date <= state.as_of]
        steps = tuple(_step("", None, (entry,), record, state) for entry in entries)
        return (StageRecord("", False, steps),) if steps else ()
    left_out = frozenset(map(str, record.items_left_out))
    return tuple(
        StageRecord(
            str(stage.name),
            stage.acceptance,
            tuple(
                _step(name, step, _entries(name, record, state.as_of), record, state)
                for name, step in stage.steps.items()
                if step.option is None or str(step.option) not in left_out
            ),
            stage.beside,
        )
        for stage in assembly.stages
    )


def _entries(name: str, record: SerialRecord, as_of: date) -> tuple[AssemblyEntry, ...]:
    return tuple(
        entry
        for entry in record.assembly
        if entry.step == name and (entry.date is None or entry.date <= as_of)
    )


def _step(
    name: str,
    step: AssemblyStep | None,
    entries: tuple[AssemblyEntry, ...],
    record: SerialRecord,
    state: State,
) -> StepRecord:
    title = str(step.do if step else entries[0].step).rstrip(".")
    known = {name} if step else {title, str(entries[0].step)}
    event = next(iter(_events(step, state)), None) if step and not entries else None
    found = tuple(
        one for one in nonconformities(record, state.as_of) if one.step is not None and str(one.step) in known
    )
    return StepRecord(name, title, step, entries, event, found)


def _events(step: AssemblyStep, state: State) -> Iterator[Event]:
    """The events that show a step; an inspection that left something open shows nothing yet."""
    if step.shown_by is not None:
        for event in state.of_kind(_EVENTS[step.shown_by]):
            if not (isinstance(event, Inspection) and event.open_items):
                yield event


def nonconformities(record: SerialRecord, as_of: date) -> tuple[Nonconformity, ...]:
    """List the nonconformities found up to a date; one that was closed later was open then."""
    found = [one for one in record.nonconformities if one.found <= as_of]
    return tuple(
        one.model_copy(update={"closed": None}) if one.closed and one.closed > as_of else one for one in found
    )
