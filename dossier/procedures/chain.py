"""Lists in a row: each starts in the state in which another one ends, and from every stop point both ways
lead back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from dossier.findings import Finding, Place, Severity
from dossier.procedures.fault import Fault, head
from dossier.procedures.listing import Listing
from dossier.procedures.rules.table import MIDDLE_RULES, RUN_RULES, STOP_RULES
from dossier.procedures.run import Run, replay
from dossier.procedures.state import State, differences
from dossier.procedures.system import System

_ORDER = (
    "rigging",
    "inspection",
    "preflight",
    "after-flight",
    "charging",
    "storage",
    "transport",
    "de-rigging",
    "emergency",
)


@dataclass(frozen=True)
class Chain:
    """The lists of a variant, replayed one after another from the home state."""

    system: System
    runs: tuple[Run, ...]
    states: Mapping[str, State]
    """Each named state, as the first list that ends in it leaves it."""
    unreached: tuple[Listing, ...]
    """Lists whose starting state no list ends in."""


def in_order(listings: Iterable[Listing]) -> tuple[Listing, ...]:
    """Order lists by kind, then as the record orders those of a kind."""
    return tuple(
        sorted(listings, key=lambda one: (_ORDER.index(one.procedure.kind), one.procedure.order, one.name))
    )


def chain(system: System, listings: Iterable[Listing]) -> Chain:
    """Replay every list that names its states, as soon as its starting state is known."""
    states = {str(system.rigging.home): system.at_home()}
    waiting, runs = list(in_order(listings)), []
    while ready := next((one for one in waiting if one.procedure.starts_from in states), None):
        waiting.remove(ready)
        run = replay(system, ready, states[str(ready.procedure.starts_from)])
        runs.append(run)
        states.setdefault(str(ready.procedure.ends_in), run.end)
    return Chain(system, tuple(runs), states, tuple(waiting))


def faults(made: Chain) -> Iterator[Fault]:
    """Find every fault of the lists in a row: those of single steps first, those of stop points last and
    only where they are new."""
    told = set()
    for fault in _straight(made):
        told.add((fault.finding.code, fault.finding.place))
        yield fault
    for fault in stop_faults(made):
        if (fault.finding.code, fault.finding.place) not in told:
            told.add((fault.finding.code, fault.finding.place))
            yield fault


def _straight(made: Chain) -> Iterator[Fault]:
    for run in made.runs:
        for rule in RUN_RULES:
            yield from rule(run)
    for run in made.runs:
        yield from _wrong_end(run, made)
    for one in made.unreached:
        start = str(one.procedure.starts_from)
        finding = Finding(
            "V003",
            f"this list starts from {start!r}, and no list that can be replayed ends there",
            f"states reached: {', '.join(made.states)}",
            head(one),
            Severity.WARNING,
        )
        yield Fault(finding, one.name, None, ())


def _wrong_end(run: Run, made: Chain) -> Iterator[Fault]:
    """The list does not end in the state that its name promises: the stowed state, or the one that another
    list reached."""
    procedure = run.listing.procedure
    known = made.states[str(procedure.ends_in)]
    for name, wanted, found in differences(known, run.end):
        called, state = run.system.called(name), run.system.rigging.states[str(procedure.ends_in)].name
        words = f"the list ends with the {called} {found}; in the state {str(state)!r} it is {wanted}"
        finding = Finding(
            "V100", words, "add the step that brings it there", _last_place(run, name), Severity.WARNING
        )
        trace = tuple(
            (moment.doing.step.number, str(moment.doing.step.written.do)) for moment in run.touching(name)
        )
        yield Fault(finding, run.listing.name, trace[-1][0] if trace else None, trace)


def _last_place(run: Run, name: str) -> Place | None:
    touching = run.touching(name)
    return touching[-1].doing.step.place if touching else head(run.listing)


def stop_faults(made: Chain) -> Iterator[Fault]:
    """From every point at which a crew may stop, taking apart leads home and putting together leads to the
    complete state."""
    rigging = [run for run in made.runs if run.listing.procedure.kind == "rigging"]
    derigging = [run for run in made.runs if run.listing.procedure.kind == "de-rigging"]
    if not rigging or not derigging:
        return
    for forward, back in ((rigging, derigging), (derigging, rigging)):
        goal = made.states[str(back[-1].listing.procedure.ends_in)]
        for run in forward:
            for section, title in _stops(run):
                stopped = replay(made.system, run.listing, run.start, run.listing.steps_to(section))
                for rule in STOP_RULES:
                    yield from rule(stopped)
                yield from _way(
                    made,
                    stopped.end,
                    _from(str(run.listing.procedure.ends_in), back),
                    goal,
                    (title, run.listing),
                )


def _from(state: str, runs: Iterable[Run]) -> Iterator[Listing]:
    """Follow the lists of one direction from a state: the crew turns round inside a list and takes up the
    one that undoes it."""
    left = list(runs)
    while found := next((run for run in left if run.listing.procedure.starts_from == state), None):
        left.remove(found)
        yield found.listing
        state = str(found.listing.procedure.ends_in)


def _stops(run: Run) -> Iterator[tuple[int, str]]:
    for index, section in enumerate(run.listing.procedure.sections):
        if section.stop:
            yield index, str(section.title)


def _way(
    made: Chain, state: State, lists: Iterable[Listing], goal: State, stop: tuple[str, Listing]
) -> Iterator[Fault]:
    title, origin = stop
    for one in lists:
        run = replay(made.system, one, state, begun_at=title)
        for rule in MIDDLE_RULES:
            yield from rule(run)
        state = run.end
    for name, wanted, found in differences(goal, state):
        words = (
            f"whoever stops after {title!r} and goes the other way ends with the {made.system.called(name)} "
            f"{found}, not {wanted}"
        )
        finding = Finding(
            "V101",
            words,
            "take the stop point out, or put the missing step into the other list",
            _place_of_section(origin, title),
            Severity.WARNING,
        )
        yield Fault(finding, origin.name, None, ())


def _place_of_section(one: Listing, title: str) -> Place | None:
    return next(section.place for section in one.procedure.sections if section.title == title)
