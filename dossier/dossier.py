"""The Dossier: all that is known of one serial as of a date, in one frozen object. Everything after
it only shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from dossier.display import Preference
from dossier.figures import Figure
from dossier.findings import Finding
from dossier.judge.claim_register import HeldClaim
from dossier.judge.claim_result import ClaimResult
from dossier.judge.trade_facts import HeldRule
from dossier.judge.verdict import Verdict
from dossier.model.record import SerialRecord
from dossier.model.rule_set import RuleSet
from dossier.procedures.report import ProcedureReport
from dossier.project import Project
from dossier.read.evidence import EvidenceFile
from dossier.replay import State
from dossier.results.assembly import AssemblyRecord
from dossier.results.battery import PackResult
from dossier.results.capacity_logs import CapacityLogs
from dossier.results.discharge import Modelled
from dossier.results.empty import EmptyAircraft
from dossier.results.energy import Energy
from dossier.results.flight import Performance
from dossier.results.loading import Loadings
from dossier.results.maintenance import MaintenanceState
from dossier.results.part_filled import PartFilled
from dossier.results.reduced_runs import FlightRuns
from dossier.results.road import RoadResult
from dossier.results.weighing import WeighingResult
from dossier.results.wiring import WiringResult
from dossier.results.worked_rows import WorkedRows
from dossier.results.years import BatteryYears
from dossier.sampling import Sampled


@dataclass(frozen=True)
class Dossier:
    """One serial as of a date. Nothing in it is changed after it is made."""

    project: Project
    record: SerialRecord
    state: State
    weighing: WeighingResult | None
    empty: EmptyAircraft | None
    """None without a weighing."""
    loadings: Loadings | None
    packs: tuple[PackResult, ...]
    energy: Energy | None
    figures: Mapping[str, Figure]
    """Every figure by name, in the order of their making."""
    verdicts: tuple[Verdict, ...]
    claims: tuple[ClaimResult, ...]
    findings: tuple[Finding, ...]
    """Warnings and notes: a record with errors makes no Dossier."""
    evidence: tuple[EvidenceFile, ...]
    rule_sets: Mapping[str, RuleSet]
    """Those that may be relied on, by name."""
    assembly: AssemblyRecord
    procedures: tuple[ProcedureReport, ...]
    """What the verifier says of each list, in every variant; the serial's own first."""
    maintenance: MaintenanceState | None
    """None if the type has no maintenance.yaml."""
    road: RoadResult | None
    """The packed trailer; None if the type has no trailer.yaml."""

    performance: Performance | None
    """None without a weighing, or where the type states no aerodynamics."""
    flight_runs: FlightRuns
    """Of flight tests, reduced; empty where the record holds none."""
    claim_identities: tuple[HeldClaim, ...]
    """The builder's numbers, held against one another."""
    wiring: WiringResult
    """Conductors, fuses and plugs; empty where the record states none."""
    capacity_logs: CapacityLogs
    """Of the tests whose record names a log, in order."""
    battery_years: BatteryYears
    """Empty where the type states no use."""
    modelled: Modelled
    """What the discharge model says: empty for cells whose record states no resistance."""
    part_filled: PartFilled
    """The largest battery, part of it and each other one with one pilot."""
    trade_rules: tuple[HeldRule, ...]
    """Rules of thumb of the trade, beside what this serial has."""
    sampled: Mapping[str, Sampled]
    """What draws say of a headline figure, by its name, where first order might not be enough."""

    worked: WorkedRows = field(default_factory=WorkedRows)
    """A row of each table, with the working of its cells."""

    @cached_property
    def with_sheets(self) -> Mapping[str, Figure]:
        """Every figure that has a working sheet, by name: the figures, and those of the rows of tables."""
        return {**self.figures, **{figure.name: figure for figure in self.worked.figures}}

    @property
    def battery_of_lists(self) -> str:
        """The option of battery.yaml that lists are written for: the fitted one, else the heaviest."""
        return self.state.battery or self.project.battery.heaviest

    @property
    def preference(self) -> Preference:
        """How the type's file wants values printed."""
        presentation = self.project.aircraft.presentation
        return Preference(presentation.units == "us-first", presentation.airspeed)
