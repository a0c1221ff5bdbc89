"""What there is on one variant of the type: the objects of rigging.yaml that a set of optional items
leaves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.model.rigging import (
    Check,
    Circuit,
    Condition,
    Connection,
    Cover,
    Load,
    LooseItem,
    Rigging,
    Setting,
)
from dossier.model.rigging_bounds import WarningPlace
from dossier.procedures.state import CircuitState, Fact, Joint, PartState, Pieces, State, Where

Object = Load | LooseItem | Setting | Check | Cover | Connection | Circuit
Optional = TypeVar("Optional", Load, LooseItem, Setting, Check, Cover, Connection)

CONTROLS = frozenset({"manual control", "self-connecting control"})


@dataclass(frozen=True)
class System:
    """The objects of a variant, by name."""

    rigging: Rigging
    aircraft: Aircraft
    battery: Battery
    left_out: frozenset[str]
    """Optional items of the type's list that the variant does not have."""
    fitted: str | None = None
    """The option of battery.yaml that is in the bay; None for the heaviest, with every battery's parts."""

    @cached_property
    def parts(self) -> Mapping[str, Load]:
        """Parts."""
        return self._kept(self.rigging.parts)

    @cached_property
    def items(self) -> Mapping[str, LooseItem]:
        """Loose items."""
        return self._kept(self.rigging.items)

    @cached_property
    def settings(self) -> Mapping[str, Setting]:
        """Settings."""
        return self._kept(self.rigging.settings)

    @cached_property
    def checks(self) -> Mapping[str, Check]:
        """Checks."""
        return self._kept(self.rigging.checks)

    @cached_property
    def covers(self) -> Mapping[str, Cover]:
        """Covers."""
        return self._kept(self.rigging.covers)

    @cached_property
    def connections(self) -> Mapping[str, Connection]:
        """Connections."""
        return self._kept(self.rigging.connections)

    @property
    def circuits(self) -> Mapping[str, Circuit]:
        """Circuits."""
        return self.rigging.circuits

    @cached_property
    def objects(self) -> Mapping[str, Object]:
        """Everything that has a name, kits apart."""
        return {
            **self.parts,
            **self.items,
            **self.settings,
            **self.checks,
            **self.covers,
            **self.connections,
            **self.circuits,
        }

    @cached_property
    def warnings_before(self) -> Mapping[str, tuple[tuple[str, WarningPlace], ...]]:
        """Object -> the hazards whose box must stand before an act on it."""
        found: dict[str, list[tuple[str, WarningPlace]]] = {}
        for hazard, places in self.rigging.warnings.items():
            for place in places:
                for name in place.before:
                    found.setdefault(str(name), []).append((hazard, place))
        return {name: tuple(found[name]) for name in sorted(found)}

    def called(self, name: str) -> str:
        """Return the words for an object, such as ``left main pin``."""
        found = self.objects.get(name) or self.rigging.kits.get(name)
        text = str(found.name) if found else name
        return text[:1].lower() + text[1:]

    def pieces_of(self, name: str) -> tuple[str, ...]:
        """Return the loose items that a name stands for: an item, or all items of a kit."""
        if name in self.items:
            return (name,)
        return tuple(item for item, one in self.items.items() if one.kit == name)

    def joints_on(self, part: str) -> tuple[str, ...]:
        """Return the connections that a part is an end of."""
        return tuple(name for name, one in self.connections.items() if part in one.between)

    def joints_by_placing(self, part: str) -> tuple[str, ...]:
        """Return the connections that connect by themselves as a part is placed."""
        return tuple(name for name, one in self.connections.items() if one.made_by_placing == part)

    def hiding(self, connection: str) -> tuple[str, ...]:
        """Return the covers under which a connection lies."""
        return tuple(name for name, cover in self.covers.items() if connection in cover.hides)

    def mass(self, part: str) -> float | None:
        """Return the mass of a part in kg, None if the file gives none."""
        load = self.parts[part]
        if load.battery:
            return self.battery.options[self.fitted or self.battery.heaviest].mass.value
        if load.items:
            return sum(self.aircraft.items[item].mass.value for item in load.items)
        return load.mass.value if load.mass else None

    def at_home(self) -> State:
        """Return the state in which everything is stowed."""
        return State(
            parts={
                name: PartState(Where.PLACED if part.fixed else Where.HOME)
                for name, part in self.parts.items()
            },
            joints={name: Joint() for name in self.connections},
            pieces={name: Pieces(item.count) for name, item in self.items.items()},
            settings={name: str(setting.home) for name, setting in self.settings.items()},
            circuits={name: CircuitState(circuit.live_at_home) for name, circuit in self.circuits.items()},
            open_covers=frozenset(name for name, cover in self.covers.items() if cover.open_at_home),
        )

    def _kept(self, objects: Mapping[str, Optional]) -> dict[str, Optional]:
        return {name: one for name, one in objects.items() if one.applies(self.left_out, self.fitted)}


def made(connection: Connection) -> frozenset[Fact]:
    """Return the mechanical facts that a connection has before its safety part goes in."""
    found = {Fact.ENGAGED}
    if connection.lock != "none":
        found.add(Fact.LOCKED)
    if connection.fastening is not None:
        found.add(Fact.TORQUED)
    return frozenset(found)


def mechanical_needs(connection: Connection) -> frozenset[Fact]:
    """Return the mechanical facts that a connection must end up with."""
    return made(connection) | ({Fact.SAFETIED} if connection.safety else frozenset())


def checks_needed(connection: Connection) -> frozenset[Fact]:
    """Return the checks that a connection must have had.

    A quick control connector must be pulled (BGA, Safe rigging); a control must be held against its stick
    and moved in the right
    direction (EASA SIB 2012-04; GFA manual of standard procedures, 6.3); what is critical must be seen by
    another person (the same).
    """
    found = set()
    if connection.pull_tested or connection.kind == "manual control":
        found.add(Fact.PULL_TESTED)
    if connection.looked_at:
        found.add(Fact.LOOKED)
    if connection.critical:
        found.add(Fact.SEEN_BY_OTHER)
    if connection.kind in CONTROLS:
        found |= {Fact.POSITIVE_CHECK, Fact.SENSE}
    return frozenset(found)


def unmet(condition: Condition | None, state: State, system: System) -> Iterator[str]:
    """Say in words what a condition still lacks. Objects that the variant does not have are passed over."""
    if condition is None:
        return
    yield from _unmet_joints(condition, state, system)
    yield from _unmet_parts(condition, state, system)
    called = system.called
    for covers, is_open in ((condition.closed, False), (condition.opened, True)):
        for name in covers:
            if name in system.covers and (name in state.open_covers) is not is_open:
                yield f"the {called(name)} is {'closed' if is_open else 'open'}"
    for name in condition.checked:
        if name in system.checks and name not in state.checks:
            yield f"the check {called(name)!r} was not made before"
    for name in condition.isolated:
        circuit = state.circuits[name]
        if circuit.live or not circuit.seen_isolated:
            yield (
                f"the {called(name)} is live"
                if circuit.live
                else f"nobody saw in this list that the {called(name)} is isolated"
            )
    yield from (
        f"the {called(name)} is not energised" for name in condition.live if not state.circuits[name].live
    )
    for setting, position in condition.settings.items():
        if setting in system.settings and state.settings[setting] != position:
            yield f"the {called(setting)} stands at {state.settings[setting]!r}, not at {str(position)!r}"


def _unmet_parts(condition: Condition, state: State, system: System) -> Iterator[str]:
    places = {name: part.where is Where.PLACED for name, part in state.parts.items()}
    called = system.called
    yield from (
        f"the {called(name)} is not in place" for name in condition.placed if places.get(name) is False
    )
    yield from (f"the {called(name)} is in place already" for name in condition.away if places.get(name))
    yield from (
        f"nobody holds the {called(name)}"
        for name in condition.held
        if name in system.parts and not state.parts[str(name)].held
    )


def _unmet_joints(condition: Condition, state: State, system: System) -> Iterator[str]:
    wanted = (
        *(
            (name, made(system.connections[name]), "joined")
            for name in condition.joined
            if name in system.connections
        ),
        *(
            (name, mechanical_needs(system.connections[name]), "secured")
            for name in condition.secured
            if name in system.connections
        ),
    )
    for name, facts, word in wanted:
        if not facts <= state.joints[name].facts:
            yield f"the {system.called(name)} is not {word}"
    for name in condition.apart:
        if name in system.connections and Fact.ENGAGED in state.joints[name].facts:
            yield f"the {system.called(name)} is still joined"
