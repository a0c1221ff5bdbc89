"""Why a spoiled list may pass: it is as good as the other one, or it shows a weakness of the verifier that
has a name."""

from __future__ import annotations

from dossier.procedures.acts import CHECKING
from dossier.procedures.listing import Step
from procedures.mutants import Mutant, are_independent, good

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
    ("swapped", "Turn the key to 0 and take it out."): "both stop the motor; either comes first",
    ("moved to the end", "Push the airbrake lever forward until it goes over centre."): "the airbrakes may "
    "be closed and "
    "tried last",
    ("swapped", "Close the hand throttle."): "both stop the motor; either comes first",
}
"""Kind and step -> why the spoiled list is as good."""

WEAKNESSES: dict[tuple[str, str], str] = {}
"""Kind and step -> what the verifier cannot see. None is known in these lists."""


def explanation(mutant: Mutant) -> str | None:
    """Say why a mutant may survive, None if there is no reason known."""
    steps = good(mutant.project).run_of(mutant.procedure).steps
    step, later = steps[mutant.step - 1], steps[mutant.step :]
    key = (mutant.kind, mutant.text)
    if key in EQUIVALENT or key in WEAKNESSES:
        return EQUIVALENT.get(key) or WEAKNESSES[key]
    if mutant.kind == "duplicated" and _is_only(step, _REPEATABLE):
        return "looking, isolating or calling twice harms nothing"
    if mutant.kind == "swapped" and _is_only(step, _LOOKING) and _is_only(later[0], _LOOKING):
        return "both steps only look"
    if mutant.kind == "swapped" and are_independent(mutant, step, later[0]):
        return "rigging.yaml says of the two steps that either may come first"
    if mutant.kind == "moved to the end" and _is_only(step, _LOOKING):
        return "it only looks, and nothing of rigging.yaml waits for it"
    if mutant.kind == "moved to the end" and all(_may_wait(mutant, step, one) for one in later):
        return "nothing of rigging.yaml waits for it"
    if mutant.kind.startswith("hazard"):
        return _hazard(mutant, step, steps)
    return None


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
    places = good(mutant.project).system.rigging.warnings
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
