"""Is everything there that a step works on, and in the order that the joint asks for?"""

from __future__ import annotations

from collections.abc import Iterator

from dossier.procedures import acts
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.passing import already
from dossier.procedures.run import Moment, Run
from dossier.procedures.state import Fact, Where, facts
from dossier.procedures.system import unmet

_PART_BEFORE = {
    "place": (Where.HOME, Where.OUT),
    "remove": (Where.PLACED,),
    "stow": (Where.OUT, Where.PLACED),
    "hold": (Where.PLACED, Where.OUT),
    "fetch": (Where.HOME,),
}


def in_place(run: Run) -> Iterator[Fault]:
    """A part is joined only when all parts of the joint are in place, and what the joint or the part asks
    for beforehand is so.

    Source: EASA SIB 2019-07 (wing not rigged, tailplane not connected), read on its first page; the state
    model is our own reasoning.
    """
    for moment in run.moments:
        for lack in _lacking(moment, run):
            yield at_step(
                run,
                "V010",
                moment.doing.step,
                (
                    f"this works on the {run.system.called(moment.name)}, but {lack}",
                    "put the missing step before this one",
                ),
                (moment.name,),
            )


def _lacking(moment: Moment, run: Run) -> Iterator[str]:
    name, system, state = moment.name, run.system, moment.before
    if name in system.connections and moment.verb in acts.MAKING:
        connection = system.connections[name]
        for part in connection.between:
            if part in state.parts and state.parts[part].where is not Where.PLACED:
                yield f"the {system.called(part)} is {state.parts[part].where.value}"
        yield from unmet(connection.before_engaging, state, system) if moment.verb == "engage" else ()
    elif name in system.connections and moment.verb in _OPENING:
        if _begins_opening(moment, run):
            yield from unmet(system.connections[name].before_opening, state, system)
    elif name in system.parts:
        yield from _part_lacking(moment, run)
    elif moment.verb == "check":
        yield from unmet(system.checks[name].before, state, system)
    elif moment.verb == "set":
        setting = system.settings[name]
        yield from unmet(setting.positions.get(str(moment.doing.act.to)), state, system)


def _part_lacking(moment: Moment, run: Run) -> Iterator[str]:
    name, system = moment.name, run.system
    where = moment.before.parts[name].where
    if where not in _PART_BEFORE.get(moment.verb, (where,)):
        yield f"it is {where.value}"
    elif system.parts[name].carried and moment.verb in ("place", "stow") and where is not Where.OUT:
        yield f"it is still {where.value}"
    if moment.verb in acts.MOVING:
        yield from unmet(system.parts[name].before_moving, moment.before, system)
    for joint in system.joints_by_placing(name):
        connection = system.connections[joint]
        if moment.verb == "place":
            yield from unmet(connection.before_engaging, moment.before, system)
        elif moment.verb in ("remove", "stow") and Fact.ENGAGED in moment.before.joints[joint].facts:
            yield from unmet(connection.before_opening, moment.before, system)


def _begins_opening(moment: Moment, run: Run) -> bool:
    """Whether an act is the first of those that undo a joint, so that what it lacks is told once."""
    touching = run.touching(moment.name)
    at = next(index for index, one in enumerate(touching) if one is moment)
    return at == 0 or touching[at - 1].verb not in _OPENING


_OPENING = ("release", "unlock", "open")


def facts_in_order(run: Run) -> Iterator[Fault]:
    """Engage, then lock or tighten, then safety, then check: a safety pin in its hole does not show that the
    joint is made.

    Source: BGA newsletter September 2017; AC 43.13-1B, 7-122 (safetying is not a way to get or hold torque).
    """
    for moment in run.moments:
        connection = run.system.connections.get(moment.name)
        if connection is None:
            continue
        joint = moment.before.joints[moment.name]
        missing = acts.facts_before(moment.verb, connection) - joint.facts
        against = acts.facts_against(moment.verb, connection) & joint.facts
        called = run.system.called(moment.name)
        if missing:
            words = (
                f"{_VERB_WORDS.get(moment.verb, moment.verb)} the {called} before it is {facts(missing)}; it "
                f"is {facts(joint.mechanical)}"
            )
            yield at_step(
                run,
                "V011",
                moment.doing.step,
                (words, "put this step behind the one that makes it so"),
                (moment.name,),
            )
        elif against and moment.verb not in acts.MAKING:
            words = (
                f"{_VERB_WORDS.get(moment.verb, moment.verb)} the {called} while it is still {facts(against)}"
            )
            yield at_step(
                run,
                "V011",
                moment.doing.step,
                (words, "take the safety part and the lock off first"),
                (moment.name,),
            )


_VERB_WORDS = {
    "lock": "this locks",
    "torque": "this tightens",
    "safety": "this safeties",
    "look": "this looks at",
    "pull_test": "this pulls",
    "inspect": "this inspects",
    "positive_check": "this loads",
    "sense": "this moves",
    "release": "this takes the safety part off",
    "unlock": "this unlocks",
    "open": "this opens",
}


def parted_with_part(run: Run) -> Iterator[Fault]:
    """A coupling that connects by itself, without lock or safety part, comes apart as its part leaves: a step
    that opens it while the part stays leaves it open.

    Source: own reasoning.
    """
    for moment in run.of("open"):
        connection = run.system.connections[moment.name]
        part = connection.made_by_placing
        if part is None or connection.lock != "none" or connection.safety:
            continue
        if moment.before.parts[str(part)].where is Where.PLACED:
            leaves = run.system.called(str(part))
            words = f"this opens the {run.system.called(moment.name)}, and the {leaves} stays in place"
            remedy = f"take the step out: it comes apart as the {leaves} leaves"
            yield at_step(run, "V011", moment.doing.step, (words, remedy), (moment.name,))


def done_once(run: Run) -> Iterator[Fault]:
    """A step that finds its work done tells that a step stands twice, or that another one is wrong.

    Source: own reasoning.
    """
    for moment in run.moments:
        if _is_repeated(moment, run):
            words = f"this does to the {run.system.called(moment.name)} what was done before"
            yield at_step(
                run,
                "V012",
                moment.doing.step,
                (words, "take the step out, or put the step back that is missing between the two"),
                (moment.name,),
            )


def _is_repeated(moment: Moment, run: Run) -> bool:
    if run.begun_at or moment.verb in (
        *acts.CHECKING,
        "fetch",
        "place",
        "remove",
        "stow",
        "check",
        "count",
        "see_isolated",
        "isolate",
        "energise",
    ):
        return (
            moment.verb in ("fetch", "stow")
            and moment.name not in run.system.parts
            and already(moment.before, moment.doing, run.system)
        )
    if moment.verb in ("clear_propeller", "pause", "resume", "disturb", "release", "unlock", "open"):
        return False
    if moment.verb in ("hold", "let_go"):
        return moment.before.parts[moment.name].held is (moment.verb == "hold")
    return already(moment.before, moment.doing, run.system)


def pieces_at_hand(run: Run) -> Iterator[Fault]:
    """A pin, a nut or a ring is fitted only when it was laid out.

    Source: own reasoning.
    """
    for moment in run.moments:
        for name, pieces in moment.after.pieces.items():
            if pieces.out < 0 <= moment.before.pieces[name].out:
                words = f"this fits the {run.system.called(name)}, and none is at hand"
                yield at_step(
                    run,
                    "V015",
                    moment.doing.step,
                    (words, "lay it out first, or correct the count in rigging.yaml"),
                    (name, moment.name),
                )


def told_apart(run: Run) -> Iterator[Fault]:
    """Parts that fit on either side carry a key or a colour that tells left from right.

    Source: ATSB 199504285 (ailerons connected in reverse; the cure was red and green marking).
    """
    for moment in run.of("engage"):
        connection = run.system.connections[moment.name]
        if connection.handed and connection.marking is None:
            words = (
                f"the {run.system.called(moment.name)} would fit on the other side as well, and nothing "
                "tells them apart"
            )
            yield at_step(
                run,
                "V016",
                moment.doing.step,
                (words, "give it a key or a colour, and write it as marking in rigging.yaml"),
                (moment.name,),
            )
