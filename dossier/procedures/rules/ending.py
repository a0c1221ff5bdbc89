"""Is every joint made, secured and checked when the list ends?"""

from __future__ import annotations

from collections.abc import Iterator

from dossier.procedures.acts import HANDS_ON_JOINT
from dossier.procedures.fault import Fault, at_end
from dossier.procedures.run import Run
from dossier.procedures.state import Fact, facts
from dossier.procedures.system import CONTROLS, checks_needed, mechanical_needs, unmet


def _ends_complete(run: Run) -> bool:
    state = run.system.rigging.states.get(str(run.listing.procedure.ends_in))
    return bool(state and state.complete and not run.begun_at and run.steps == run.listing.steps)


def joined(run: Run) -> Iterator[Fault]:
    """Where a state is complete, every connection is engaged that it does not want apart, and every cover
    closed.

    Source: EASA SIB 2019-07, groups of rigging faults (first page read).
    """
    if not _ends_complete(run):
        return
    wanted = run.system.rigging.states[str(run.listing.procedure.ends_in)].needs
    for name in run.system.connections:
        is_apart = wanted is not None and name in wanted.apart
        if not is_apart and Fact.ENGAGED not in run.end.joints[name].facts:
            yield at_end(
                run,
                "V020",
                (f"the {run.system.called(name)} is never joined", "add the step that joins it"),
                (name,),
            )
    for name in sorted(run.end.open_covers):
        yield at_end(
            run,
            "V020",
            (f"the {run.system.called(name)} is left open", "add the step that closes it"),
            (name,),
        )


def secured(run: Run) -> Iterator[Fault]:
    """A connection that is engaged when a list ends, or where a crew may stop, is locked, tightened and
    safetied.

    Source: EASA SIB 2019-07 (connections not secured); LBA 1994-001/2 (locking cams open in normal service;
    secure them).
    """
    for name in _concerned(run, frozenset({Fact.SAFETIED})):
        joint = run.end.joints[name]
        missing = mechanical_needs(run.system.connections[name]) - joint.facts
        if missing:
            words = (
                f"the {run.system.called(name)} is left {facts(joint.mechanical)}, but not {facts(missing)}"
            )
            yield at_end(run, "V021", (words, "add the missing step"), (name,))


def state_needs(run: Run) -> Iterator[Fault]:
    """What rigging.yaml asks of the state in which the list ends is so.

    Source: the builder's own rigging.yaml.
    """
    state = run.system.rigging.states.get(str(run.listing.procedure.ends_in))
    if state is None or run.begun_at or run.steps != run.listing.steps:
        return
    for lack in unmet(state.needs, run.end, run.system):
        yield at_end(
            run,
            "V022",
            (f"the list ends in the state {str(state.name)!r}, but {lack}", "add the missing step"),
            _names(run, lack),
        )


def _names(run: Run, words: str) -> tuple[str, ...]:
    return tuple(name for name in run.system.objects if run.system.called(name) in words)


def verified(run: Run) -> Iterator[Fault]:
    """A joint whose mark must be seen, or that must be pulled, was seen and pulled after it was made.

    Source: BGA, Safe rigging (a half-made quick connector looks right and lets go at a small shock: pull it
    apart lightly after pinning).
    """
    for name, missing in _unchecked(run, frozenset({Fact.LOOKED, Fact.PULL_TESTED})):
        words = (
            f"the {run.system.called(name)} is made, and never "
            f"{' nor '.join(_DONE[fact] for fact in Fact if fact in missing)}"
        )
        yield at_end(run, "V030", (words, "add the step, behind the one that makes the joint"), (name,))


_DONE = {Fact.LOOKED: "looked at before its safety part goes in", Fact.PULL_TESTED: "pulled"}


def independent(run: Run) -> Iterator[Fault]:
    """A flight-critical connection is seen, complete, by somebody who did not make it.

    Source: GFA manual of standard procedures part 3, 6.3, as quoted (independent inspection each time a
    control circuit is reconnected).
    """
    for name, _ in _unchecked(run, frozenset({Fact.SEEN_BY_OTHER})):
        joint = run.end.joints[name]
        if joint.withdrawn & {Fact.SEEN_BY_OTHER}:
            continue
        called = run.system.called(name)
        lookers = sorted(who for fact, who in joint.checkers if fact is Fact.SEEN_BY_OTHER)
        if lookers:
            who = (
                run.system.rigging.people[lookers[0]].name
                if lookers[0] in run.system.rigging.people
                else lookers[0]
            )
            words = f"the {called} is checked only by a person who made it ({who})"
            yield at_end(run, "V032", (words, "let another person make the second check"), (name,))
        else:
            words = f"the {called} is flight-critical, and no other person looks at it when it is complete"
            yield at_end(
                run, "V031", (words, "add a second check by another person, after the last touch"), (name,)
            )


def positive_check(run: Run) -> Iterator[Fault]:
    """A control that was connected is held at its surface while another person works the stick.

    Source: EASA SIB 2012-04; BGA newsletter September 2013 (definition); free movement alone does not show
    the connection.
    """
    for name, _ in _unchecked(run, frozenset({Fact.POSITIVE_CHECK})):
        if Fact.POSITIVE_CHECK not in run.end.joints[name].withdrawn:
            yield at_end(
                run,
                "V033",
                (
                    (
                        f"the {run.system.called(name)} was connected, and nobody holds the surface against "
                        "the control afterwards"
                    ),
                    "add a positive control check by two people",
                ),
                (name,),
            )


def sense(run: Run) -> Iterator[Fault]:
    """A control that was connected is then moved fully and freely, and moves in the right direction, seen by
    a person who did not connect it.

    Source: GFA 6.3 as quoted (right sense, full and free); ATSB 199504285 (crossed ailerons passed four
    inspections).
    """
    for name in _concerned(run, frozenset({Fact.SENSE})):
        joint = run.end.joints[name]
        if run.system.connections[name].kind not in CONTROLS or Fact.SENSE in joint.withdrawn:
            continue
        called = run.system.called(name)
        watchers = {who for fact, who in joint.checkers if fact is Fact.SENSE}
        if Fact.SENSE not in joint.facts:
            words = (
                f"the {called} was connected, and nobody looks afterwards whether it moves fully and in the "
                "right direction"
            )
            yield at_end(
                run,
                "V034",
                (words, "add the step: move the control fully, say which way the surface moves"),
                (name,),
            )
        elif not watchers - joint.makers:
            words = f"whoever connected the {called} is the only one to see which way it moves"
            yield at_end(run, "V034", (words, "let another person look and say it"), (name,))


def standing(run: Run) -> Iterator[Fault]:
    """A check stands until the joint is touched again: what was opened, disturbed or changed after it must
    be checked anew.

    Source: own reasoning from GFA 6.3 (inspection each time) and EASA SIB 2019-07 (interruption).
    """
    for name, connection in run.system.connections.items():
        joint = run.end.joints[name]
        void = joint.withdrawn & checks_needed(connection) - joint.facts
        if (
            void - run.start.joints[name].withdrawn
            and Fact.ENGAGED in joint.facts
            and (run.steps == run.listing.steps or not void & _OF_CONTROLS)
        ):
            touched = any(
                m.after.joints[name].withdrawn - m.before.joints[name].withdrawn for m in run.touching(name)
            )
            cause = "a later step" if touched else "an interruption"
            words = (
                f"a check of the {run.system.called(name)} is made void by {cause}: it is no longer "
                f"{facts(void)}"
            )
            yield at_end(run, "V035", (words, "make the check again after the last touch"), (name,))


def _unchecked(run: Run, kinds: frozenset[Fact]) -> Iterator[tuple[str, frozenset[Fact]]]:
    for name in _concerned(run, kinds):
        missing = checks_needed(run.system.connections[name]) & kinds - run.end.joints[name].facts
        if missing:
            yield name, missing


def _concerned(run: Run, kinds: frozenset[Fact]) -> Iterator[str]:
    """List the connections that this list leaves made and that must have some checks by its end.

    A control is loaded and moved when everything is joined; at a stop point or in a part of the rigging that
    is not yet due.
    """
    states, procedure = run.system.rigging.states, run.listing.procedure
    start, end = states.get(str(procedure.starts_from)), states.get(str(procedure.ends_in))
    completes = bool(end and end.complete and run.steps == run.listing.steps)
    if kinds & _OF_CONTROLS and not completes:
        return
    everything = completes and not (start and start.complete)
    for name in run.system.connections:
        if Fact.ENGAGED in run.end.joints[name].facts and (everything or _is_touched(run, name)):
            yield name


_OF_CONTROLS = frozenset({Fact.POSITIVE_CHECK, Fact.SENSE})


def _is_touched(run: Run, name: str) -> bool:
    by = run.system.connections[name].made_by_placing
    return any(
        (moment.name == name and moment.verb in HANDS_ON_JOINT) or (by is not None and moment.name == by)
        for moment in run.moments
    )
