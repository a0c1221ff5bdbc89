"""A step that undoes something and has no business in the list: with its act, and in words alone."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.model.procedure import Act, ProcedureStep
from dossier.procedures.listing import Step
from dossier.procedures.run import Run
from dossier.procedures.state import Fact, State

_PHRASES = (
    "Undo the {}.",
    "Slide the sleeve of the {} back.",
    "Back off the {} by one turn.",
    "Draw the {} once and wipe it.",
    "Ease the {} loose.",
    "Open the {}.",
)

_BLANK: dict[str, object] = {
    **dict.fromkeys(
        ("by", "second_check", "torque", "tool", "time", "picture", "on_card", "together", "differs"), None
    ),
    "hazards": [],
    "critical": False,
    "acts": [],
    "second_acts": [],
}


def stray_steps(run: Run, after: Step) -> Iterator[tuple[str, list[ProcedureStep]]]:
    """Make the strays behind a step: each a joint that is made by then, another joint for another step.

    Args:
        run: the replay of the good list.
        after: the step behind which a stray is put.
    """
    state = _state_behind(run, after)
    made = [name for name, joint in state.joints.items() if Fact.ENGAGED in joint.facts]
    if not made:
        return
    name = made[after.number % len(made)]
    verb = "release" if Fact.SAFETIED in state.joints[name].facts else "open"
    words = _PHRASES[after.number % len(_PHRASES)].format(run.system.called(name))
    # a remedy, so that it is not told for the want of one
    plain = after.written.model_copy(
        update={**_BLANK, "do": words, "expect": "It is loose.", "if_not": "Ask."}
    )
    act = Act.model_construct(act=verb, what=[name])
    yield "stray step with its act", [after.written, plain.model_copy(update={"acts": [act]})]
    yield "stray step in words", [after.written, plain]


def _state_behind(run: Run, step: Step) -> State:
    state = run.start
    for moment in run.moments:
        if moment.doing.step.number > step.number:
            break
        state = moment.after
    return state
