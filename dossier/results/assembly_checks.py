"""The assembly record as a whole: holds, nonconformities, traced components, what keeps from delivery."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from dossier.model.aircraft import Item
from dossier.model.assembly import Assembly
from dossier.model.record import SerialRecord
from dossier.replay import State
from dossier.results.assembly import AssemblyRecord, Block, StepRecord, nonconformities, stages
from dossier.results.assembly_components import component_problems
from dossier.results.assembly_critical import Ways, critical_problems
from dossier.results.assembly_cures import NO_RUNS, Runs, logged_cure
from dossier.results.assembly_dates import date_problems
from dossier.results.assembly_holds import hold_problems
from dossier.results.assembly_nonconformities import nonconformity_problems
from dossier.results.assembly_step_checks import Problem, problems
from dossier.results.assembly_tolerances import held


def assembly_record(
    assembly: Assembly | None,
    record: SerialRecord,
    state: State,
    *,
    coverage: float | None = None,
    items: Mapping[str, Item] = MappingProxyType({}),
    cures: Runs = NO_RUNS,
    ways: Ways = MappingProxyType({}),
) -> AssemblyRecord:
    """Check the assembly record of a serial.

    Args:
        assembly: what the type asks for; None if entries say in words what was done.
        record: the serial's record.
        state: the state by a date; what was entered for later days is left out.
        coverage: the one-sided probability of the usual decision rule, none for simple acceptance.
        items: the type's list.
        cures: the logs of cures as read.
        ways: connections and checks of rigging.yaml, with which way their surfaces go.
    """
    made = AssemblyRecord(stages(assembly, record, state), nonconformities(record, state.as_of))
    judged = {
        step.name: tuple(tuple(held(step.step, entry, coverage, cures)) for entry in step.entries)
        for step in made.steps
        if step.step is not None
    }
    found = [
        *(
            problem
            for step in made.steps
            for problem in problems(step, assembly.materials if assembly else {}, coverage, cures)
        ),
        *(problem for step in made.steps for problem in critical_problems(step, ways)),
        *hold_problems(made.stages),
        *date_problems(made, record),
        *(problem for one in made.nonconformities for problem in nonconformity_problems(one, made)),
        *component_problems(assembly, record, state, items),
    ]
    findings = tuple(problem.finding for problem in found)
    blocks = (*_not_completed(record, state), *_blocks(made, found))
    logged = {
        (step.name, number): cure
        for step in made.steps
        if step.step is not None
        for number, entry in enumerate(step.entries)
        for cure in [logged_cure(step.step.cure, entry, cures)]
        if cure
    }
    return replace(made, findings=findings, blocks=blocks, judged=judged, cures=logged)


def _not_completed(record: SerialRecord, state: State) -> Iterator[Block]:
    completed = record.build.completed
    if completed is None or completed > state.as_of:
        yield Block("The build", "not completed", "No day of completion is on record by this date.", False)


def _blocks(made: AssemblyRecord, found: Sequence[Problem]) -> Iterator[Block]:
    for step in made.steps:
        yield from _open_step(step)
    for one in made.nonconformities:
        if one.closed is None:
            yield Block(f"Nonconformity {one.number}", "open", str(one.description), True)
    for problem in found:
        if problem.blocks:
            yield Block(problem.subject, problem.state, problem.message, problem.fails)


def _open_step(step: StepRecord) -> Iterator[Block]:
    entry = step.entry
    if entry is None and step.event is None:
        due = (
            f"It is shown by an event of kind {step.step.shown_by}."
            if step.step and step.step.shown_by
            else "No entry."
        )
        yield Block(step.title, "open", due, False)
    elif entry is not None and entry.result == "open":
        yield Block(step.title, "open", str(entry.reason or ""), False)
    elif entry is not None and entry.result == "out of tolerance" and step.is_undecided:
        yield Block(step.title, "out of tolerance", str(entry.reason or ""), True)
