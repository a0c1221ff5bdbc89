"""Inspection holds: nothing that waits for one is begun before every signature stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dossier.results.assembly import StageRecord, StepRecord
from dossier.results.assembly_step_checks import Problem


def hold_problems(stages: Sequence[StageRecord]) -> Iterator[Problem]:
    """Find each hold that was passed: told once, at the first step that did not wait.

    A hold binds every step behind it, in its stage and in all later ones; less only where the type says so:
    by ``binds`` of the hold, or by ``beside`` of a stage. The acceptance waits for every hold.
    """
    for at, stage in enumerate(stages):
        for number, hold in enumerate(stage.steps):
            if hold.step is None or not hold.step.hold or hold.is_accepted:
                continue
            waiting = [*stage.steps[number + 1 :], *_of_other_stages(stages, at)]
            for step in _bound(hold, waiting, stages):
                if step.begun and (hold.released is None or step.begun < hold.released):
                    yield _passed(hold, step)
                    break


def _of_other_stages(stages: Sequence[StageRecord], at: int) -> Iterator[StepRecord]:
    """List the steps of other stages that wait for a hold of the stage at a place."""
    for index, other in enumerate(stages):
        if index == at:
            continue
        waits_for_all = other.acceptance and not stages[at].acceptance
        if waits_for_all or (index > at and not other.beside):
            yield from other.steps


def _bound(
    hold: StepRecord, waiting: Sequence[StepRecord], stages: Sequence[StageRecord]
) -> Iterator[StepRecord]:
    assert hold.step is not None, "only a step of the type is a hold"
    binds = hold.step.binds
    if binds is None:
        yield from waiting
        return
    acceptance = {step.name for stage in stages if stage.acceptance for step in stage.steps}
    yield from (step for step in waiting if step.name in acceptance or step.name in binds)


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
