"""The state of an aircraft while people work on it: parts, joints, loose pieces, covers, settings, circuits.
Frozen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum


class Fact(StrEnum):
    """What is known of a connection. A set, not a line: a pin that is in does not show that the joint is
    made (BGA 2017)."""

    ENGAGED = "engaged"
    LOCKED = "locked"
    TORQUED = "tightened"
    SAFETIED = "safetied"
    LOOKED = "seen at its mark"
    PULL_TESTED = "pulled"
    SEEN_BY_OTHER = "seen by another person"
    POSITIVE_CHECK = "held against its control"
    SENSE = "moved fully in the right direction"


MECHANICAL = frozenset({Fact.ENGAGED, Fact.LOCKED, Fact.TORQUED, Fact.SAFETIED})
"""Facts of metal. The others say that somebody looked or tried, and a later touch withdraws them."""


class Where(StrEnum):
    """Where a part is."""

    HOME = "stowed"
    OUT = "out"
    PLACED = "in place"


@dataclass(frozen=True)
class PartState:
    """One part."""

    where: Where = Where.HOME
    held: bool = False
    holders: frozenset[str] = field(default=frozenset(), compare=False)
    """Roles that hold it; empty once each of them has put a hand to something else."""


@dataclass(frozen=True)
class Joint:
    """One connection."""

    facts: frozenset[Fact] = frozenset()
    makers: frozenset[str] = frozenset()
    """Who engaged, locked, tightened or safetied it since it was last open."""
    checkers: frozenset[tuple[Fact, str]] = frozenset()
    """Who made which check."""
    withdrawn: frozenset[Fact] = frozenset()
    """Checks that a later touch made void."""

    @property
    def mechanical(self) -> frozenset[Fact]:
        """The facts of metal."""
        return self.facts & MECHANICAL


@dataclass(frozen=True)
class Pieces:
    """A loose item: how many pieces are where."""

    home: int
    out: int = 0
    fitted: int = 0
    counted: bool = True
    """False from when a piece moves until it is counted."""


@dataclass(frozen=True)
class CircuitState:
    """One circuit."""

    live: bool = False
    seen_isolated: bool = False
    """Somebody saw in this procedure that it is isolated."""


@dataclass(frozen=True)
class State:
    """Everything, at one moment."""

    parts: Mapping[str, PartState]
    joints: Mapping[str, Joint]
    pieces: Mapping[str, Pieces]
    settings: Mapping[str, str]
    circuits: Mapping[str, CircuitState]
    open_covers: frozenset[str] = frozenset()
    checks: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Checks made in this procedure, and by whom."""
    propeller_clear: bool = False
    recent: tuple[frozenset[str], ...] = ()
    """Connections touched by the last two steps: what an interruption puts in doubt."""

    def with_part(self, name: str, part: PartState) -> State:
        """Change a part."""
        return replace(self, parts={**self.parts, name: part})

    def with_joint(self, name: str, joint: Joint) -> State:
        """Change a connection."""
        return replace(self, joints={**self.joints, name: joint})

    def with_pieces(self, name: str, pieces: Pieces) -> State:
        """Change a loose item."""
        return replace(self, pieces={**self.pieces, name: pieces})

    def with_circuit(self, name: str, circuit: CircuitState) -> State:
        """Change a circuit."""
        return replace(self, circuits={**self.circuits, name: circuit})

    def at_the_start(self) -> State:
        """Return the state as a new procedure finds it: nobody has looked at anything in it yet."""
        circuits = {name: replace(one, seen_isolated=False) for name, one in self.circuits.items()}
        pieces = {name: replace(one, counted=True) for name, one in self.pieces.items()}
        return replace(self, checks={}, circuits=circuits, pieces=pieces, propeller_clear=False, recent=())


def differences(wanted: State, found: State) -> Iterator[tuple[str, str, str]]:
    """List what is physically different: name, what it should be, what it is. Who looked at what does not
    count."""
    for name, part in wanted.parts.items():
        if part != found.parts[name]:
            yield name, _part(part), _part(found.parts[name])
    for name, joint in wanted.joints.items():
        if joint.mechanical != found.joints[name].mechanical:
            yield name, facts(joint.mechanical), facts(found.joints[name].mechanical)
    for name, pieces in wanted.pieces.items():
        other = found.pieces[name]
        if (pieces.home, pieces.out, pieces.fitted) != (other.home, other.out, other.fitted):
            yield name, _pieces(pieces), _pieces(other)
    for name, position in wanted.settings.items():
        if position != found.settings[name]:
            yield name, position, found.settings[name]
    for name in sorted(wanted.open_covers ^ found.open_covers):
        yield (name, *(("open", "closed") if name in wanted.open_covers else ("closed", "open")))
    for name, circuit in wanted.circuits.items():
        if circuit.live != found.circuits[name].live:
            yield (name, *(("live", "isolated") if circuit.live else ("isolated", "live")))


def facts(found: frozenset[Fact]) -> str:
    """Write facts in words, in their order."""
    return ", ".join(fact.value for fact in Fact if fact in found) or "open"


def _part(part: PartState) -> str:
    return f"{part.where.value}, held by hand" if part.held else part.where.value


def _pieces(pieces: Pieces) -> str:
    words = ((pieces.home, "stowed"), (pieces.out, "out"), (pieces.fitted, "fitted"))
    return ", ".join(f"{number} {word}" for number, word in words if number) or "none"
