"""Hands, plugs and the propeller: isolate first, energise last."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.model.rigging import Circuit
from dossier.procedures.acts import CHECKING, HANDS_ON_JOINT, MOVING
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.run import Moment, Run
from dossier.procedures.state import State
from dossier.procedures.system import unmet


def isolated(run: Run) -> Iterator[Fault]:
    """A plug is joined or parted, and the cover over it opened, only when its circuit is isolated, and
    somebody saw that in this list.

    Where the plug itself is the switch, it is parted only when nothing that it feeds is still live.

    Source: BGA aircraft inspection 053/06/2012, caution (isolate the supply before work).
    """
    for moment in run.moments:
        for plug in _plugs(moment, run):
            for words in _live(plug, moment, run):
                name = str(run.system.connections[plug].circuit)
                yield at_step(
                    run,
                    "V050",
                    moment.doing.step,
                    (words, "isolate first, and look that it is so"),
                    (plug, name),
                )


def _plugs(moment: Moment, run: Run) -> Iterator[str]:
    """List the plugs at which hands are: worked on, joined by placing a part, or laid open."""
    connections = run.system.connections
    if moment.verb in HANDS_ON_JOINT:
        names: tuple[str, ...] = (moment.name,)
    elif moment.verb in ("place", "remove", "stow"):
        names = run.system.joints_by_placing(moment.name)
    elif moment.verb == "uncover":
        names = tuple(map(str, run.system.covers[moment.name].hides))
    else:
        names = ()
    yield from (name for name in names if name in connections and connections[name].circuit is not None)


def _live(plug: str, moment: Moment, run: Run) -> Iterator[str]:
    system, name = run.system, str(run.system.connections[plug].circuit)
    circuit, called = moment.before.circuits[name], system.called(name)
    hands = f"hands are at the {system.called(plug)}"
    if moment.verb == "uncover":
        if circuit.live:
            yield f"this lays open the {system.called(plug)} while the {called} is live"
    elif plug in system.circuits[name].live_by:
        if moment.verb not in ("lock", "safety", "torque"):
            fed = _fed_by(name, moment.before, run) if circuit.live else []
            yield from (f"{hands} while the {system.called(other)} is live" for other in fed)
    elif circuit.live:
        yield f"{hands} while the {called} is live"
    elif not circuit.seen_isolated:
        yield f"{hands}, and nobody saw in this list that the {called} is isolated"


def _fed_by(circuit: str, state: State, run: Run) -> list[str]:
    """Circuits that are live and that need this one."""
    needs = {name: one.before_energising for name, one in run.system.circuits.items()}
    return [
        name for name, need in needs.items() if need and circuit in need.live and state.circuits[name].live
    ]


def propeller_clear(run: Run) -> Iterator[Fault]:
    """What lets the propeller turn is energised only after the propeller was called clear, with no hand at
    work since; and its plug is joined only then, or while something holds the propeller.

    Source: common practice, no source.
    """
    for moment in run.moments:
        for name, circuit in run.system.circuits.items():
            if not circuit.propeller or moment.before.propeller_clear:
                continue
            called = run.system.called(name)
            made_live = moment.after.circuits[name].live and not moment.before.circuits[name].live
            if made_live or (moment.verb == "energise" and moment.name == name):
                words = f"this energises the {called} before the propeller is called clear"
            elif _joins(moment, name, run) and not _is_held(circuit, moment.before):
                words = (
                    f"this joins a plug of the {called}, and the propeller is neither held nor called clear"
                )
            else:
                continue
            yield at_step(
                run,
                "V051",
                moment.doing.step,
                (words, "look behind, call, wait for the answer; then this step"),
                (moment.name, name),
            )


def _joins(moment: Moment, circuit: str, run: Run) -> bool:
    made = run.system.joints_by_placing(moment.name) if moment.verb == "place" else ()
    if moment.verb == "engage":
        made = (moment.name,)
    return any(run.system.connections[name].circuit == circuit for name in made)


def _is_held(circuit: Circuit, state: State) -> bool:
    return any(
        state.settings.get(setting) == position for setting, position in circuit.propeller_held_by.items()
    )


def hands_clear(run: Run) -> Iterator[Fault]:
    """While the propeller can turn, nobody works at a joint, carries a part, or looks at something outside.

    Source: own reasoning; common practice (everybody stays clear of a propeller that can start).
    """
    for moment in run.moments:
        for name, circuit in run.system.circuits.items():
            live = moment.before.circuits[name].live and moment.after.circuits[name].live
            if not circuit.propeller or not live or _is_held(circuit, moment.before):
                continue
            if not _is_outside(moment, run) or moment.name in circuit.live_by:
                continue
            words = (
                f"somebody is at the {run.system.called(moment.name)} while the {run.system.called(name)} is "
                "live and the propeller can turn"
            )
            yield at_step(
                run,
                "V053",
                moment.doing.step,
                (words, "do this before energising, or isolate first"),
                (moment.name, name),
            )


def _is_outside(moment: Moment, run: Run) -> bool:
    if moment.verb == "check":
        return run.system.checks[moment.name].outside
    at_joint = moment.verb in (*HANDS_ON_JOINT, *CHECKING)
    return at_joint or (moment.verb in MOVING and moment.name in run.system.parts)


def energised_last(run: Run) -> Iterator[Fault]:
    """A circuit is energised only when everything that rigging.yaml asks for beforehand is so: plugs locked,
    covers closed, straps off.

    Source: own reasoning (isolating first, energising last); ISO 6469-4:2015, 5.2.2, for why a live contact
    must be covered.
    """
    for moment in run.moments:
        for name, circuit in run.system.circuits.items():
            made_live = moment.after.circuits[name].live and not moment.before.circuits[name].live
            if not made_live and not (moment.verb == "energise" and moment.name == name):
                continue
            for lack in unmet(circuit.before_energising, moment.before, run.system):
                yield at_step(
                    run,
                    "V052",
                    moment.doing.step,
                    (
                        f"this energises the {run.system.called(name)}, but {lack}",
                        "put the missing step before this one",
                    ),
                    (moment.name, name),
                )
