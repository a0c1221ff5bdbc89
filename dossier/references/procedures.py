"""References of the procedures: hazards, limits, options. Whether a procedure is right, another room asks."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Severity
from dossier.located import place_of
from dossier.model.aircraft import PLACEHOLDER
from dossier.model.procedure import Hazard, Procedure, ProcedureStep
from dossier.project import Project
from dossier.references.applicability import applicability
from dossier.references.names import placeholders, unknown


def check(project: Project) -> Iterator[Finding]:
    """Check every procedure and the use of every hazard."""
    for name, hazard in project.hazards.hazards.items():
        for text in (hazard.hazard, hazard.consequence, hazard.avoidance):
            yield from placeholders(text, project)
        yield from _says_nothing(name, hazard)
    for procedure in project.procedures.values():
        yield from _procedure(procedure, project)
    yield from _unused(project)


_EMPTY = frozenset(
    {
        "n/a",
        "none",
        "tbd",
        "todo",
        "see above",
        "see below",
        "as above",
        "unknown",
        "-",
        "...",
        "be careful",
        "take care",
        "caution",
        "careful",
        "beware",
        "pay attention",
        "watch out",
        "danger",
        "dangerous",
        "risk",
        "injury",
        "avoid",
        "avoid it",
        "do not do it",
        "use caution",
    }
)
"""Words that stand where a consequence or a remedy is due, and tell neither."""


def _says_nothing(name: str, hazard: Hazard) -> Iterator[Finding]:
    """A message says what can hurt, what follows and how to avoid it (ANSI Z535.6, as read in summaries)."""
    seen: set[str] = set()
    for key in ("hazard", "consequence", "avoidance"):
        text = " ".join(str(getattr(hazard, key)).lower().rstrip(".!").split())
        if text in _EMPTY or text in seen:
            yield Finding(
                "V072",
                f"the {key} of the hazard {str(name)!r} says nothing: {str(getattr(hazard, key))!r}",
                "say what can hurt, what happens to whom, and what to do instead",
                hazard.place_of_key(key),
                Severity.WARNING,
            )
        seen.add(text)


def _procedure(procedure: Procedure, project: Project) -> Iterator[Finding]:
    hazards = project.hazards.hazards
    for name in procedure.hazards:
        yield from unknown(name, hazards, "hazard", "hazards.yaml")
    for text in (procedure.purpose, procedure.closing):
        yield from placeholders(text, project)
    yield from _as_it_is(procedure.title, *procedure.tools, *procedure.loose_items)
    for section in procedure.sections:
        yield from placeholders(section.note, project)
        yield from placeholders(section.if_not, project)
        yield from placeholders(section.leaves, project)
        yield from _as_it_is(section.title)
        for step in section.steps:
            yield from _step(step, project)


def _as_it_is(*texts: str | None) -> Iterator[Finding]:
    """Refuse a limit in braces in a name or a title: it would be printed with its braces."""
    for text in texts:
        for found in PLACEHOLDER.finditer(text or ""):
            yield Finding(
                "P042",
                f"{found[0]} stands in a name or title, where no limit is filled in",
                "write it in do, expect, second_check, if_not, by, note, purpose or closing",
                place_of(text),
            )


def _step(step: ProcedureStep, project: Project) -> Iterator[Finding]:
    for name in step.hazards:
        yield from unknown(name, project.hazards.hazards, "hazard", "hazards.yaml")
    for text in (step.do, step.expect, step.second_check, step.if_not, step.by):
        yield from placeholders(text, project)
    fastening = (step.torque.fastener, step.torque.source) if step.torque else ()
    yield from _as_it_is(step.tool, *fastening, step.picture.shows if step.picture else None)
    yield from applicability(step, project)


def _unused(project: Project) -> Iterator[Finding]:
    used = {name for system in project.aircraft.systems for name in system.cautions}
    for stage in project.assembly.stages if project.assembly else ():
        used.update(name for step in stage.steps.values() for name in step.hazards)
    for procedure in project.procedures.values():
        used.update(procedure.hazards)
        used.update(name for section in procedure.sections for step in section.steps for name in step.hazards)
    for name, hazard in project.hazards.hazards.items():
        if name not in used:
            yield Finding(
                "P040",
                f"the hazard {name!r} stands before no step and no system",
                "name it where it begins, or take it out",
                hazard.place,
                Severity.WARNING,
            )
