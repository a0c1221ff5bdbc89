"""From a project and a serial's optional items to a report on every procedure, in every variant."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from dossier.findings import Finding, Severity
from dossier.findings import in_order as sorted_findings
from dossier.model.procedure import Procedure
from dossier.model.rigging import Rigging
from dossier.procedures.applicable import applicable_of, batteries, mentioned
from dossier.procedures.chain import chain, faults
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.listing import Doing, Listing, Step, listing
from dossier.procedures.report import ProcedureReport
from dossier.procedures.rules import wording
from dossier.procedures.rules.checking import preflight_covers
from dossier.procedures.rules.table import (
    MODEL_RULES,
    NAMES,
    NAMES_OF_WORDS,
    NAMES_WITHOUT_MODEL,
    TEXT_RULES,
    WORD_RULES,
)
from dossier.procedures.run import replay
from dossier.procedures.system import System
from dossier.procedures.variants import Variants, variants
from dossier.project import Project

WITHOUT_MODEL = "V001"


@dataclass(frozen=True)
class Verification:
    """The reports, the serial's own variant first, and every finding in them once."""

    reports: tuple[ProcedureReport, ...]
    findings: tuple[Finding, ...]


def verify(project: Project, left_out: Collection[str], battery: str | None = None) -> Verification:
    """Verify the procedures of a project.

    Args:
        project: checked, so that every name leads somewhere.
        left_out: optional items that the serial does not have.
        battery: the option of battery.yaml that it has in its bay; the heaviest while it has none.
    """
    if project.rigging is None:
        unverified = tuple(_unverified(project, left_out, battery))
        told = (fault.finding for report in unverified for fault in report.faults)
        return Verification(unverified, sorted_findings((*_no_model(project), *told)))
    named = mentioned(project.procedures.values(), project.rigging)
    reports: list[ProcedureReport] = []
    chosen = variants(left_out, named)
    for fitted in batteries(project, battery):
        for out in chosen.left_out:
            reports += _of_variant(project, out, fitted, own=not reports)
    found = (*_told_once(reports, project), *_not_all(chosen, project.rigging))
    return Verification(tuple(reports), sorted_findings(found))


def _not_all(chosen: Variants, rigging: Rigging) -> Iterator[Finding]:
    """Say which sets of optional equipment were verified, where there are too many for all."""
    if chosen.words:
        yield Finding(
            "V008",
            f"the lists are verified with {len(chosen.left_out)} of {chosen.possible} sets of optional "
            f"equipment: {chosen.words}",
            "verify each serial when its equipment changes: its own set is always among them",
            rigging.place,
            Severity.NOTE,
        )


def _told_once(reports: Iterable[ProcedureReport], project: Project) -> Iterator[Finding]:
    """Tell each fault once; one that only another battery brings about says so."""
    told: set[tuple[object, ...]] = set()
    own = ""
    for report in reports:
        own = own or report.battery
        for finding in (fault.finding for fault in report.faults):
            key = (finding.code, finding.place, finding.message)
            if key not in told:
                told.add(key)
                with_it = f", with the battery {str(project.battery.options[report.battery].name)!r} fitted"
                more = with_it if report.battery != own else ""
                yield replace(finding, message=finding.message + more)


def listings(
    project: Project, rigging: Rigging, left_out: Collection[str], battery: str | None = None
) -> tuple[Listing, ...]:
    """Make every list of a variant, those that are only text among them."""
    return tuple(
        listing(name, procedure, left_out, rigging.people, battery)
        for name, procedure in project.procedures.items()
    )


def variant_faults(system: System, lists: Iterable[Listing], titles: Collection[str]) -> Iterator[Fault]:
    """Find every fault of a variant's lists, the cheapest and nearest to their cause first."""
    lists = tuple(lists)
    replayed = [one for one in lists if one.is_replayed]
    absent = [fault for one in replayed for fault in _absent_objects(system, one)]
    yield from absent
    if absent:
        replayed = [_without_absent(system, one) for one in replayed]
    yield from faults(chain(system, replayed))
    yield from preflight_covers(system, replayed)
    within = {one.name: one for one in replayed}
    for one in lists:
        for rule in WORD_RULES:
            yield from rule(within.get(one.name, one), system)
    for one in lists:
        yield from wording.short_sentences(one, system.rigging.wording)
        for rule in MODEL_RULES:
            yield from rule(one, system)
        yield from text_faults(one, titles)


def text_faults(one: Listing, titles: Collection[str]) -> Iterator[Fault]:
    """Find what is wrong with a list as a text, whether or not it is replayed."""
    for rule in TEXT_RULES:
        yield from rule(one)
    yield from wording.references_exist(one, titles)


def titles_of(procedures: Iterable[Procedure]) -> frozenset[str]:
    """Return the titles that a step may send its reader to."""
    return frozenset(
        str(title)
        for one in procedures
        for title in (one.title, *(section.title for section in one.sections))
    )


def _of_variant(
    project: Project, out: frozenset[str], battery: str, *, own: bool
) -> Iterator[ProcedureReport]:
    assert project.rigging is not None
    rigging = project.rigging
    system = System(rigging, project.aircraft, project.battery, out, battery)
    lists = listings(project, rigging, out, battery)
    found: dict[str, dict[tuple[object, ...], Fault]] = {one.name: {} for one in lists}
    for fault in variant_faults(system, lists, titles_of(project.procedures.values())):
        found[fault.procedure].setdefault(
            (fault.finding.code, fault.finding.message, fault.finding.place), fault
        )
    has = tuple(sorted(mentioned(project.procedures.values(), rigging) - out))
    for one in lists:
        made = _report(one, rigging, tuple(found[one.name].values()))
        yield replace(made, variant=has, battery=battery, own=own)


def _report(one: Listing, rigging: Rigging, faults_found: tuple[Fault, ...]) -> ProcedureReport:
    procedure = one.procedure
    replayed = one.is_replayed
    ordered = sorted(faults_found, key=lambda fault: (not fault.is_of_safety, fault.finding.sort_key))
    return ProcedureReport(
        procedure=one.name,
        title=str(procedure.title),
        variant=(),
        battery="",
        own=False,
        starts_from=str(rigging.states[str(procedure.starts_from)].name) if replayed else "",
        ends_in=str(rigging.states[str(procedure.ends_in)].name) if replayed else "",
        steps=len(one.steps),
        steps_without_act=sum(not step.doings for step in one.steps),
        checks=NAMES if replayed else (),
        faults=tuple(ordered),
        read_only=() if replayed else NAMES_OF_WORDS,
        together=sum(step.written.together is not None for step in one.steps),
        differs=sum(step.written.differs is not None for step in one.steps),
    )


def _absent_objects(system: System, one: Listing) -> Iterator[Fault]:
    run = replay(system, replace(one, steps=()), system.at_home())
    for step in one.steps:
        for name in dict.fromkeys(doing.name for doing in step.doings if _is_absent(system, doing)):
            words = f"this works on the {_called(system, name)}, and {_who_has_none(system, name)} has none"
            remedy = "give the step the option of the object"
            if applicable_of(system.rigging, name).for_battery:
                remedy = "give the step the  for_battery  of the object"
            yield at_step(run, "V004", step, (words, remedy), (name,))


def _who_has_none(system: System, name: str) -> str:
    one = applicable_of(system.rigging, name)
    if one.option is not None and str(one.option) in system.left_out:
        return "an aircraft without its optional item"
    if one.without is not None and str(one.without) not in system.left_out:
        return f"an aircraft with the {str(system.aircraft.items[str(one.without)].name)!r}"
    return f"an aircraft with the battery {str(system.battery.options[str(system.fitted)].name)!r}"


def _is_absent(system: System, doing: Doing) -> bool:
    return bool(doing.name) and doing.name not in system.objects and doing.name not in system.rigging.kits


def _called(system: System, name: str) -> str:
    text = str(applicable_of(system.rigging, name).name)
    return text[:1].lower() + text[1:]


def _without_absent(system: System, one: Listing) -> Listing:
    steps = tuple(
        Step(
            step.number,
            step.written,
            step.section,
            tuple(doing for doing in step.doings if not _is_absent(system, doing)),
        )
        for step in one.steps
    )
    return replace(one, steps=steps)


def _unverified(
    project: Project, left_out: Collection[str], battery: str | None
) -> Iterator[ProcedureReport]:
    fitted = battery or project.battery.heaviest
    titles = titles_of(project.procedures.values())
    for name, procedure in project.procedures.items():
        one = listing(name, procedure, left_out, {}, fitted)
        faults_found = tuple(text_faults(one, titles))
        count = len(one.steps)
        yield ProcedureReport(
            name,
            str(procedure.title),
            (),
            fitted,
            True,
            "",
            "",
            count,
            count,
            (),
            faults_found,
            NAMES_WITHOUT_MODEL,
        )


def _no_model(project: Project) -> tuple[Finding, ...]:
    first: Mapping[str, Procedure] = project.procedures
    rigged = next((one for one in first.values() if one.kind == "rigging"), None)
    if rigged is None:
        return ()
    return (
        Finding(
            WITHOUT_MODEL,
            "the procedures could not be verified: the project has no rigging.yaml",
            "write rigging.yaml and the acts of each step; dossier schema describes both",
            rigged.place_of_key("title"),
            Severity.NOTE,
        ),
    )
