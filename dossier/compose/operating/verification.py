"""What the verifier says of a list: its faults at the top of the page, what was checked and what was not at
the foot."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.limit_text import one_line
from dossier.dossier import Dossier
from dossier.procedures.fault import Fault
from dossier.procedures.report import ProcedureReport


@dataclass(frozen=True)
class VerificationText:
    """A report, ready for print."""

    faults: tuple[str, ...]
    """Faults of safety: while there is one, nobody works from the list."""
    notes: tuple[str, ...]
    said: str
    unjudged: str
    silenced: str
    """How often the record lets a check rest, by giving a reason."""
    not_proved: tuple[str, ...]


def verification(dossier: Dossier, name: str) -> VerificationText:
    """Put the report on one list of the serial into words."""
    report = next((one for one in dossier.procedures if one.own and one.procedure == name), None)
    if report is None:  # the lists were exchanged after the Dossier was made: no other list's report is shown
        return VerificationText((), (), "This list was not verified.", "", "", ())
    others = sum(not one.own and one.procedure == name for one in dossier.procedures)
    return VerificationText(
        faults=tuple(_fault(fault) for fault in report.faults if fault.is_of_safety),
        notes=tuple(_fault(fault) for fault in report.faults if not fault.is_of_safety),
        said=_said(report, others, _why_read(dossier, name)) + (_which(dossier) if report.checks else ""),
        unjudged=_unjudged(report),
        silenced=_silenced(report),
        not_proved=report.not_proved if report.checks else (),
    )


def _which(dossier: Dossier) -> str:
    """Say which sets of equipment were verified, where not all were."""
    told = next((finding.message for finding in dossier.findings if finding.code == "V008"), "")
    return f" Not every set of equipment: {one_line(told)}." if told else ""


def _why_read(dossier: Dossier, name: str) -> str:
    """Say why a list that was only read was not replayed."""
    procedure = dossier.project.procedures.get(name)
    if procedure is not None and procedure.kind == "emergency":
        return "an emergency begins in any state of the aircraft"
    return "its record does not say in which state of the aircraft it starts and ends"


def _said(report: ProcedureReport, others: int, why: str) -> str:
    number = sum(fault.is_of_safety for fault in report.faults)
    found = {0: "no fault", 1: "one fault"}.get(number, f"{number} faults")
    if not report.checks:
        checked = f"{len(report.read_only)} checks of its words: {found}."
        return f"This list was read, and was not replayed step by step: {why}. {checked}"
    more = (
        f" {others} other {'set' if others == 1 else 'sets'} of optional equipment went through the same "
        "checks."
        if others
        else ""
    )
    return (
        f"This list was replayed step by step, from \u201c{one_line(report.starts_from)}\u201d to "
        f"\u201c{one_line(report.ends_in)}\u201d, "
        f"against the builder's model of what is joined to what: {len(report.checks)} checks, {found}.{more}"
    )


def _unjudged(report: ProcedureReport) -> str:
    if not report.checks or not report.steps_without_act:
        return ""
    one = report.steps_without_act == 1
    return (
        f"{report.steps_without_act} of {report.steps} steps {'has' if one else 'have'} no counterpart in "
        f"the model and {'was' if one else 'were'} not judged."
    )


def _silenced(report: ProcedureReport) -> str:
    """Count the reasons that let a check rest: who reads the list shall know how many there are."""
    one = "1 step says under \u201c{key}\u201d why {why_one}"
    many = "{number} steps say under \u201c{key}\u201d why {why_many}"
    cases = (
        (report.together, "together", "it has two actions", "they have two actions"),
        (report.differs, "differs", "its words are not its acts", "their words are not their acts"),
    )
    said = [
        (one if number == 1 else many).format(number=number, key=key, why_one=single, why_many=plural)
        for number, key, single, plural in cases
        if number
    ]
    return f"{', '.join(said)}: there those checks rest." if said else ""


def _fault(fault: Fault) -> str:
    message = one_line(fault.finding.message)
    where = f"Step {fault.step}: " if fault.step else ""
    return f"{where}{message[:1].upper()}{message[1:]}."
