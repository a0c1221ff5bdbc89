"""The files that the record of a serial cites: its evidence with digests, the logs of its
batteries' tests and of its cures, the runs of its flight tests."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.battery_log import LogColumns
from dossier.compute.log_cure import cure_clock_findings
from dossier.cure_log import CureRun, cure_run
from dossier.findings import Finding, Rejected, refuse_errors
from dossier.model.events import CapacityTest, Evidence, FlightTest, PackFitted
from dossier.model.flight_runs import BLOCKS, kind_of
from dossier.model.flight_runs import Runs as FlightRuns
from dossier.model.record import CureFile, SerialRecord
from dossier.project import Project
from dossier.quantities import Quantity
from dossier.read.evidence import EvidenceFile, read_evidence, same_names
from dossier.read.log import read_log
from dossier.read.runs import read_runs
from dossier.replay import State
from dossier.results.assembly_cures import Runs
from dossier.results.capacity_logs import CapacityLogs, capacity_logs
from dossier.results.logged_test import LoggedTest
from dossier.results.pack_verdict import Asked
from dossier.results.reduced_runs import Tables

LEAST_ROWS = 2
"""Between two rows of a log there is a time."""


def evidence_cited(project: Project, record: SerialRecord, state: State) -> tuple[EvidenceFile, ...]:
    """Fingerprint the evidence of all events and assembly entries up to the date; every missing file is
    told at once."""
    folder = project.serial_folder(str(record.serial_number))
    files: dict[str, EvidenceFile] = {}
    problems = [*state.findings]
    for cited in _cited(record, state):
        try:
            files.setdefault(
                str(cited.file),
                read_evidence(folder, str(cited.file), str(cited.shows), cited.place_of_key("file")),
            )
        except Rejected as rejected:
            problems += rejected.findings
    problems += same_names(files.values())
    refuse_errors(problems)
    return tuple(files.values())


def _cited(record: SerialRecord, state: State) -> Iterator[Evidence]:
    for entry in record.assembly:
        if entry.date is None or entry.date <= state.as_of:
            yield from entry.evidence
    for event in state.events:
        yield from event.evidence


def judged_logs(project: Project, record: SerialRecord, state: State, coverage: float | None) -> CapacityLogs:
    """Analyse the logs of the tests up to the date; a log that cannot be judged refuses the record.

    Args:
        project: names what a test must show.
        record: cites the logs.
        state: the events up to the date.
        coverage: one-sided probability of the usual decision rule.
    """
    logs = capacity_logs(_logs(project, record, state), project.battery, _asked(project, state, coverage))
    refuse_errors(logs.findings)
    return logs


def _asked(project: Project, state: State, coverage: float | None) -> Asked | None:
    """Say what a test must show for its battery to be accepted; None where the record asks nothing."""
    acceptance, fitted = project.battery.acceptance, frozenset(str(one.pack) for one in state.packs)
    if acceptance is None:
        return None
    return Asked(acceptance, project.aircraft.limits, coverage, fitted)


def _logs(project: Project, record: SerialRecord, state: State) -> tuple[LoggedTest, ...]:
    """Read the logs of the tests up to the date; their files are evidence, and were found there."""
    options = {str(event.pack): str(event.option) for event in state.events if isinstance(event, PackFitted)}
    found: list[LoggedTest] = []
    problems: list[Finding] = []
    for event in state.events:
        if (
            not isinstance(event, PackFitted | CapacityTest)
            or event.log is None
            or str(event.pack) not in options
        ):
            continue
        log, number = event.log, str(record.serial_number)
        columns = LogColumns(
            log.time, log.voltage, log.current, log.charge, log.temperature, tuple(map(str, log.cells))
        )
        try:
            read = read_log(
                project.serial_folder(number) / str(log.file), f"serials/{number}/{log.file}", columns
            )
            found.append(LoggedTest(event, options[str(event.pack)], read))
        except Rejected as rejected:
            problems += rejected.findings
    refuse_errors(problems)
    return tuple(found)


def runs_cited(project: Project, record: SerialRecord, state: State) -> Tables:
    """Read the runs of flight tests that stand in files; these are evidence, and were found there.

    Raises:
        Rejected: with every problem of every file.
    """
    found: dict[tuple[int, str], list[dict[str, Quantity]]] = {}
    problems: list[Finding] = []
    number = str(record.serial_number)
    for count, event in enumerate(state.of_kind(FlightTest), start=1):
        for name in BLOCKS:
            block: FlightRuns | None = getattr(event, name)
            if block is None or block.file is None:
                continue
            wanted = {str(key): (str(head), kind_of(key) or "") for key, head in block.columns.items()}
            path = project.serial_folder(number) / str(block.file)
            try:
                found[count, name] = read_runs(path, f"serials/{number}/{block.file}", wanted)
            except Rejected as rejected:
                problems += rejected.findings
    refuse_errors(problems)
    return found


def cures_cited(project: Project, record: SerialRecord, state: State) -> Runs:
    """Read the logs of cures that stand in files; these are evidence, and were found there.

    Raises:
        Rejected: with every problem of every file; a clock that steps among them.
    """
    found: dict[tuple[str, str, str], CureRun] = {}
    problems: list[Finding] = []
    number = str(record.serial_number)
    for log in _cure_files(record, state):
        wanted = {"time": (str(log.time), "time"), "temperature": (str(log.temperature), "temperature")}
        shown = f"serials/{number}/{log.file}"
        try:
            rows = read_runs(project.serial_folder(number) / str(log.file), shown, wanted, row="sample")
        except Rejected as rejected:
            problems += rejected.findings
            continue
        if len(rows) < LEAST_ROWS:
            problems.append(
                Finding("R020", "the log has fewer than two rows of values", "one row a sample", log.place)
            )
            continue
        found[log.key] = cure_run(shown, rows)
        problems += cure_clock_findings(found[log.key])
    refuse_errors(problems)
    return found


def _cure_files(record: SerialRecord, state: State) -> Iterator[CureFile]:
    """List the logs of all entries up to the date, each once."""
    entries = (entry for entry in record.assembly if entry.date is None or entry.date <= state.as_of)
    logs = [entry.cure.log for entry in entries if entry.cure and entry.cure.log]
    yield from {log.key: log for log in logs}.values()
