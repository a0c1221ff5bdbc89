"""The assembly record as a whole: holds, nonconformities, traced components, what keeps from delivery."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from dossier.model.assembly import Assembly
from dossier.model.record import Nonconformity, SerialRecord
from dossier.replay import State
from dossier.results.assembly import AssemblyRecord, Block, StageRecord, StepRecord, nonconformities, stages
from dossier.results.assembly_dates import date_problems
from dossier.results.assembly_step_checks import Problem, problems


def assembly_record(assembly: Assembly | None, record: SerialRecord, state: State) -> AssemblyRecord:
    """Check the assembly record of a serial.

    Args:
        assembly: what the type asks for; None if entries say in words what was done.
        record: the serial's record.
        state: the state by a date; what was entered for later days is left out.
    """
    made = AssemblyRecord(stages(assembly, record, state), nonconformities(record, state.as_of))
    found = [
        *(
            problem
            for step in made.steps
            for problem in problems(step, assembly.materials if assembly else {})
        ),
        *(problem for stage in made.stages for problem in _holds(stage, made.stages)),
        *date_problems(made, record),
        *(problem for one in made.nonconformities for problem in _nonconformity(one)),
        *(_traced(assembly, record, state) if assembly else ()),
    ]
    findings = tuple(problem.finding for problem in found)
    return replace(made, findings=findings, blocks=(*_not_completed(record, state), *_blocks(made, found)))


def _holds(stage: StageRecord, all_stages: Sequence[StageRecord]) -> Iterator[Problem]:
    """Each hold of a stage that something passed; holds of every other stage bind the acceptance."""
    for number, hold in enumerate(stage.steps):
        if hold.step is None or not hold.step.hold or hold.is_accepted:
            continue
        later = [*stage.steps[number + 1 :]]
        if not stage.acceptance:
            later += [step for other in all_stages if other.acceptance for step in other.steps]
        for step in later:
            if step.begun and (hold.released is None or step.begun < hold.released):
                yield _passed(hold, step)
                break


def _passed(hold: StepRecord, step: StepRecord) -> Problem:
    signed = f"before it was signed on {hold.released}" if hold.released else "and it is not signed"
    place = (
        step.entries[0].place_of_key("date")
        if step.entries
        else step.event.place_of_key("date")
        if step.event
        else None
    )
    return Problem(
        "A002",
        f"the hold {hold.name!r} was passed: {step.name!r} was begun on {step.begun}, {signed}",
        "have the hold looked at and signed; if it can no longer be seen, add a nonconformity that names it",
        place,
        "hold passed unsigned",
        subject=hold.title,
    )


def _nonconformity(one: Nonconformity) -> Iterator[Problem]:
    name = f"the nonconformity {str(one.number)!r}"
    if one.closed is None:
        yield Problem(
            "A007",
            f"{name} is open: {one.description}",
            "decide on it, do the work, and write the day, such as  closed: 2026-05-14",
            one.place,
            "open nonconformity",
            blocks=False,
        )
    elif one.disposition is None or not one.reason or not one.decided_by:
        missing = [
            word
            for word, there in (
                ("disposition", one.disposition),
                ("reason", one.reason),
                ("decided_by", one.decided_by),
            )
            if not there
        ]
        yield Problem(
            "A008",
            f"{name} was closed without {', '.join(missing)}",
            "say what was decided, why, and who decided it",
            one.place,
            "closed without a decision",
            subject=f"Nonconformity {one.number}",
        )


def _traced(assembly: Assembly, record: SerialRecord, state: State) -> Iterator[Problem]:
    for name in assembly.traced:
        fitted = record.fitted.get(str(name))
        replaced = any(event.serial_number or event.lot for event in state.changes_of(str(name)))
        if (
            name not in record.items_left_out
            and not replaced
            and (fitted is None or not (fitted.serial_number or fitted.lot))
        ):
            place = fitted.place if fitted else record.place_of_key("fitted")
            yield Problem(
                "A009",
                f"the record gives neither serial number nor lot of {str(name)!r}",
                f"add under fitted:  {name}: {{serial_number: ...}}",
                place,
                "serial number or lot missing",
                fails=False,
                subject=f"Component {name}",
            )


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
