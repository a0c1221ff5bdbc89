"""What a crew that begins in the middle of a list passes over: steps whose work is done."""

from __future__ import annotations

from dossier.model.rigging import Condition
from dossier.procedures.acts import ADDS, MAKING, TAKES
from dossier.procedures.listing import Doing
from dossier.procedures.state import Fact, PartState, State, Where
from dossier.procedures.system import System


def already(state: State, doing: Doing, system: System, *, forward: bool | None = None) -> bool:
    """Whether an act finds its work done: people who begin from the middle pass over such a step.

    Args:
        state: before the act.
        doing: the act.
        system: the variant.
        forward: for a setting with stages, whether the list leads to later ones; then a stage left behind
        counts as done.
    """
    verb, name = doing.verb, doing.name
    if name in state.joints:
        facts = state.joints[name].facts
        if verb in MAKING:
            return ADDS[verb] in facts
        if verb in TAKES:
            return not TAKES[verb] & facts
        return doing.step.written.critical is False and Fact.ENGAGED not in facts
    if name in state.parts:
        return _part_already(state.parts[name], verb)
    if verb in ("fetch", "stow"):
        pieces = [state.pieces[piece] for piece in system.pieces_of(name)]
        return all((one.home if verb == "fetch" else one.out) == 0 for one in pieces)
    if verb in ("cover", "uncover"):
        return (name in state.open_covers) == (verb == "uncover")
    if verb == "check":
        return _has_nothing_to_see(state, system.checks[name].before)
    return verb == "set" and _set_already(state.settings[name], doing, system, forward)


def _has_nothing_to_see(state: State, before: Condition | None) -> bool:
    """Whether a check looks at joints or parts that are past it: nobody looks for what is not there."""
    if before is None:
        return False
    wrong = [
        (Fact.ENGAGED in state.joints[str(name)].facts) is not wanted
        for names, wanted in ((before.joined, True), (before.apart, False))
        for name in names
        if name in state.joints
    ]
    wrong += [
        (state.parts[str(name)].where is Where.PLACED) is not wanted
        for names, wanted in ((before.placed, True), (before.away, False))
        for name in names
        if name in state.parts
    ]
    return any(wrong)


def _set_already(position: str, doing: Doing, system: System, forward: bool | None) -> bool:
    setting = system.settings[doing.name]
    if not setting.stages or forward is None:
        return position == doing.act.to
    stages = list(setting.positions)
    now, then = stages.index(position), stages.index(str(doing.act.to))
    return then <= now if forward else then >= now


def _part_already(part: PartState, verb: str) -> bool:
    return {
        "fetch": part.where is not Where.HOME,
        "place": part.where is Where.PLACED,
        "remove": part.where is not Where.PLACED,
        "stow": part.where is Where.HOME,
        "hold": part.where is not Where.PLACED,
        "let_go": not part.held,
    }[verb]
