"""One serial, all stages in order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import Protocol

from dossier.cited_files import cures_cited, evidence_cited, judged_logs, runs_cited
from dossier.dossier import Dossier
from dossier.figures import Figure, OutsideRange
from dossier.findings import Finding, Place, Rejected, Severity, in_order, refuse_errors
from dossier.judge.claim_facts import own_numbers
from dossier.judge.claim_lists import RIGGING_TIME, rigging_words
from dossier.judge.claim_register import hold_claims
from dossier.judge.claims import Claims, judge_claims
from dossier.judge.decision_rules import usual_coverage
from dossier.judge.rule_sets import known_rule_sets
from dossier.judge.trade_facts import hold_trade_rules
from dossier.judge.verdict import Judgement
from dossier.judge.verdicts import judge_all
from dossier.model.record import SerialRecord
from dossier.model.rule_set import RuleSet
from dossier.procedures.verify import verify
from dossier.project import Project, load
from dossier.references import check
from dossier.replay import State, default_date, measured_again, not_yet, replay
from dossier.results.allowances import allowances
from dossier.results.assembly import AssemblyRecord
from dossier.results.assembly_checks import assembly_record
from dossier.results.battery import packs
from dossier.results.discharge import Modelled, discharge_model
from dossier.results.empty import EmptyAircraft, empty_aircraft
from dossier.results.energy import energy_table
from dossier.results.flight import Flown, flight_performance
from dossier.results.general import bases, general_figures, measured_on
from dossier.results.life_figures import life_figures
from dossier.results.loading import loadings
from dossier.results.maintenance import maintenance_state
from dossier.results.part_filled import part_filled
from dossier.results.road import judge_road
from dossier.results.sampled import sample_headlines
from dossier.results.trade_numbers import Serial, trade_numbers
from dossier.results.weighing import WeighingResult, weigh
from dossier.results.wiring import wiring_result
from dossier.results.worked_tables import worked_rows
from dossier.results.years import battery_years
from dossier.tables.road_limits import known_road_limits


def run(project_folder: Path, serial_number: str, as_of: date | None = None) -> Dossier:
    """Read a project and make the dossier of one serial.

    Raises:
        Rejected: with every problem of the record.
    """
    return make(load_checked(project_folder, [serial_number]), serial_number, as_of)


def load_checked(project_folder: Path, only: list[str] | None = None) -> Project:
    """Read a project and check that every reference in it leads somewhere.

    Raises:
        Rejected: with every problem of every file.
    """
    project = load(project_folder, only)
    refuse_errors(check(project, known_rule_sets()))
    return project


def make(project: Project, serial_number: str, as_of: date | None = None) -> Dossier:
    """Make the dossier of one serial of a project: the stages, in order.

    Args:
        project: as :func:`load_checked` returns it.
        serial_number: one of its serials.
        as_of: events after this date are left out; the date of the last event if left out.

    Raises:
        Rejected: the serial's events or evidence cannot be used.
    """
    record, aircraft, battery = project.serials[serial_number], project.aircraft, project.battery
    state = replay(record, battery.options, as_of or default_date(record))
    evidence = evidence_cited(project, record, state)
    road = judge_road(project.trailer, known_road_limits()) if project.trailer else None
    coverage = usual_coverage(project.compliance)
    logs = judged_logs(project, record, state, coverage)
    assembled = _assembled(project, record, state, coverage)
    upkeep = project.maintenance
    maintained = maintenance_state(upkeep, aircraft.limits, record, state) if upkeep else None
    weighing = _weighing(state)
    empty = _empty(weighing, state, project)
    pack_results = packs(battery, aircraft, state, coverage)
    loads = loadings(empty, aircraft, battery) if empty else None
    energy = energy_table(empty, aircraft, battery, pack_results) if empty else None
    runs = runs_cited(project, record, state)
    flown = flight_performance(aircraft, battery, Flown(empty, state, pack_results, energy, runs))
    modelled = discharge_model(energy, aircraft, battery, pack_results, logs)
    years = battery_years(modelled, aircraft, battery)
    filled = part_filled(energy, empty, aircraft, battery, pack_results)
    wired = wiring_result(modelled, aircraft, battery)
    general = general_figures(aircraft, state, flown.runs)
    made = _by_name(
        *_figures_of((weighing, empty, *general, loads)),
        *(figure for result in pack_results for figure in result.figures.values()),
        *_figures_of((energy, modelled, wired, logs, flown, flown.runs, road, maintained)),
        *life_figures(years, battery),
    )
    basis_of = {**bases(state), **flown.bases}
    judgement = _judgement(project, record, state, figures=made, basis_of=basis_of)
    figures = made | _by_name(*judgement.figures)
    claims = _claims(project, figures, basis_of, modelled)
    numbers = own_numbers(aircraft, battery, figures)
    register = hold_claims(project.compliance, numbers, tuple(battery.options))
    asked = Serial(state.battery or battery.heaviest, aircraft, battery, figures, energy, filled, years)
    verification = verify(project, state.left_out, state.battery)
    told: list[_WithFindings | None] = [assembled, maintained, weighing, *general, empty, loads]
    told += [*pack_results, energy, logs, modelled, wired, years, flown, flown.runs]
    told += [judgement, claims, register, verification]
    # packed by hand: one argument a line would push the stages off this page, and the law on long functions
    return Dossier(
        project, record, state, weighing, empty, loads, pack_results, energy, figures, judgement.verdicts,
        claims.results, _findings(project, record, state, told), evidence, _rule_sets(project), assembled,
        verification.reports, maintained, road, performance=flown.performance, flight_runs=flown.runs,
        claim_identities=register.held, modelled=modelled, wiring=wired, capacity_logs=logs,
        battery_years=years, part_filled=filled, trade_rules=hold_trade_rules(trade_numbers(asked)),
        worked=worked_rows(flown.performance, empty, modelled, years, flights=made, of=(aircraft, battery)),
        sampled=sample_headlines((weighing, empty), (energy, flown)),
    )  # fmt: skip


def _claims(
    project: Project, figures: dict[str, Figure], basis_of: dict[str, str], modelled: Modelled
) -> Claims:
    """Hold what is published against the figures, the limits at which to land and the times of the lists."""
    return judge_claims(
        project.compliance,
        figures,
        basis_of,
        tuple(project.battery.options),
        landing=modelled.landing,
        unmeasured={RIGGING_TIME: rigging_words(project.procedures.values())},
    )


def _assembled(
    project: Project, record: SerialRecord, state: State, coverage: float | None
) -> AssemblyRecord:
    """Check the assembly record against the type, the logs of its cures and the ways of controls."""
    return assembly_record(
        project.assembly,
        record,
        state,
        coverage=coverage,
        items=project.aircraft.items,
        cures=cures_cited(project, record, state),
        ways=project.rigging.ways if project.rigging else {},
    )


class _WithFigures(Protocol):
    @property
    def figures(self) -> tuple[Figure, ...]: ...


class _WithFindings(Protocol):
    @property
    def findings(self) -> tuple[Finding, ...]: ...


def _figures_of(parts: Iterable[_WithFigures | None]) -> Iterator[Figure]:
    """Take the figures of every part that could be made."""
    for part in parts:
        if part is not None:
            yield from part.figures


def _told(parts: Iterable[_WithFindings | None]) -> Iterator[Finding]:
    """Take the findings of every part that could be made."""
    for part in parts:
        if part is not None:
            yield from part.findings


def _rule_sets(project: Project) -> dict[str, RuleSet]:
    """Return those that may be relied on, by name: the shipped ones, and the project's own."""
    return {**known_rule_sets(), **project.rule_sets}


def _judgement(
    project: Project,
    record: SerialRecord,
    state: State,
    *,
    figures: dict[str, Figure],
    basis_of: dict[str, str],
) -> Judgement:
    """Judge the figures against every rule set that the project relies on."""
    return judge_all(
        project.compliance,
        _rule_sets(project),
        figures=figures,
        measured_on=measured_on(state),
        bases=basis_of,
        allowances=allowances(project.aircraft, record, state),
        as_of=state.as_of,
        batteries=project.battery.names,
    )


def _findings(
    project: Project, record: SerialRecord, state: State, parts: Iterable[_WithFindings | None]
) -> tuple[Finding, ...]:
    """Gather what the record leaves open and what every stage told."""
    return in_order(
        [
            *check(project, known_rule_sets()),
            *not_yet(record, state.as_of),
            *measured_again(state),
            *(() if state.weighing else _not_weighed(record)),
            *_told(parts),
        ]
    )


def _by_name(*figures: Figure) -> dict[str, Figure]:
    named: dict[str, Figure] = {}
    for figure in figures:
        if figure.name in named:
            raise AssertionError(f"two figures are called {figure.name}")
        named[figure.name] = figure
    return named


def _weighing(state: State) -> WeighingResult | None:
    try:
        return weigh(state.weighing) if state.weighing else None
    except OutsideRange as error:
        raise Rejected([_impossible(error, state.weighing.place if state.weighing else None)]) from None


def _empty(weighing: WeighingResult | None, state: State, project: Project) -> EmptyAircraft | None:
    try:
        return empty_aircraft(weighing, state, project.aircraft, project.battery) if weighing else None
    except OutsideRange as error:
        raise Rejected([_impossible(error, weighing.event.place if weighing else None)]) from None


def _impossible(error: OutsideRange, place: Place | None) -> Finding:
    return Finding(
        "C005",
        f"this weighing cannot be that of the aircraft: {error}",
        "check the readings, tares and masses taken off",
        place,
    )


def _not_weighed(record: SerialRecord) -> tuple[Finding, ...]:
    return (
        Finding(
            "W005",
            "the aircraft has not been weighed by this date, so nothing that needs its mass is shown",
            "add an event of kind weighing",
            record.place_of_key("events"),
            Severity.WARNING,
        ),
    )
