"""Are checks made where something can be seen, by enough people, and does the preflight see every critical
joint?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dossier.findings import Finding, Severity
from dossier.procedures.acts import CHECKING, HANDS_ON_JOINT, MAKING
from dossier.procedures.fault import Fault, at_end, at_step, head, of_text
from dossier.procedures.listing import Doing, Listing
from dossier.procedures.run import Run
from dossier.procedures.state import Fact
from dossier.procedures.system import CONTROLS, System


def visible(run: Run) -> Iterator[Fault]:
    """A joint is inspected before the cover over it is closed, and a cover is closed only over joints that
    were seen.

    Source: own reasoning; common practice (check before the cover is on).
    """
    for moment in run.of("look", "inspect", "pull_test"):
        for cover in run.system.hiding(moment.name):
            if cover not in moment.before.open_covers and not run.system.covers[cover].window:
                words = (
                    f"this looks at the {run.system.called(moment.name)}, and the {run.system.called(cover)} "
                    "over it is closed"
                )
                yield at_step(
                    run,
                    "V036",
                    moment.doing.step,
                    (words, "look before the cover is closed"),
                    (moment.name, cover),
                )
    for moment in run.of(*HANDS_ON_JOINT):
        for cover in run.system.hiding(moment.name):
            if cover not in moment.before.open_covers:
                words = (
                    f"hands are at the {run.system.called(moment.name)}, and the {run.system.called(cover)} "
                    "over it is closed"
                )
                yield at_step(
                    run, "V036", moment.doing.step, (words, "open the cover first"), (moment.name, cover)
                )
    for moment in run.of("cover"):
        for name in run.system.covers[moment.name].hides:
            connection = run.system.connections.get(name)
            facts = moment.before.joints[name].facts if connection else frozenset()
            if (
                connection
                and connection.critical
                and Fact.ENGAGED in facts
                and Fact.SEEN_BY_OTHER not in facts
            ):
                words = (
                    f"this closes the {run.system.called(moment.name)} over the {run.system.called(name)}, "
                    "which no other person has seen complete"
                )
                yield at_step(
                    run,
                    "V036",
                    moment.doing.step,
                    (words, "make the second check before this step"),
                    (name, moment.name),
                )


def two_people(run: Run) -> Iterator[Fault]:
    """A positive control check needs two people, one at the surface and one at the control.

    Source: EASA SIB 2012-04.
    """
    for moment in run.of("positive_check"):
        if len(moment.doing.people) < 2:
            words = f"one person alone makes the positive check of the {run.system.called(moment.name)}"
            yield at_step(
                run,
                "V037",
                moment.doing.step,
                (words, "name two people in by: one holds the surface, one moves the control"),
                (moment.name,),
            )


def checks_by_two(run: Run) -> Iterator[Fault]:
    """A critical check of rigging.yaml that a list makes is made by two people.

    Source: GFA 6.3 as quoted; the choice of what is critical is the builder's.
    """
    for name, who in run.end.checks.items():
        if run.system.checks[name].critical and len(who) < 2:
            words = f"the check {run.system.called(name)!r} is critical, and only one person makes it"
            yield at_end(run, "V038", (words, "add a second check by another person"), (name,))


def critical_steps(run: Run) -> Iterator[Fault]:
    """A critical step has a second check, and another person makes it.

    Source: GFA 6.3 as quoted (independent inspection each time); what is critical the builder marks at the
    step.
    """
    for step in run.steps:
        if not step.written.critical or not step.doings:
            continue
        doers = {one for doing in step.doings if not doing.second for one in doing.people}
        others = {one for doing in step.doings if doing.second for one in doing.people}
        together = any(doing.verb == "positive_check" and len(doing.people) > 1 for doing in step.doings)
        if not others - doers and not together and not (len(doers) > 1 and others):
            words = "this step is critical, and " + (
                "whoever does it makes the second check" if others else "it has no second check"
            )
            yield at_step(run, "V038", step, (words, "add second_check and second_acts for another person"))


def marked(listing: Listing, system: System) -> Iterator[Fault]:
    """A list that makes a flight-critical connection calls a step of it critical: page and card then say so.

    Source: own reasoning (what can cost the aircraft is told from what cannot, in words).
    """
    if listing.procedure.kind != "rigging":
        return
    for name, connection in system.connections.items():
        steps = [step for step in listing.steps if any(_makes(doing, name, system) for doing in step.doings)]
        touching = [step for step in listing.steps if any(doing.name == name for doing in step.doings)]
        if connection.critical and steps and not any(step.written.critical for step in touching):
            words = f"the {system.called(name)} is flight-critical, and no step of it is called critical"
            remedy = "write  critical: true  at the step that finishes it"
            yield of_text(listing, "V105", steps[-1], (words, remedy))


def _makes(doing: Doing, connection: str, system: System) -> bool:
    placed = doing.verb == "place" and connection in system.joints_by_placing(doing.name)
    return placed or (doing.name == connection and doing.verb in MAKING)


def checks_made(run: Run) -> Iterator[Fault]:
    """A list makes every check that rigging.yaml asks of it.

    Source: the builder's own rigging.yaml.
    """
    if run.begun_at or run.steps != run.listing.steps:
        return
    for name, check in run.system.checks.items():
        if run.listing.name in check.required_in and name not in run.end.checks:
            yield at_end(
                run,
                "V023",
                (f"the list never makes the check {run.system.called(name)!r}", "add the step"),
                (name,),
            )


def checks_after(run: Run) -> Iterator[Fault]:
    """A check that looks at the result of other work is made after the last change to it.

    Source: own reasoning (check before the last touch is a fault that lists have).
    """
    for name in run.end.checks:
        last_check = max(i for i, moment in enumerate(run.moments) if moment.name == name)
        for other in run.system.checks[name].after:
            later = [
                m
                for m in run.moments[last_check + 1 :]
                if m.name == other and m.verb not in (*CHECKING, "check", "count", "see_isolated")
            ]
            if later:
                words = (
                    f"this changes the {run.system.called(other)} after the check {run.system.called(name)!r}"
                )
                yield at_step(
                    run, "V035", later[0].doing.step, (words, "make the check after this step"), (name, other)
                )


def preflight_covers(system: System, listings: Iterable[Listing]) -> Iterator[Fault]:
    """Every flight-critical connection is looked at, pulled or loaded in the preflight.

    Source: own reasoning (each critical connection in rigging, in the independent check and in the
    preflight).
    """
    of_kind = [one for one in listings if one.procedure.kind == "preflight"]
    if not of_kind:
        return
    done = {(doing.name, doing.verb) for one in of_kind for doing in one.doings}
    for name, connection in system.connections.items():
        if not connection.critical:
            continue
        lacks = [] if any((name, verb) in done for verb in ("look", "inspect", "pull_test")) else ["looks at"]
        if connection.kind in CONTROLS:
            lacks += [
                words
                for verb, words in (("positive_check", "loads"), ("sense", "moves"))
                if (name, verb) not in done
            ]
        for words in lacks:
            finding = Finding(
                "V039",
                f"the preflight never {words} the {system.called(name)}",
                "add the step; it is flight-critical",
                head(of_kind[0]),
                Severity.WARNING,
            )
            yield Fault(finding, of_kind[0].name, None, ())
