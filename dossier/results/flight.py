"""What the aircraft does in the air, computed from its drag polar: glide, climb, reach in wind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from dossier.compute.atmosphere import SEA_LEVEL_DENSITY
from dossier.compute.glide import least_sink
from dossier.figures import Figure, OutsideRange, given
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.quantities import COVERAGE_FACTOR
from dossier.replay import State
from dossier.results.airspeed import flights
from dossier.results.attempt import reason
from dossier.results.battery import PackResult
from dossier.results.empty import EmptyAircraft
from dossier.results.energy import Energy
from dossier.results.flight_comparison import Compared, Drive, compared, disagreements, sink_uncertainty
from dossier.results.flight_conditions import (
    AirTable,
    PilotRow,
    PowerRow,
    SinkCurve,
    air_table,
    pilot_rows,
    power_rows,
    sink_curves,
)
from dossier.results.flight_curve import CurvePoint, curve
from dossier.results.flight_figures import OptionFlight, option_flight
from dossier.results.flight_polar import PolarInUse, polar_in_use
from dossier.results.flight_runs import flight_runs
from dossier.results.flight_tables import (
    ClimbRow,
    Fastest,
    GlideRow,
    WindRow,
    climb_rows,
    fastest,
    glide_rows,
    wind_rows,
)
from dossier.results.reduced_runs import FlightRuns, Tables
from dossier.results.take_off import TakeOffRuns, take_off_runs

ROUNDING = 0.02
"""How far two stated sinks may be apart before it counts, whatever their uncertainty; own choice."""


ESTIMATE = "estimate"
"""The basis of a figure that no measurement stands behind; :mod:`dossier.judge.evidence` reads it."""


@dataclass(frozen=True)
class Performance:
    """Flight performance of one aircraft; what it rests on is in ``polar``."""

    polar: PolarInUse
    options: tuple[OptionFlight, ...]
    """One for each battery that leaves room for a pilot, with the heaviest pilot."""
    curve: tuple[CurvePoint, ...]
    """The polar at the mass of ``glide`` in the type's file, sea level, standard air."""
    glides: tuple[GlideRow, ...]
    climbs: tuple[ClimbRow, ...]
    winds: tuple[WindRow, ...]
    """With the heaviest aircraft."""
    fastest: Fastest | None
    """The speed that no row of ``winds`` passes; none: the record has no such limit."""
    compared: tuple[Compared, ...] = ()
    """What flight tests of this serial measured beside what is computed."""
    air: AirTable | None = None
    """For the speeds of the heaviest aircraft; None where no battery leaves room for a pilot."""
    powers: tuple[PowerRow, ...] = ()
    pilots: tuple[PilotRow, ...] = ()
    curves: tuple[SinkCurve, ...] = ()
    """Of the lightest and the heaviest aircraft that is flown."""
    take_off: TakeOffRuns | None = None
    """None: the type states nothing for an estimate of the run."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Of the flights with each battery."""
        ran = self.take_off.findings if self.take_off else ()
        return (*(finding for option in self.options for finding in option.findings), *ran)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        ran = self.take_off.figures if self.take_off else ()
        return (*self.polar.figures, *(figure for option in self.options for figure in option.figures), *ran)


@dataclass(frozen=True)
class Flown:
    """What performance is computed from besides the type."""

    empty: EmptyAircraft | None
    state: State
    packs: tuple[PackResult, ...]
    energy: Energy | None
    tables: Tables = field(default_factory=dict)
    """Runs of flight tests that were read from files."""

    @property
    def figures(self) -> Mapping[str, Figure]:
        """Figures of the energy table, by name."""
        return {figure.name: figure for figure in self.energy.figures} if self.energy else {}


@dataclass(frozen=True)
class FlightResult:
    """The performance, if there is one, and what the builder must look at."""

    performance: Performance | None = None
    """None without a weighing or aerodynamics, or with ones that make no polar: that has a finding."""
    findings: tuple[Finding, ...] = ()
    runs: FlightRuns = field(default_factory=FlightRuns)
    """Of flight tests, reduced; their figures and findings stand with them."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return self.performance.figures if self.performance else ()

    @property
    def bases(self) -> Mapping[str, str]:
        """Say which figures physics estimates and nobody measured: no verdict and no claim rests on one."""
        options = self.performance.options if self.performance else ()
        runs = self.performance.take_off.runs if self.performance and self.performance.take_off else ()
        guessed = [option.stall for option in options]
        guessed += [figure for run in runs for figure in (run.speed, *run.made.figures)]
        return {figure.name: ESTIMATE for figure in guessed}


def flight_performance(aircraft: Aircraft, battery: Battery, flown: Flown) -> FlightResult:
    """Compute the performance, reduce the runs of flight tests, and say what the builder must look at."""
    tests = flights(flown.state, flown.tables)
    if aircraft.aerodynamics is None or flown.empty is None:
        return FlightResult(runs=flight_runs(aircraft, tests, None))
    try:
        polar = polar_in_use(aircraft.aerodynamics, aircraft, tests)
    except OutsideRange as error:
        no_polar = _finding(f"the drag polar cannot be computed: {error}", aircraft)
        return FlightResult(findings=(no_polar,), runs=flight_runs(aircraft, tests, None))
    runs = flight_runs(aircraft, tests, polar)
    state = runs.seen_in(flown.state)
    options, findings = _options(polar, aircraft, battery, flown, flown.empty)
    limit = fastest(aircraft)
    made = Performance(
        polar,
        options,
        curve(polar, aircraft, limit),
        tuple(row for option in options for row in glide_rows(option, polar)),
        tuple(row for option in options for row in climb_rows(option, polar, aircraft, flown.packs)),
        tuple(wind_rows(_heaviest(options), polar, aircraft, limit)) if options and limit else (),
        limit,
        compared(aircraft, state, polar, _drive(aircraft, flown)),
        air_table(_heaviest(options), aircraft, limit) if options else None,
        tuple(row for option in options for row in power_rows(option, polar, aircraft, limit)),
        tuple(row for option in options for row in pilot_rows(option, polar, aircraft)),
        sink_curves(options, polar, limit),
        take_off_runs(options, polar, aircraft),
    )
    told = disagreements(aircraft, made.compared, state)
    return FlightResult(
        made,
        (*polar.findings, *_against_stated(polar, aircraft), *told, *made.findings, *findings),
        runs,
    )


def _drive(aircraft: Aircraft, flown: Flown) -> Drive | None:
    efficiency = flown.figures.get("drive_efficiency")
    power = given(aircraft.propulsion.maximum_power, "power at full throttle")
    return Drive(power, efficiency) if efficiency else None


def _heaviest(options: tuple[OptionFlight, ...]) -> OptionFlight:
    return max(options, key=lambda option: option.mass.value)


def _options(
    polar: PolarInUse, aircraft: Aircraft, battery: Battery, flown: Flown, empty: EmptyAircraft
) -> tuple[tuple[OptionFlight, ...], tuple[Finding, ...]]:
    options, findings = [], []
    for pack in flown.packs:
        name = battery.options[pack.option].name
        try:
            made = option_flight(pack.option, polar, aircraft, battery, empty, flown.figures)
        except OutsideRange as error:
            findings.append(_finding(f"the flight with {name} cannot be computed: {reason(error)}", aircraft))
            continue
        options += [made] if made else []
    return tuple(options), tuple(findings)


def _finding(message: str, aircraft: Aircraft) -> Finding:
    return Finding(
        "C001",
        message,
        "correct the values named, or accept that this is not shown",
        aircraft.place_of_key("aerodynamics"),
        Severity.WARNING,
    )


def _against_stated(polar: PolarInUse, aircraft: Aircraft) -> tuple[Finding, ...]:
    """Say where the polar and the sink that the energy table uses do not agree."""
    stated = aircraft.glide.minimum_sink
    found = least_sink(polar.polar, aircraft.glide.at_mass.value, SEA_LEVEL_DENSITY).one("sink")
    spread = COVERAGE_FACTOR * (stated.standard_uncertainty**2 + sink_uncertainty(polar, found) ** 2) ** 0.5
    if abs(found - stated.value) <= spread + ROUNDING * stated.value:
        return ()
    return (
        Finding(
            "F008",
            f"the least sink of the polar is {found:.2f} m/s, and glide states {stated.value:.2f} m/s "
            "at the same mass",
            "correct minimum_sink of glide, on which the energy table rests, or the aerodynamics",
            stated.place,
            Severity.WARNING,
        ),
    )
