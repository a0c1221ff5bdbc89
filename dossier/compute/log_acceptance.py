"""Whether a test of a battery counts: against criteria that were stated before, with the doubt taken into
account."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from dossier.battery_log import BatteryLog
from dossier.compute.log_analysis import LogAnalysis
from dossier.compute.log_instruments import Measured
from dossier.findings import Finding, Severity, in_order

COVERAGE_FACTOR = 2.0


class Met(StrEnum):
    """How a criterion stands."""

    MET = "met"
    NOT_MET = "not met"
    INCONCLUSIVE = "inconclusive"
    """Within the expanded uncertainty, k = 2, of its limit."""
    NOT_SHOWN = "not shown"
    """The log does not hold what it takes."""


@dataclass(frozen=True)
class Criteria:
    """What a test must show, of the pack, in SI; what is left out is not asked for."""

    least_charge: float | None = None
    least_energy: float | None = None
    rest_voltage_at_start: float | None = None
    """At least: the battery was full."""
    voltage_at_end: float | None = None
    """At most: it was emptied as far as the capacity is meant."""
    coldest: float | None = None
    hottest: float | None = None
    largest_spread_at_rest: float | None = None
    """Of the voltages of the groups in series, in V."""


@dataclass(frozen=True)
class Criterion:
    """One criterion and how it stands; values in the unit of ``kind``."""

    name: str
    kind: str
    value: float | None
    limit: float
    at_least: bool
    met: Met


@dataclass(frozen=True)
class Acceptance:
    """The judgement of one log. It says nothing of the battery's fitness to fly."""

    accepted: bool
    """Every criterion is met, and no finding speaks against the log."""
    criteria: tuple[Criterion, ...]
    findings: tuple[Finding, ...]


def accept(log: BatteryLog, analysis: LogAnalysis, criteria: Criteria) -> Acceptance:
    """Hold a test against its criteria.

    Returns:
        accepted only if there is a test, at least one criterion, every criterion is met, and no finding is
        more than a note. What the log does not show is not met.
    """
    asked = tuple(_criteria(analysis, criteria))
    told = [_finding(log, analysis, one) for one in asked if one.met is not Met.MET]
    clean = all(finding.severity is Severity.NOTE for finding in analysis.findings)
    accepted = analysis.test is not None and bool(asked) and not told and clean
    return Acceptance(accepted, asked, in_order([*analysis.findings, *told]))


def _criteria(analysis: LogAnalysis, criteria: Criteria) -> Iterator[Criterion]:
    test = analysis.test
    spread = test.spread_at_rest if test else None
    charge, energy = (test.charge, test.energy) if test else (None, None)
    voltages = (test.rest_voltage, test.last_voltage) if test else (None, None)
    coldest, hottest = (test.coldest, test.hottest) if test else (None, None)
    rows: tuple[tuple[str, str, Measured | float | None, float | None, bool], ...] = (
        ("capacity", "charge", charge, criteria.least_charge, True),
        ("energy", "energy", energy, criteria.least_energy, True),
        (
            "voltage at rest before the discharge",
            "voltage",
            voltages[0],
            criteria.rest_voltage_at_start,
            True,
        ),
        (
            "voltage at the end of the discharge",
            "voltage",
            voltages[1],
            criteria.voltage_at_end,
            False,
        ),
        ("lowest temperature", "temperature", coldest, criteria.coldest, True),
        ("highest temperature", "temperature", hottest, criteria.hottest, False),
        (
            "spread of the cells at rest",
            "voltage",
            spread.voltage if spread else None,
            criteria.largest_spread_at_rest,
            False,
        ),
    )
    for name, kind, found, limit, at_least in rows:
        if limit is not None:
            yield _judged(name, kind, found, limit=limit, at_least=at_least)


def _judged(
    name: str, kind: str, found: Measured | float | None, *, limit: float, at_least: bool
) -> Criterion:
    if found is None:
        return Criterion(name, kind, None, limit, at_least, Met.NOT_SHOWN)
    measured = found if isinstance(found, Measured) else Measured(found, 0.0)
    room = measured.value - limit if at_least else limit - measured.value
    doubt = COVERAGE_FACTOR * measured.standard_uncertainty
    met = Met.MET if room >= doubt else Met.NOT_MET if room < -doubt else Met.INCONCLUSIVE
    return Criterion(name, kind, measured.value, limit, at_least, met)


def _finding(log: BatteryLog, analysis: LogAnalysis, one: Criterion) -> Finding:
    row = analysis.test.last if analysis.test else 0
    side = "at least" if one.at_least else "at most"
    shown = "is not shown" if one.value is None else f"is {one.value:.5g}"
    return Finding(
        "L008", f"the {one.name} {shown}, and must be {side} {one.limit:.5g} in SI units: {one.met.value}",
        "test again as the criteria ask, or state why this log counts", log.place(row), Severity.WARNING,
    )  # fmt: skip
