"""From a project and a serial's optional items to a report on every procedure, in every variant."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from dossier.findings import Finding, Severity
from dossier.findings import in_order as sorted_findings
from dossier.model.procedure import Procedure
from dossier.model.rigging import Rigging
from dossier.procedures.chain import chain, faults
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.listing import Doing, Listing, Step, listing
from dossier.procedures.report import ProcedureReport
from dossier.procedures.rules import wording
from dossier.procedures.rules.checking import preflight_covers
from dossier.procedures.rules.table import NAMES, TEXT_RULES, WORD_RULES
from dossier.procedures.run import replay
from dossier.procedures.system import System, variants
from dossier.project import Project

WITHOUT_MODEL = "V001"


@dataclass(frozen=True)
class Verification:
    """The reports, the serial's own variant first, and every finding in them once."""

    reports: tuple[ProcedureReport, ...]
    findings: tuple[Finding, ...]


def verify(project: Project, left_out: Collection[str]) -> Verification:
    """Verify the procedures of a project.

    Args:
        project: checked, so that every name leads somewhere.
        left_out: optional items that the serial does not have.
    """
    if project.rigging is None:
        unverified = tuple(_unverified(project, left_out))
        told = (fault.finding for report in unverified for fault in report.faults)
        return Verification(unverified, sorted_findings((*_no_model(project), *told)))
    reports: list[ProcedureReport] = []
    for out in variants(left_out, mentioned(project.procedures.values(), project.rigging)):
        reports += _of_variant(project, project.rigging, out, own=not reports)
    found: dict[tuple[object, ...], Finding] = {}
    for report in reports:
        for fault in report.faults:
            found.setdefault((fault.finding.code, fault.finding.place, fault.finding.message), fault.finding)
    return Verification(tuple(reports), sorted_findings(found.values()))


def mentioned(procedures: Iterable[Procedure], rigging: Rigging) -> frozenset[str]:
    """Return the optional items that a replayed procedure or the rigging file asks for."""
    steps = {
        str(step.option)
        for one in procedures
        if one.starts_from
        for section in one.sections
        for step in section.steps
        if step.option
    }
    groups = (
        rigging.parts,
        rigging.items,
        rigging.settings,
        rigging.checks,
        rigging.covers,
        rigging.connections,
    )
    return frozenset(steps | {str(one.option) for group in groups for one in group.values() if one.option})


def listings(project: Project, rigging: Rigging, left_out: Collection[str]) -> tuple[Listing, ...]:
    """Make every list of a variant, those that are only text among them."""
    return tuple(
        listing(name, procedure, left_out, rigging.people) for name, procedure in project.procedures.items()
    )


def variant_faults(system: System, lists: Iterable[Listing], titles: Collection[str]) -> Iterator[Fault]:
    """Find every fault of a variant's lists, the cheapest and nearest to their cause first."""
    lists = tuple(lists)
    replayed = [one for one in lists if one.procedure.starts_from and one.procedure.ends_in]
    absent = [fault for one in replayed for fault in _absent_objects(system, one)]
    yield from absent
    if absent:
        replayed = [_without_absent(system, one) for one in replayed]
    yield from faults(chain(system, replayed))
    yield from preflight_covers(system, replayed)
    for one in replayed:
        for rule in WORD_RULES:
            yield from rule(one, system)
    for one in lists:
        yield from wording.short_sentences(one, system.rigging.wording)
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
    project: Project, rigging: Rigging, out: frozenset[str], *, own: bool
) -> Iterator[ProcedureReport]:
    system = System(rigging, project.aircraft, project.battery, out)
    lists = listings(project, rigging, out)
    found: dict[str, dict[tuple[object, ...], Fault]] = {one.name: {} for one in lists}
    for fault in variant_faults(system, lists, titles_of(project.procedures.values())):
        found[fault.procedure].setdefault(
            (fault.finding.code, fault.finding.message, fault.finding.place), fault
        )
    has = tuple(sorted(mentioned(project.procedures.values(), rigging) - out))
    for one in lists:
        yield _report(one, rigging, has, own, tuple(found[one.name].values()))


def _report(
    one: Listing, rigging: Rigging, has: tuple[str, ...], own: bool, faults_found: tuple[Fault, ...]
) -> ProcedureReport:
    procedure = one.procedure
    replayed = bool(procedure.starts_from and procedure.ends_in)
    ordered = sorted(faults_found, key=lambda fault: (not fault.is_of_safety, fault.finding.sort_key))
    return ProcedureReport(
        procedure=one.name,
        title=str(procedure.title),
        variant=has,
        own=own,
        starts_from=str(rigging.states[str(procedure.starts_from)].name) if replayed else "",
        ends_in=str(rigging.states[str(procedure.ends_in)].name) if replayed else "",
        steps=len(one.steps),
        steps_without_act=sum(not step.doings for step in one.steps),
        checks=NAMES if replayed else (),
        faults=tuple(ordered),
    )


def _absent_objects(system: System, one: Listing) -> Iterator[Fault]:
    run = replay(system, replace(one, steps=()), system.at_home())
    for step in one.steps:
        for name in dict.fromkeys(doing.name for doing in step.doings if _is_absent(system, doing)):
            words = (
                f"this works on the {_called(system, name)}, and an aircraft without its optional item has "
                "none"
            )
            yield at_step(run, "V004", step, (words, "give the step the option of the object"), (name,))


def _is_absent(system: System, doing: Doing) -> bool:
    return bool(doing.name) and doing.name not in system.objects and doing.name not in system.rigging.kits


def _called(system: System, name: str) -> str:
    return replace(system, left_out=frozenset()).called(name)


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


def _unverified(project: Project, left_out: Collection[str]) -> Iterator[ProcedureReport]:
    titles = titles_of(project.procedures.values())
    for name, procedure in project.procedures.items():
        steps = listing(name, procedure, left_out, {}).steps
        faults_found = tuple(text_faults(listing(name, procedure, left_out, {}), titles))
        yield ProcedureReport(
            name, str(procedure.title), (), True, "", "", len(steps), len(steps), (), faults_found
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
