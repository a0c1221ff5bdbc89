"""Does the warning stand before the step that needs it?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dossier.procedures import acts
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.run import Moment, Run


def warned_before(run: Run) -> Iterator[Fault]:
    """The box of a hazard stands before the first step in which the hazard arises, in the same list.

    Source: S1000D, warning and caution elements, as reprinted; that the box names hazard, consequence and avoidance (ANSI Z535.6) is asked
    for by the record itself, which refuses a hazard without one of the three.
    """
    if run.begun_at:
        return
    warned = {str(name) for name in run.listing.procedure.hazards}
    told: set[str] = set()
    later = {str(name): step.number for step in reversed(run.steps) for name in step.written.hazards}
    box_after = {name: number for name, number in later.items()}
    step_number = 0
    for moment in run.moments:
        if moment.doing.step.number != step_number:
            step_number = moment.doing.step.number
        seen = warned | {name for name, first in box_after.items() if first <= step_number}
        for name in _hazards(moment, run):
            if name in seen or name in told:
                continue
            told.add(name)
            yield _fault(moment, run, name, box_after.get(name))


def _fault(moment: Moment, run: Run, hazard: str, box: int | None) -> Fault:
    called = run.system.called(moment.name)
    if box is None:
        words = f"this works on the {called}, and the list has no warning {hazard!r}"
        return at_step(run, "V071", moment.doing.step, (words, f"add  hazards: [{hazard}]  to this step, or to the head of the list"), (moment.name,))
    words = f"this works on the {called}, and the warning {hazard!r} comes only after it, before step {box}"
    return at_step(run, "V070", moment.doing.step, (words, f"move  hazards: [{hazard}]  to this step"), (moment.name,))


def _hazards(moment: Moment, run: Run) -> Iterator[str]:
    name, verb, system = moment.name, moment.verb, run.system
    found: Iterable[str] = ()
    if name in system.connections and verb in acts.HANDS_ON_JOINT:
        connection = system.connections[name]
        found = (*connection.hazards, *(connection.hazards_of_making if verb in acts.MAKING else ()))
    elif name in system.parts and verb in (*acts.MOVING, "hold"):
        found = system.parts[name].hazards
    elif name in system.settings:
        found = system.settings[name].hazards
    elif name in system.circuits:
        circuit = system.circuits[name]
        found = (*circuit.hazards, *(circuit.hazards_of_energising if verb == "energise" else ()))
    return (str(hazard) for hazard in found)
