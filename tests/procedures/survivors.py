"""Why a spoiled list may pass: it is as good as the other one, or it shows a weakness of the verifier that
has a name."""

from __future__ import annotations

import re

from dossier.procedures.acts import CHECKING
from dossier.procedures.listing import Step
from procedures.mutants import MOVED, Mutant, are_independent

_LOOKING = (*CHECKING, "check", "count", "see_isolated")
_REPEATABLE = (*_LOOKING, "isolate", "energise", "clear_propeller")

EQUIVALENT = {
    ("swapped", "Swing the left wing half out."): "left and right are opened by the same person, in either "
    "order",
    ("swapped", "Swing the right wing in to the keel."): "left and right are folded in either order",
    ("swapped", "Count the loose items."): "the pieces are counted as they lie in the closed pouch",
    ("swapped", "Lay the loose items on the cloth."): "the pieces are counted as they lie in the pouch",
    ("swapped", "Let go of the right tip slowly."): "the joint is locked already; its mark is looked at "
    "from either tip",
    ("swapped", "Pull the right panel outward and rock it fore and aft at the root."): "the connector may "
    "be joined before "
    "the panel is pulled",
    ("swapped", "Lift each end of the tailplane lightly, then push it fore and aft."): "the connector may "
    "be joined before "
    "the tailplane is "
    "lifted",
    ("swapped", "Look at the main disconnect."): "the hatch shows no live contact while the bay is empty",
    (
        "swapped",
        "Push the sleeve back and take the right aileron connector off its ball.",
    ): "the tip may be held earlier",
    (
        "swapped",
        "Push the sleeve back and take the left aileron connector off its ball.",
    ): "the tip may be held earlier",
    ("moved to the end", "Unhook both pod props."): "props that stay hooked hold the pod for longer",
    ("swapped", "Turn the key to 0 and take it out."): "both stop the motor; either comes first",
    ("moved to the end", "Push the airbrake lever forward until it goes over centre."): "the airbrakes may "
    "be closed and "
    "tried last",
    ("swapped", "Close the hand throttle."): "both stop the motor; either comes first",
    ("swapped", "Look at both airbrake couplings with the mirror."): "the couplings can be seen through the "
    "root windows when the seals are in",
}
"""Kind and step -> why the spoiled list is as good."""

WEAK = "weakness: "
"""How a reason begins that is none: the list is worse, and the verifier does not see it."""
WEAKNESSES: dict[str, str] = {
    "limit of the same kind": "two limits of one kind, and no word of the step tells which is meant",
    "limit of another kind": "no word of the step tells what is measured",
    "if_not deleted": "rigging.yaml asks for no remedy of what this step does",
    "critical deleted": "a step that touches nothing critical is critical by its builder's word alone",
    "picture deleted": "rigging.yaml asks for no picture of it",
    "direction reversed": "no word of the step tells which way its control is moved",
    "tool deleted": "rigging.yaml asks for no tool here",
    "verb weakened": "no act of the step asks for a firm hand",
    "stray step in words": "its words name nothing of rigging.yaml that a rule knows",
    "stray step with its act": "a coupling that comes apart with its part is undone by the list anyway",
}
"""Kind -> what the verifier cannot see, where nothing else explains the survivor."""


def explanation(mutant: Mutant) -> str | None:
    """Say why a mutant may survive, or which weakness it shows; None if neither is known."""
    steps = mutant.good.run_of(mutant.procedure).steps
    step, later = steps[mutant.step - 1], steps[mutant.step :]
    key = (mutant.kind, mutant.text)
    if key in EQUIVALENT:
        return EQUIVALENT[key]
    if mutant.kind == "duplicated" and _is_only(step, _REPEATABLE):
        return "looking, isolating or calling twice harms nothing"
    if mutant.kind == "swapped" and _is_only(step, _LOOKING) and _is_only(later[0], _LOOKING):
        return "both steps only look"
    if mutant.kind == "swapped" and are_independent(mutant, step, later[0]):
        return "rigging.yaml says of the two steps that either may come first"
    if mutant.kind in ("moved to the end", MOVED) and _is_only(step, _LOOKING):
        return "it only looks, and nothing of rigging.yaml waits for it"
    if mutant.kind == MOVED:
        return _moved(mutant, step, steps)
    if mutant.kind == "moved to the end" and all(_may_wait(mutant, step, one) for one in later):
        return "nothing of rigging.yaml waits for it"
    if mutant.kind.startswith("hazard"):
        return _hazard(mutant, step, steps)
    return _in_words(mutant, step)


def _in_words(mutant: Mutant, step: Step) -> str | None:
    written, section = (
        step.written,
        mutant.good.run_of(mutant.procedure).listing.procedure.sections[step.section],
    )
    if mutant.kind == "if_not deleted" and section.if_not and not written.critical:
        return "the remedy of its section stands"
    said = " ".join(map(str, (written.do, written.expect, written.second_check))).lower()
    if mutant.kind == "verb weakened" and re.match(r"(?:Read|Measure)\b", str(written.do)):
        return "the expected state asks for the value all the same"
    if mutant.kind == "tool deleted" and str(written.tool).lower().split()[-1] in said:
        return "the words of the step name the tool"
    weakness = WEAKNESSES.get(mutant.kind)
    return weakness and WEAK + weakness


def _moved(mutant: Mutant, step: Step, steps: tuple[Step, ...]) -> str:
    flat = [one for section in mutant.make().sections for one in section.steps]
    to = next(index for index, one in enumerate(flat) if one is step.written)
    at = step.number - 1
    passed = steps[at + 1 : to + 1] if to > at else steps[to:at]
    if all(_may_wait(mutant, step, one) for one in passed):
        return "rigging.yaml says of none of the steps passed that it waits for this one"
    return (
        WEAK
        + "the step passes one that has to do with it, and no condition of rigging.yaml tells their order"
    )


def _may_wait(mutant: Mutant, step: Step, later: Step) -> bool:
    return are_independent(mutant, step, later) or _is_only(later, _LOOKING)


def _is_only(step: Step, verbs: tuple[str, ...]) -> bool:
    return all(doing.verb in verbs for doing in step.doings)


def _hazard(mutant: Mutant, step: Step, steps: tuple[Step, ...]) -> str | None:
    """A box may be gone where it stands earlier too, and may come later where what it guards comes later
    still."""
    earlier = {str(name) for one in steps[: mutant.step - 1] for name in one.written.hazards}
    if set(map(str, step.written.hazards)) <= earlier:
        return "the same box stands before an earlier step"
    places = mutant.good.system.rigging.warnings
    late = mutant.kind == "hazard one step late"
    guarded = {
        str(name)
        for hazard in step.written.hazards
        for place in places.get(hazard, ())
        for name in place.before
    }
    if late and not guarded & {doing.name for doing in step.doings}:
        return "what the box guards begins in a later step"
    return None
