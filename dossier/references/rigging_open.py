"""What rigging.yaml leaves open although a check of the lists needs it: who asks for little finds little."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Place, Severity
from dossier.located import place_of
from dossier.model.procedure import Procedure
from dossier.model.rigging import Circuit, Connection, Load, Rigging
from dossier.project import Project

STRUCTURE = ("structural pin", "bolt and nut")
CONTROLS = ("manual control", "self-connecting control")
ONLY_READ = ("emergency",)
"""Kinds of lists that begin in whatever state the aircraft is in: nobody can replay them."""


def check(project: Project) -> Iterator[Finding]:
    """Find what a careful builder would have said. Warnings, for the lists are replayed all the same."""
    rigging = project.rigging
    if rigging is None:
        return
    for connection in rigging.connections.values():
        yield from _connection(connection)
    for part in rigging.parts.values():
        yield from _part(part)
    yield from _states(rigging)
    yield from _circuits(rigging, project)
    yield from _checks(rigging, project)
    yield from _lists(project)
    yield from _warnings(rigging, project)


def _warnings(rigging: Rigging, project: Project) -> Iterator[Finding]:
    """Before what a hazard's box must stand is said once; else its place in a list is checked by nobody."""
    told: set[str] = set()
    for procedure in project.procedures.values():
        steps = (step for section in procedure.sections for step in section.steps)
        for hazard in (hazard for step in steps if procedure.starts_from for hazard in step.hazards):
            if hazard in project.hazards.hazards and hazard not in rigging.warnings and hazard not in told:
                told.add(str(hazard))
                yield Finding(
                    "V073",
                    f"the hazard {str(hazard)!r} stands at a step, and rigging.yaml does not say before what",
                    f"add under warnings:  {hazard}: {{before: [...]}}",
                    place_of(hazard),
                    Severity.NOTE,
                )


def _connection(connection: Connection) -> Iterator[Finding]:
    """A control or a structural joint is critical, secured, and tightened by a torque if it is a bolt.

    Source: EASA SIB 2019-07 (what was not connected, what was not secured); AC 43.13-1B, 7-37 and 7-122.
    """
    called = f"the connection {str(connection.name)!r}"
    holds = connection.kind in (*STRUCTURE, *CONTROLS)
    if holds and not connection.critical and connection.not_critical is None:
        words = f"{called} is a {connection.kind}, and is not called critical"
        yield _open(words, "write  critical: true  or say why not:  not_critical: ...", connection.place)
    by_itself = connection.kind == "self-connecting control"
    if holds and not by_itself and connection.lock == "none" and not connection.safety:
        words = f"{called} has neither a lock nor a safety part, so nothing keeps it together"
        yield _open(words, "write how it is locked, or take  safety: false  out", connection.place)
    if connection.kind == "bolt and nut" and connection.fastening is None:
        words = f"{called} is a bolt with a nut, and says neither thread nor nut nor whose torque"
        yield _open(words, "add  fastening: {thread: ..., nut: ..., figure: ...}", connection.place)
    if connection.kind == "power plug" and connection.circuit is None:
        words = f"{called} is a power plug, and does not say of which circuit"
        yield _open(words, "add  circuit: ...", connection.place)


def _part(part: Load) -> Iterator[Finding]:
    if not (part.fixed or part.battery or part.size):
        words = f"the part {str(part.name)!r} has no size, so nobody can tell what room it takes to carry it"
        remedy = "add  size: {length: ..., width: ..., height: ...}"
        yield Finding("V064", words, remedy, part.place, Severity.WARNING)
    if part.carried and not part.held_until:
        words = f"the part {str(part.name)!r} is carried to its place, and nothing says until when it is held"
        yield _open(words, "add  held_until: [...]  with the joints that carry it", part.place)


def _states(rigging: Rigging) -> Iterator[Finding]:
    if not any(state.complete for state in rigging.states.values()):
        words = "no state is called complete, so no list has to make, secure and check every joint"
        first = next(iter(rigging.states.values()), None)
        place = first.place if first else rigging.place_of_key("states")
        yield _open(words, "write  complete: true  at the state that rigging ends in", place)


def _circuits(rigging: Rigging, project: Project) -> Iterator[Finding]:
    with_battery = any(part.battery for part in rigging.parts.values())
    plugged = any(connection.circuit for connection in rigging.connections.values())
    turns = any(circuit.propeller for circuit in rigging.circuits.values())
    if not turns and (with_battery or plugged or rigging.circuits):
        words = "no circuit can turn the propeller, so nobody has to call it clear"
        first = next(iter(rigging.circuits.values()), None)
        place = first.place if first else rigging.place_of_key("circuits")
        yield _open(words, "write  propeller: true  at the circuit that turns it", place)
    lists = [one for one in project.procedures.values() if one.starts_from]
    if any(one.kind == "preflight" for one in lists):
        for name, circuit in rigging.circuits.items():
            yield from _never_live(name, circuit, lists)


def _never_live(name: str, circuit: Circuit, lists: list[Procedure]) -> Iterator[Finding]:
    acts = [
        act
        for one in lists
        for section in one.sections
        for step in section.steps
        for act in (*step.acts, *step.second_acts)
    ]
    if (
        not circuit.live_by
        and not circuit.live_at_home
        and not any(act.act == "energise" and name in act.what for act in acts)
    ):
        yield Finding(
            "V054",
            f"no act of any list makes the circuit {str(circuit.name)!r} live, so no list can be wrong there",
            "add the act  energise  where it is switched on, or  live_by: [...]  if its plug is its switch",
            circuit.place,
            Severity.WARNING,
        )


def _checks(rigging: Rigging, project: Project) -> Iterator[Finding]:
    made = {
        str(name)
        for one in project.procedures.values()
        for section in one.sections
        for step in section.steps
        for act in (*step.acts, *step.second_acts)
        if act.act == "check"
        for name in act.what
    }
    for name, one_check in rigging.checks.items():
        if name not in made:
            yield Finding(
                "V024",
                f"no list makes the check {str(one_check.name)!r}",
                "add the step with its act, or take the check out of rigging.yaml",
                one_check.place,
                Severity.WARNING,
            )


def _lists(project: Project) -> Iterator[Finding]:
    kinds = {str(one.kind) for one in project.procedures.values()}
    for procedure in project.procedures.values():
        if procedure.kind not in ONLY_READ and not (procedure.starts_from and procedure.ends_in):
            yield Finding(
                "V005",
                f"the list {str(procedure.title)!r} names no states, so nobody replays it",
                "add  starts_from: ...  and  ends_in: ...  with states of rigging.yaml",
                procedure.place_of_key("title"),
                Severity.WARNING,
            )
    rigged = next((one for one in project.procedures.values() if one.kind == "rigging"), None)
    for kind, what in (
        ("de-rigging", "takes the aircraft apart again"),
        ("preflight", "looks at what was rigged"),
    ):
        if rigged is not None and kind not in kinds:
            yield Finding(
                "V103",
                f"the project has a rigging list, and no list of kind {kind} {what}",
                "write it; until then no way back and no second look is checked",
                rigged.place_of_key("title"),
                Severity.NOTE,
            )


def _open(message: str, remedy: str, place: Place | None) -> Finding:
    return Finding("V006", message, remedy, place, Severity.WARNING)
