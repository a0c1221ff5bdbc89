"""A replay: every act of a list, with the state before and after it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from dossier.procedures import acts
from dossier.procedures.listing import Doing, Listing, Step
from dossier.procedures.passing import already
from dossier.procedures.state import State
from dossier.procedures.system import System


@dataclass(frozen=True)
class Moment:
    """One act."""

    before: State
    doing: Doing
    after: State

    @property
    def name(self) -> str:
        """The object of the act."""
        return self.doing.name

    @property
    def verb(self) -> str:
        """What was done."""
        return self.doing.verb


@dataclass(frozen=True)
class Run:
    """A list replayed from a state."""

    system: System
    listing: Listing
    steps: tuple[Step, ...]
    """The steps replayed: all of the list, or those up to a stop point."""
    start: State
    moments: tuple[Moment, ...]
    end: State
    begun_at: str = ""
    """Where the crew began, if that was in the middle: steps whose work was done were passed over."""

    def of(self, *verbs: str) -> Iterator[Moment]:
        """List the moments of some verbs."""
        return (moment for moment in self.moments if moment.verb in verbs)

    def touching(self, name: str) -> tuple[Moment, ...]:
        """List the moments that concern an object."""
        return tuple(moment for moment in self.moments if moment.name == name)


def replay(
    system: System, listing: Listing, start: State, steps: Iterable[Step] | None = None, begun_at: str = ""
) -> Run:
    """Replay the steps of a list.

    Args:
        system: the variant.
        listing: the list.
        start: the state in which it begins.
        steps: some of its steps; all if left out.
        begun_at: the words for a start in the middle; steps whose work is done are then passed over.
    """
    chosen = listing.steps if steps is None else tuple(steps)
    state = first = start.at_the_start()
    moments = []
    forward = listing.procedure.kind == "rigging"
    for step in chosen:
        touched = set()
        for doing in step.doings:
            if begun_at and already(state, doing, system, forward=forward):
                state = _passed_over(state, doing, system)
                continue
            moment = Moment(state, doing, acts.after(state, doing, system))
            moments.append(moment)
            state = moment.after
            touched |= {doing.name} & state.joints.keys()
        state = replace(state, recent=(*state.recent[-1:], frozenset(touched)))
    return Run(system, listing, chosen, first, tuple(moments), state, begun_at)


def _passed_over(state: State, doing: Doing, system: System) -> State:
    """Take off its hands whoever holds a part that a setting carries already: nothing else changes."""
    return (
        acts.after(state, doing, system)
        if doing.verb == "set" and state.settings[doing.name] == doing.act.to
        else state
    )
