"""Critical steps of assembly.yaml: who checks them, and whether their words have controls go the right
way."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Severity
from dossier.located import place_of
from dossier.model.assembly import Assembly, AssemblyStep
from dossier.model.rigging import Rigging
from dossier.procedures.rules.directions import said
from dossier.project import Project
from dossier.references.names import unknown

FILE = "assembly.yaml"


def check(project: Project) -> Iterator[Finding]:
    """Check the critical steps, and that no control is left out of the inspection."""
    assembly, rigging = project.assembly, project.rigging
    if assembly is None:
        return
    for stage in assembly.stages:
        for name, step in stage.steps.items():
            yield from _names(step, rigging)
            yield from _checked(name, step, rigging)
            if rigging:
                yield from _words(step, rigging)
    if rigging:
        yield from _left_out(assembly, rigging)


def _names(step: AssemblyStep, rigging: Rigging | None) -> Iterator[Finding]:
    connections = rigging.connections if rigging else {}
    for name in step.joins:
        yield from unknown(name, connections, "connection", "connections in rigging.yaml")
    for name in step.senses:
        known = rigging.ways if rigging else {}
        yield from unknown(name, known, "connection or check with ways", "rigging.yaml")


def _checked(name: str, step: AssemblyStep, rigging: Rigging | None) -> Iterator[Finding]:
    """A critical step has a second check, and somebody who makes it.

    Source: common practice, no source (duplicate inspection of controls and vital points).
    """
    joined = [one for one in step.joins if rigging and one in rigging.connections]
    critical = [one for one in joined if rigging and rigging.connections[one].critical]
    if (critical or step.senses) and not step.critical:
        why = (
            f"joins {str(critical[0])!r}, which is critical" if critical else "looks at the sense of controls"
        )
        yield Finding(
            "A024",
            f"the step {name!r} {why}, and is not marked so",
            "add  critical: true",
            step.place_of_key("do"),
        )
    missing = [key for key in ("second_check", "checked_by") if getattr(step, key) is None]
    if step.critical and missing:
        yield Finding(
            "A024",
            f"the critical step {name!r} has no {' and no '.join(missing)}",
            "say what another person moves, pulls or looks at, and by whom",
            step.place_of_key("critical"),
        )


def _words(step: AssemblyStep, rigging: Rigging) -> Iterator[Finding]:
    """Where words say which way a surface goes, they say what rigging.yaml has, as in the lists."""
    known = rigging.ways
    own = tuple(way for name in (*step.joins, *step.senses) for way in known.get(str(name), ()))
    everything = tuple(way for ways in known.values() for way in ways)
    told: set[str] = set()
    for text, found in said((step.do, step.expect, step.second_check or ""), everything, own):
        if found.is_wrong and text not in told:
            told.add(text)
            yield Finding(
                "A025",
                f"with the {found.movement.control.lower()} {found.moves} the words have the "
                f"{found.movement.surface.lower()} go {found.goes}, and rigging.yaml has it go {found.right}",
                "correct the words; if they are right, correct  ways  in rigging.yaml and look again",
                place_of(text),
            )


def _left_out(assembly: Assembly, rigging: Rigging) -> Iterator[Finding]:
    """The build looks once at the sense of every control that is joined in the field."""
    looked = {str(name) for stage in assembly.stages for step in stage.steps.values() for name in step.senses}
    left = [name for name in rigging.ways if name in rigging.connections and name not in looked]
    if left:
        yield Finding(
            "A028",
            f"no step of the assembly looks at the sense of {', '.join(map(repr, left))}",
            f"add to the inspection of the controls  senses: [{', '.join(left)}]",
            assembly.place,
            Severity.WARNING,
        )
