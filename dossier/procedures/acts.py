"""What each act does to the state, and which facts must be there before it. The machine never refuses: rules
judge what it did."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from dossier.model.rigging import Connection
from dossier.procedures.listing import Doing
from dossier.procedures.state import MECHANICAL, CircuitState, Fact, Joint, PartState, Pieces, State, Where
from dossier.procedures.system import System, made, mechanical_needs

ADDS: Mapping[str, Fact] = {
    "engage": Fact.ENGAGED,
    "lock": Fact.LOCKED,
    "torque": Fact.TORQUED,
    "safety": Fact.SAFETIED,
    "look": Fact.LOOKED,
    "pull_test": Fact.PULL_TESTED,
    "inspect": Fact.SEEN_BY_OTHER,
    "positive_check": Fact.POSITIVE_CHECK,
    "sense": Fact.SENSE,
}
"""Verb -> the fact that it adds to a connection."""

TAKES: Mapping[str, frozenset[Fact]] = {
    "release": frozenset({Fact.SAFETIED}),
    "unlock": frozenset({Fact.LOCKED, Fact.TORQUED}),
    "open": frozenset(Fact),
    "disturb": frozenset(Fact) - {Fact.ENGAGED, Fact.LOCKED, Fact.TORQUED},
}
"""Verb -> the facts that it takes away."""

MAKING = ("engage", "lock", "torque", "safety")
UNDOING = ("release", "unlock", "open", "disturb")
HANDS_ON_JOINT = (*MAKING, *UNDOING)
MOVING = ("fetch", "place", "remove", "stow")
CHECKING = ("look", "pull_test", "inspect", "positive_check", "sense")
TAKING_HANDS = (*HANDS_ON_JOINT, *MOVING, "cover", "uncover")
"""Acts for which whoever holds a part must let go of it."""

_CHECKS = frozenset(Fact) - MECHANICAL
_LASTING = frozenset({Fact.LOOKED, Fact.PULL_TESTED})
"""Checks that the fitting of a safety part leaves standing: they look at the joint below it."""


def facts_before(verb: str, connection: Connection) -> frozenset[Fact]:
    """Return the facts that a connection must have before an act (AC 43.13-1B, 7-122: tightening and
    safetying are separate facts)."""
    complete = mechanical_needs(connection)
    table: dict[str, frozenset[Fact]] = {
        "lock": frozenset({Fact.ENGAGED}),
        "torque": made(connection) - {Fact.TORQUED},
        "safety": made(connection) | ({Fact.LOOKED} if connection.looked_at else frozenset()),
        "look": frozenset({Fact.ENGAGED}),
        "pull_test": complete
        if connection.kind == "manual control"
        else made(connection),  # after pinning, BGA, Safe rigging
        "inspect": complete,
        "positive_check": complete,
        "sense": complete,
        "release": frozenset({Fact.SAFETIED}),
        "unlock": frozenset({Fact.LOCKED}),
        "open": frozenset({Fact.ENGAGED}),
    }
    return table.get(verb, frozenset())


def facts_against(verb: str, connection: Connection) -> frozenset[Fact]:
    """Return the facts that a connection must not have before an act: what is safetied is not opened."""
    if verb in ("unlock", "open"):
        separate = {Fact.LOCKED} if verb == "open" and connection.lock == "separate" else set()
        return frozenset({Fact.SAFETIED} | separate)
    return frozenset({ADDS[verb]}) if verb in MAKING else frozenset()


def after(state: State, doing: Doing, system: System) -> State:
    """Return the state after an act."""
    effect = _EFFECTS.get(doing.verb, _joint_act)
    return _hands_taken(_switched(effect(state, doing, system), doing, system), doing)


def _switched(state: State, doing: Doing, system: System) -> State:
    """Make a circuit live, or dead, whose plugs have no switch behind them."""
    for name, circuit in system.circuits.items():
        plugs = [str(plug) for plug in circuit.live_by if plug in state.joints]
        if {doing.name, *system.joints_by_placing(doing.name)} & set(plugs):
            live = all(Fact.ENGAGED in state.joints[plug].facts for plug in plugs)
            state = state.with_circuit(name, CircuitState(live, seen_isolated=not live))
    return state


def _hands_taken(state: State, doing: Doing) -> State:
    if doing.verb not in TAKING_HANDS:
        return state
    for name, part in state.parts.items():
        if part.held and name != doing.name and part.holders & set(doing.people):
            state = state.with_part(name, replace(part, holders=part.holders - set(doing.people)))
    return state


def _joint_act(state: State, doing: Doing, system: System) -> State:
    name, verb = doing.name, doing.verb
    joint = state.joints[name]
    state = _items_moved(state, doing, system)
    people = frozenset(doing.people)
    if verb in CHECKING:
        checkers = joint.checkers | {(ADDS[verb], one) for one in people}
        added = {ADDS[verb]} if verb != "inspect" or people - joint.makers else set()
        return state.with_joint(
            name,
            replace(joint, facts=joint.facts | added, checkers=checkers, withdrawn=joint.withdrawn - added),
        )
    state = replace(state, propeller_clear=False)
    if verb == "open":
        return state.with_joint(name, Joint())
    void = joint.facts & (_CHECKS - _LASTING if verb in ("safety", "release") else _CHECKS)
    checkers = frozenset(pair for pair in joint.checkers if pair[0] not in void)
    changed = replace(joint, checkers=checkers, withdrawn=joint.withdrawn | void)
    if verb in MAKING:
        by_itself = (
            {Fact.LOCKED} if verb == "engage" and system.connections[name].lock == "by engaging" else set()
        )
        return state.with_joint(
            name,
            replace(
                changed, facts=joint.facts - void | {ADDS[verb]} | by_itself, makers=joint.makers | people
            ),
        )
    return state.with_joint(name, replace(changed, facts=joint.facts - void - TAKES[verb]))


def _items_moved(state: State, doing: Doing, system: System) -> State:
    used = system.connections[doing.name].with_items
    facts = state.joints[doing.name].facts
    fits = {"engage": used.engage, "lock": used.lock, "safety": used.safety}.get(doing.verb)
    if fits is not None and ADDS[doing.verb] not in facts:
        return _fitted(state, str(fits), 1)
    frees = {
        "release": ((Fact.SAFETIED, used.safety),),
        "disturb": ((Fact.SAFETIED, used.safety),),
        "unlock": ((Fact.LOCKED, used.lock),),
        "open": ((Fact.ENGAGED, used.engage), (Fact.LOCKED, used.lock), (Fact.SAFETIED, used.safety)),
    }.get(doing.verb, ())
    for fact, item in frees:
        if item is not None and fact in facts:
            state = _fitted(state, str(item), -1)
    return state


def _fitted(state: State, item: str, number: int) -> State:
    pieces = state.pieces[item]
    return state.with_pieces(
        item, replace(pieces, out=pieces.out - number, fitted=pieces.fitted + number, counted=False)
    )


def _fetched(state: State, doing: Doing, system: System) -> State:
    if doing.name in state.parts:
        held = bool(system.parts[doing.name].held_until)
        return _moved(state, doing, PartState(Where.OUT, held, frozenset(doing.people)))
    return _pieces_moved(
        state, doing, system, lambda one: replace(one, home=0, out=one.out + one.home, counted=False)
    )


def _stowed(state: State, doing: Doing, system: System) -> State:
    if doing.name in state.parts:
        return _without_joints(_moved(state, doing, PartState(Where.HOME)), doing.name, system)
    return _pieces_moved(state, doing, system, lambda one: replace(one, home=one.home + one.out, out=0))


def _pieces_moved(state: State, doing: Doing, system: System, move: Callable[[Pieces], Pieces]) -> State:
    changed = {name: move(state.pieces[name]) for name in system.pieces_of(doing.name)}
    return replace(state, pieces={**state.pieces, **changed})


def _placed(state: State, doing: Doing, system: System) -> State:
    held = state.parts[doing.name].held
    state = _moved(state, doing, PartState(Where.PLACED, held, frozenset(doing.people)))
    for name in system.joints_by_placing(doing.name):
        locked = {Fact.LOCKED} if system.connections[name].lock == "by engaging" else set()
        joint = Joint(
            frozenset({Fact.ENGAGED} | locked), frozenset(doing.people[:1])
        )  # the first one named works at the joint
        state = state.with_joint(name, joint)
    return state


def _removed(state: State, doing: Doing, system: System) -> State:
    held = state.parts[doing.name].held
    moved = _moved(state, doing, PartState(Where.OUT, held, frozenset(doing.people)))
    return _without_joints(moved, doing.name, system)


def _moved(state: State, doing: Doing, part: PartState) -> State:
    return replace(state.with_part(doing.name, part), propeller_clear=False)


def _without_joints(state: State, part: str, system: System) -> State:
    """Part what connects by itself: it comes apart as the part leaves."""
    parted = {name: Joint() for name in system.joints_by_placing(part)}
    return replace(state, joints={**state.joints, **parted})


def _held(state: State, doing: Doing, _system: System) -> State:
    held = doing.verb == "hold"
    holders = frozenset(doing.people) if held else frozenset()
    return state.with_part(doing.name, replace(state.parts[doing.name], held=held, holders=holders))


def _checked(state: State, doing: Doing, _system: System) -> State:
    return replace(
        state,
        checks={
            **state.checks,
            doing.name: state.checks.get(doing.name, frozenset()) | frozenset(doing.people),
        },
    )


def _counted(state: State, doing: Doing, system: System) -> State:
    return _pieces_moved(state, doing, system, lambda one: replace(one, counted=True))


def _covered(state: State, doing: Doing, _system: System) -> State:
    covers = state.open_covers - {doing.name} if doing.verb == "cover" else state.open_covers | {doing.name}
    return replace(state, open_covers=covers, propeller_clear=False)


def _set(state: State, doing: Doing, system: System) -> State:
    position = str(doing.act.to)
    state = replace(state, settings={**state.settings, doing.name: position})
    for name, part in state.parts.items():
        load = system.parts[name]
        if part.held and position in (load.stands_with.get(doing.name), load.rests_with.get(doing.name)):
            state = state.with_part(name, replace(part, held=False))
    return state


def _circuit(state: State, doing: Doing, _system: System) -> State:
    live = {"isolate": False, "energise": True}.get(doing.verb, state.circuits[doing.name].live)
    return state.with_circuit(doing.name, CircuitState(live, seen_isolated=not live))


def _cleared(state: State, _doing: Doing, _system: System) -> State:
    return replace(state, propeller_clear=True)


def _resumed(state: State, _doing: Doing, _system: System) -> State:
    """Put in doubt what the last two steps did: after an interruption one goes back two steps (FAA Glider
    Flying Handbook, assembly)."""
    for name in sorted(frozenset().union(*state.recent)):
        joint = state.joints[name]
        state = state.with_joint(
            name,
            replace(
                joint, facts=joint.facts & MECHANICAL, withdrawn=joint.withdrawn | (joint.facts - MECHANICAL)
            ),
        )
    return state


def _paused(state: State, _doing: Doing, _system: System) -> State:
    return state


_EFFECTS: Mapping[str, Callable[[State, Doing, System], State]] = {
    "fetch": _fetched,
    "place": _placed,
    "remove": _removed,
    "stow": _stowed,
    "hold": _held,
    "let_go": _held,
    "check": _checked,
    "count": _counted,
    "cover": _covered,
    "uncover": _covered,
    "set": _set,
    "isolate": _circuit,
    "energise": _circuit,
    "see_isolated": _circuit,
    "clear_propeller": _cleared,
    "pause": _paused,
    "resume": _resumed,
}
