"""References of the procedures: hazards, limits, options. Whether a procedure is right is another room's question."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Severity
from dossier.model.procedure import Procedure, ProcedureStep
from dossier.project import Project
from dossier.references.names import placeholders, unknown


def check(project: Project) -> Iterator[Finding]:
    """Check every procedure and the use of every hazard."""
    for hazard in project.hazards.hazards.values():
        for text in (hazard.hazard, hazard.consequence, hazard.avoidance):
            yield from placeholders(text, project.aircraft.limits)
    for procedure in project.procedures.values():
        yield from _procedure(procedure, project)
    yield from _unused(project)


def _procedure(procedure: Procedure, project: Project) -> Iterator[Finding]:
    hazards = project.hazards.hazards
    for name in procedure.hazards:
        yield from unknown(name, hazards, "hazard", "hazards.yaml")
    for text in (procedure.purpose, procedure.closing, *(section.note for section in procedure.sections)):
        yield from placeholders(text, project.aircraft.limits)
    for section in procedure.sections:
        for step in section.steps:
            yield from _step(step, project)


def _step(step: ProcedureStep, project: Project) -> Iterator[Finding]:
    for name in step.hazards:
        yield from unknown(name, project.hazards.hazards, "hazard", "hazards.yaml")
    for text in (step.do, step.expect, step.second_check, step.if_not, step.by):
        yield from placeholders(text, project.aircraft.limits)
    if step.option is not None:
        optional = [name for name, item in project.aircraft.items.items() if item.optional]
        yield from unknown(step.option, optional, "optional item", "items in aircraft.yaml")


def _unused(project: Project) -> Iterator[Finding]:
    used = {name for system in project.aircraft.systems for name in system.cautions}
    for procedure in project.procedures.values():
        used.update(procedure.hazards)
        used.update(name for section in procedure.sections for step in section.steps for name in step.hazards)
    for name, hazard in project.hazards.hazards.items():
        if name not in used:
            yield Finding("P040", f"the hazard {name!r} stands before no step and no system", "name it where it begins, or take it out", hazard.place, Severity.WARNING)
