"""References of assembly.yaml, and of the assembly entries of the serials."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from dossier.findings import Finding, Place, Severity
from dossier.located import place_of
from dossier.model.assembly import Assembly, AssemblyStep, Tolerance
from dossier.model.record import AssemblyEntry, SerialRecord
from dossier.procedures.torque_table import names_table, nut_of, outside
from dossier.project import Project
from dossier.references.names import unknown

FILE = "assembly.yaml"
ITEMS = "items in aircraft.yaml"


def check(project: Project) -> Iterator[Finding]:
    """Check the assembly file and every entry that signs a step of it."""
    for record in project.serials.values():
        yield from _numbers(record)
    if project.assembly is None:
        return
    yield from _file(project.assembly, project)
    steps = {name: step for stage in project.assembly.stages for name, step in stage.steps.items()}
    for record in project.serials.values():
        yield from _record(record, project.assembly, steps)


def _file(assembly: Assembly, project: Project) -> Iterator[Finding]:
    for item in assembly.traced:
        yield from unknown(item, project.aircraft.items, "item", ITEMS)
    names = Counter(name for stage in assembly.stages for name in stage.steps)
    for stage in assembly.stages:
        for name, step in stage.steps.items():
            if names[name] > 1:
                yield Finding(
                    "A014",
                    f"the step {name!r} stands in more than one stage",
                    "give each step a name of its own",
                    step.place,
                )
            yield from _step(name, step, assembly, project)
    yield from _bound(assembly)


def _step(name: str, step: AssemblyStep, assembly: Assembly, project: Project) -> Iterator[Finding]:
    for material in step.materials:
        yield from unknown(material, assembly.materials, "material", f"materials in {FILE}")
    if step.option is not None:
        optional = [item for item, one in project.aircraft.items.items() if one.optional]
        yield from unknown(step.option, optional, "optional item", ITEMS)
    if step.hold and step.checked_by is None:
        yield Finding(
            "A013",
            f"nobody checks the hold {name!r}",
            "write  checked_by: ...  with the role of the person who releases it",
            step.place_of_key("hold"),
        )
    for hazard in step.hazards:
        yield from unknown(hazard, project.hazards.hazards, "hazard", "hazards.yaml")
    if step.required:
        yield from _tolerance(step.required)
        yield from _torque(step.required)
    if step.cure and step.cure.lowest.value > step.cure.highest.value:
        yield Finding(
            "A011",
            f"the lowest temperature {step.cure.lowest.text} is above the highest, {step.cure.highest.text}",
            "swap or correct them",
            step.cure.place,
        )


def _tolerance(required: Tolerance) -> Iterator[Finding]:
    low, high = required.minimum, required.maximum
    if low is None and high is None:
        yield Finding(
            "A011",
            "the tolerance has neither minimum nor maximum",
            "write at least one of them",
            required.place,
        )
    if low and high and low.kind != high.kind:
        yield Finding(
            "A011",
            f"the minimum {low.text} and the maximum {high.text} measure different things",
            "write both with units of one kind",
            low.place,
        )
    elif low and high and low.value > high.value:
        yield Finding(
            "A011",
            f"the minimum {low.text} is above the maximum {high.text}",
            "swap or correct them",
            low.place,
        )

    due = low or high
    within = required.measured_within
    if due and within and (within.kind != due.kind or within.value <= 0):
        yield Finding(
            "A011",
            f"{within.text} cannot be how well {due.text} is measured",
            "write the expanded uncertainty in a unit of the same kind, above zero",
            within.place,
        )


def _torque(required: Tolerance) -> Iterator[Finding]:
    """A torque that names the table lies in its range, drag added (AC 43.13-1B, table 7-1, 7-40 d)."""
    bounds = [limit for limit in (required.minimum, required.maximum) if limit and limit.kind == "torque"]
    if not bounds or not names_table(str(required.source)):
        return
    drag = required.drag.value if required.drag else 0.0
    nut = nut_of(f"{required.fastener or ''}; {required.source}", drag)
    values = [limit.value for limit in bounds]
    for message, remedy in outside("this joint", nut, min(values), max(values)):
        yield Finding("V080", message, remedy, required.place, Severity.WARNING)


def _bound(assembly: Assembly) -> Iterator[Finding]:
    """What a hold binds is a step, and stands behind it; what is no hold binds nothing."""
    steps = [(name, step) for stage in assembly.stages for name, step in stage.steps.items()]
    for number, (name, step) in enumerate(steps):
        if step.binds is None:
            continue
        if not step.hold:
            yield Finding(
                "A018",
                f"{str(name)!r} binds steps and is no hold",
                "add  hold: true  or take binds out",
                step.place_of_key("binds"),
            )
        behind = [str(other) for other, _ in steps[number + 1 :]]
        for bound in step.binds:
            if bound in dict(steps) and bound not in behind:
                yield Finding(
                    "A018",
                    f"the step {str(bound)!r} cannot wait for the hold {str(name)!r}, which stands behind it",
                    f"steps behind it: {', '.join(behind[:12]) or 'none'}",
                    place_of(bound),
                )
            else:
                yield from unknown(bound, behind, "step", f"{FILE}, behind this hold,")


def _record(record: SerialRecord, assembly: Assembly, steps: dict[str, AssemblyStep]) -> Iterator[Finding]:
    for entry in record.assembly:
        step = steps.get(str(entry.step))
        if step is None:
            yield from _unknown_step(str(entry.step), steps, entry.place_of_key("step"))
        else:
            yield from _cure_log(entry, step)
        if step and step.required and entry.measured:
            due = step.required.minimum or step.required.maximum
            if due and due.kind != entry.measured.kind:
                yield Finding(
                    "A011",
                    f"{entry.measured.text} was measured, and the step asks for a value such as {due.text}",
                    "write the measured value in a unit of that kind",
                    entry.measured.place,
                )
        for used in entry.materials:
            yield from unknown(used.material, assembly.materials, "material", f"materials in {FILE}")
    for one in record.nonconformities:
        if one.step is not None and str(one.step) not in steps:
            yield from _unknown_step(str(one.step), steps, place_of(one.step))


def _cure_log(entry: AssemblyEntry, step: AssemblyStep) -> Iterator[Finding]:
    """The log of a cure is sealed with the evidence, and belongs to a step that asks for a cure."""
    log = entry.cure.log if entry.cure else None
    if log and str(log.file) not in {str(cited.file) for cited in entry.evidence}:
        yield Finding(
            "P024",
            f"the log {log.file} is not among the evidence of its entry",
            "name it under evidence as well, so that it is sealed",
            log.place_of_key("file"),
        )
    if log and step.cure is None:
        yield Finding(
            "A023",
            f"the step {str(entry.step)!r} asks for no cure, so nothing is held against the log {log.file}",
            f"add  cure: ...  to the step in {FILE}, or take the log out",
            log.place,
        )


def _unknown_step(name: str, steps: dict[str, AssemblyStep], place: Place | None) -> Iterator[Finding]:
    for finding in unknown(name, steps, "step", FILE, place):
        yield replace(finding, code="A001")


def _numbers(record: SerialRecord) -> Iterator[Finding]:
    numbers = Counter(str(one.number) for one in record.nonconformities)
    for one in record.nonconformities:
        if numbers[str(one.number)] > 1:
            yield Finding(
                "A014",
                f"the nonconformity {str(one.number)!r} stands twice",
                "give each one a number of its own",
                one.place_of_key("number"),
            )
