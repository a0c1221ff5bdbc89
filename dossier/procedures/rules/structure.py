"""Does anything hang, fall or stay connected when a part moves?"""

from __future__ import annotations

from collections.abc import Iterator

from dossier.procedures.fault import Fault, at_step
from dossier.procedures.run import Moment, Run
from dossier.procedures.state import Fact, Where, facts
from dossier.procedures.system import made, unmet


def structure_free(run: Run) -> Iterator[Fault]:
    """A part leaves its place only when nothing but what parts by itself still joins it.

    Source: own reasoning; common practice (a wing that is drawn out hangs on a control rod that is still
    connected).
    """
    for moment in run.of("remove", "stow"):
        if moment.name not in run.system.parts or moment.before.parts[moment.name].where is not Where.PLACED:
            continue
        for name in run.system.joints_on(moment.name):
            connection, joint = run.system.connections[name], moment.before.joints[name]
            loose = connection.made_by_placing is not None and connection.lock != "separate"
            held_by = joint.mechanical - (
                {Fact.ENGAGED, Fact.LOCKED}
                if loose
                else {Fact.ENGAGED}
                if connection.made_by_placing
                else set()
            )
            if held_by:
                words = (
                    f"this moves the {run.system.called(moment.name)} while the {run.system.called(name)} is "
                    f"still {facts(joint.mechanical)}"
                )
                yield at_step(
                    run,
                    "V013",
                    moment.doing.step,
                    (words, f"open the {run.system.called(name)} first"),
                    (moment.name, name),
                )


def dependents_free(run: Run) -> Iterator[Fault]:
    """A joint is opened only when nothing that was joined after it, because of it, is still joined: controls
    come off before the structure.

    Source: own reasoning (the order that before_engaging asks for, taken backwards).
    """
    for moment in run.of("release", "unlock", "open"):
        for name, connection in run.system.connections.items():
            condition = connection.before_engaging
            if (
                condition is None
                or moment.name not in (*condition.joined, *condition.secured)
                or Fact.ENGAGED not in moment.before.joints[name].facts
            ):
                continue
            words = (
                f"this opens the {run.system.called(moment.name)} while the {run.system.called(name)} is "
                "still joined"
            )
            yield at_step(
                run,
                "V013",
                moment.doing.step,
                (words, f"open the {run.system.called(name)} first"),
                (moment.name, name),
            )


def supported(run: Run) -> Iterator[Fault]:
    """Whoever holds a part lets go only when it is joined and stands; a joint that carries a part is opened
    only while somebody holds it.

    Source: own reasoning; common practice.
    """
    for moment in run.moments:
        yield from _let_go(moment, run)
        yield from _hands_elsewhere(moment, run)
        if moment.verb in ("release", "unlock", "open"):
            for name, part in run.system.parts.items():
                state = moment.before.parts[name]
                if moment.name in part.held_until and state.where is Where.PLACED and not state.held:
                    words = (
                        f"this opens the {run.system.called(moment.name)} while nobody holds the "
                        f"{run.system.called(name)}"
                    )
                    yield at_step(
                        run,
                        "V014",
                        moment.doing.step,
                        (words, "let somebody take its weight first"),
                        (moment.name, name),
                    )
    for name in run.system.parts:
        if run.end.parts[name].held:
            last = run.touching(name)[-1].doing.step if run.touching(name) else run.steps[-1]
            words = f"the list ends while somebody still holds the {run.system.called(name)}"
            yield at_step(
                run,
                "V014",
                last,
                (words, "put it on its stand, stow it, or let go of it once it is joined"),
                (name,),
            )


def _hands_elsewhere(moment: Moment, run: Run) -> Iterator[Fault]:
    for name, before in moment.before.parts.items():
        after = moment.after.parts[name]
        if not (before.held and after.held and before.holders and not after.holders):
            continue
        people = run.system.rigging.people
        who = " and ".join(sorted(people[one].name for one in before.holders if one in people))
        words = (
            f"the hands of {who} are at the {run.system.called(moment.name)}, and then nobody holds the "
            f"{run.system.called(name)}"
        )
        remedy = "let somebody else do this, or put the part on its stand before"
        yield at_step(run, "V014", moment.doing.step, (words, remedy), (name, moment.name))


def _let_go(moment: Moment, run: Run) -> Iterator[Fault]:
    for name, part in run.system.parts.items():
        before, after = moment.before.parts[name], moment.after.parts[name]
        if not before.held or after.held or after.where is not Where.PLACED:
            continue
        if any(
            moment.after.settings.get(setting) == position for setting, position in part.rests_with.items()
        ):
            continue
        lacks = [
            f"the {run.system.called(joint)} is open"
            for joint in part.held_until
            if joint in run.system.connections
            and not made(run.system.connections[joint]) <= moment.before.joints[joint].facts
        ]
        lacks += [
            f"the {run.system.called(setting)} stands at {moment.after.settings[setting]!r}"
            for setting, position in part.stands_with.items()
            if setting in run.system.settings and moment.after.settings[setting] != position
        ]
        lacks += unmet(part.before_letting_go, moment.after, run.system)
        for lack in lacks:
            yield at_step(
                run,
                "V014",
                moment.doing.step,
                (f"this lets go of the {run.system.called(name)} while {lack}", "hold it until then"),
                (name,),
            )
