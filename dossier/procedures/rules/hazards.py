"""Does the warning stand before the step that needs it?"""

from __future__ import annotations

from collections.abc import Iterator

from dossier.procedures import acts
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.run import Moment, Run


def warned_before(run: Run) -> Iterator[Fault]:
    """The box of a hazard stands before the first step in which the hazard arises, in the same list.

    Source: S1000D, warning and caution elements, as reprinted; that the box names hazard, consequence and
    avoidance (ANSI Z535.6) is asked
    for by the record itself, which refuses a hazard without one of the three.
    """
    if run.begun_at:
        return
    warned = {str(name) for name in run.listing.procedure.hazards}
    told: set[str] = set()
    first_box = {str(name): step.number for step in reversed(run.steps) for name in step.written.hazards}
    for moment in run.moments:
        for name in _hazards(moment, run):
            box = first_box.get(name)
            if name not in warned and name not in told and (box is None or box > moment.doing.step.number):
                told.add(name)
                yield _fault(moment, run, name, box)


def _fault(moment: Moment, run: Run, hazard: str, box: int | None) -> Fault:
    called = run.system.called(moment.name)
    if box is None:
        words = f"this works on the {called}, and the list has no warning {hazard!r}"
        return at_step(
            run,
            "V071",
            moment.doing.step,
            (words, f"add  hazards: [{hazard}]  to this step, or to the head of the list"),
            (moment.name,),
        )
    words = f"this works on the {called}, and the warning {hazard!r} comes only after it"
    return at_step(
        run, "V070", moment.doing.step, (words, f"move  hazards: [{hazard}]  to this step"), (moment.name,)
    )


def _hazards(moment: Moment, run: Run) -> Iterator[str]:
    for hazard, place in run.system.warnings_before.get(moment.name, ()):
        wanted = moment.verb in place.acts if place.acts else moment.verb not in acts.CHECKING
        if place.to and moment.verb == "set" and str(moment.doing.act.to) not in place.to:
            continue
        if wanted and (not place.only_in or run.listing.name in place.only_in):
            yield hazard
