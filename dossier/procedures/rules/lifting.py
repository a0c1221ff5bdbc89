"""Is a part light enough for the people that the step names?"""

from __future__ import annotations

from collections.abc import Iterator

from dossier.procedures.acts import MOVING
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.run import Run

TEAM_FACTOR = {1: 1.0, 2: 2 / 3, 3: 1 / 2, 4: 1 / 2}
"""People -> share of the sum of what each may lift alone. HSE, L23, paragraph 120; more than four is not
recommended there."""


def team_limit(one_person: float, people: int) -> float | None:
    """Return the load in kg that a team may lift, None for a team that is too large.

    Args:
        one_person: load in kg for one person alone.
        people: 1 to 4.
    """
    factor = TEAM_FACTOR.get(people)
    return one_person * people * factor if factor else None


def enough_people(run: Run) -> Iterator[Fault]:
    """No step needs more people than the list says are needed.

    Source: own reasoning (a crew of two that begins a list for two must be able to end it).
    """
    people = run.listing.procedure.people
    for step in run.steps:
        needed = len({one for doing in step.doings for one in doing.people})
        if needed > people:
            words = f"this step takes {needed} people, and the list is for {people}"
            yield at_step(run, "V062", step, (words, f"write  people: {needed}  at the head, or name fewer"))
            return


def light_enough(run: Run) -> Iterator[Fault]:
    """What is lifted is no heavier than the people named may lift together.

    Source: HSE, L23, paragraph 120 (two people two thirds of the sum, three half); the load for one person
    stands in rigging.yaml with its source.
    """
    one = run.system.rigging.lifting.one_person.value
    for moment in run.of(*MOVING):
        if moment.name not in run.system.parts:
            continue
        mass = run.system.mass(moment.name)
        share = moment.doing.act.share.value if moment.doing.act.share else 1.0
        people = len(moment.doing.people)
        limit = team_limit(one, people)
        called = run.system.called(moment.name)
        if people < run.system.parts[moment.name].people:
            words = (
                f"{people} {'person moves' if people == 1 else 'people move'} the {called}; rigging.yaml "
                f"asks for {run.system.parts[moment.name].people}"
            )
        elif limit is None:
            words = f"{people} people lift the {called} together; more than four cannot share a load"
        elif mass is None or mass * share <= limit or moment.doing.act.how != "carry":
            continue
        else:
            words = (
                f"{people} {'person lifts' if people == 1 else 'people lift'} {mass * share:.1f} kg of the "
                f"{called}; together they may lift {limit:.1f} kg"
            )
        yield at_step(
            run,
            "V060",
            moment.doing.step,
            (words, "name more people, lift one end at a time, or roll it"),
            (moment.name,),
        )
