"""What the logs of capacity tests show, held against what the record states."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from dossier.compute import log_capacity, pack
from dossier.compute.log_acceptance import Acceptance, Criteria, accept
from dossier.compute.log_analysis import DischargeTest, analyse
from dossier.compute.log_instruments import Instruments
from dossier.compute.log_quality import PackUnderTest
from dossier.figures import Figure, Input, OutsideRange, error_source, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.battery import Battery, Cell, Option
from dossier.model.events import CapacityTest, PackFitted
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.results.log_comparison import Comparison, Ends, agree, comparisons
from dossier.results.log_curve import LogCurve, log_curve
from dossier.results.logged_test import LoggedTest, charges
from dossier.results.pack_acceptance import Holder
from dossier.results.pack_verdict import Asked, PackVerdict
from dossier.results.pack_verdict import findings as verdict_findings

HOUR = 3600.0
SLACK = 2 * Instruments().voltage_gain
"""Of a voltage, by which an instrument may miss a criterion."""
TOLD = {
    "energy": (
        "L010", 3.6e6, "kWh", 3,
        "look into the rest voltages and resistances of the type, the temperature of the test, and the log",
    ),
    "resistance": (
        "L011", 1e-3, "mΩ", 1,
        "add resistance_growth: from a measurement to the event, or correct the table of the type",
    ),
}  # fmt: skip
"""Quantity -> code, factor, unit and decimals of its finding, and what to do."""


@dataclass(frozen=True)
class CapacityLog:
    """What one log shows. Figures by short names: ``logged_charge``, ``logged_capacity``."""

    event: PackFitted | CapacityTest
    option: str
    file: str
    test: DischargeTest | None
    acceptance: Acceptance
    figures: dict[str, Figure]
    stated: Quantity | None
    agrees: bool | None
    """None where there is nothing to compare."""
    findings: tuple[Finding, ...]
    compared: tuple[Comparison, ...] = ()
    """Its energy and resistance against the model of the type."""
    verdict: PackVerdict | None = None
    """Whether the battery is accepted; None where the record asks nothing of a test."""
    curve: LogCurve | None = None
    """Voltage and energy over the state of charge; None where the log gives no capacity."""


@dataclass(frozen=True)
class CapacityLogs:
    """All logs of one aircraft, in the order of their events."""

    logs: tuple[CapacityLog, ...] = ()
    on_batteries: tuple[Finding, ...] = ()
    """What the tests say of the batteries, where they do not accept them."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return tuple(
            figure
            for log in self.logs
            for figures in (
                log.figures.values(),
                *(pair.figures for pair in log.compared),
                log.verdict.figures if log.verdict else (),
            )
            for figure in figures
        )

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything that was found in the logs."""
        return (*(finding for log in self.logs for finding in log.findings), *self.on_batteries)

    @property
    def latest(self) -> Mapping[str, CapacityLog]:
        """The latest log of each battery, by its serial number."""
        return {str(log.event.pack): log for log in self.logs}


def capacity_logs(tests: Sequence[LoggedTest], battery: Battery, asked: Asked | None = None) -> CapacityLogs:
    """Analyse each log, in the order of the events.

    A log that cannot be judged has findings of severity error, and its record is to be refused.

    Args:
        tests: with their logs.
        battery: the battery file.
        asked: what a test must show for its battery to be accepted; None where the record asks nothing.
    """
    logs = tuple(_judge(number, one, battery, asked) for number, one in enumerate(tests, 1))
    judged = [(log.verdict, one) for log, one in zip(logs, tests, strict=True) if log.verdict]
    told = verdict_findings(judged, asked.fitted) if asked else ()
    return CapacityLogs(logs, tuple(told))


def _judge(number: int, one: LoggedTest, battery: Battery, asked: Asked | None) -> CapacityLog:
    option = battery.options[one.option]
    cell = battery.cells[option.cell]
    under_test = PackUnderTest(option.series, cell.nominal_capacity.value * option.parallel)
    assert one.event.log
    positive = one.event.log.discharge == "positive"
    analysis = analyse(one.log, under_test, discharge_is_positive=positive)
    acceptance = accept(one.log, analysis, _criteria(option))
    figures: dict[str, Figure] = {}
    compared: tuple[Comparison, ...] = ()
    findings = list(acceptance.findings)
    none, curve = "", None
    if analysis.test:
        ends = _ends(one, analysis.test, option, cell)
        try:
            figures = _figures(number, one, analysis.test, ends)
            if not isinstance(ends, str):
                curve = log_curve(one, analysis.test, ends[0], figures["logged_capacity"])
        except OutsideRange as error:
            none = fault = f"the log gives no capacity: {error}"
            remedy = "test over more of the charge, from rest to rest"
            findings.append(Finding("L008", fault, remedy, one.log.place(0), Severity.WARNING))
        compared = comparisons(number, one, analysis.test, (option, cell), ends)
    difference = _difference(number, one, figures.get("logged_capacity"))
    agrees = agree(difference) if difference else None
    if difference:
        figures["capacity_difference"] = difference
    findings += _disagreements(one, figures, agrees, compared)
    verdict = None
    if asked:
        holder = Holder(number, one, analysis.test, (option, cell), asked)
        verdict = holder.verdict(figures, compared, trusted=acceptance.accepted, none=none)
    return CapacityLog(
        one.event, one.option, one.log.file, analysis.test, acceptance, figures, one.stated, agrees,
        tuple(findings), compared, verdict, curve,
    )  # fmt: skip


def _ends(one: LoggedTest, test: DischargeTest, option: Option, cell: Cell) -> Ends:
    try:
        return charges(one, test, option, cell)
    except OutsideRange as error:
        return str(error)


def _criteria(option: Option) -> Criteria:
    """The battery was full at the start, and emptied at least to where flying stops."""
    return Criteria(
        rest_voltage_at_start=option.series * option.full_cell_voltage.value * (1 - SLACK),
        voltage_at_end=option.series * option.empty_cell_voltage.value * (1 + SLACK),
    )


def _figures(number: int, one: LoggedTest, test: DischargeTest, ends: Ends) -> dict[str, Figure]:
    name = f"test_{number}"
    place = one.log.place(test.first)
    error = error_source(f"current of the test of {one.words}", test.charge.standard_uncertainty)
    charge = Input(f"charge by the log of {one.words}", "charge", test.charge.value + error, place)
    taken_charge = evaluate(
        pack.pack_capacity, f"logged_charge.{name}", f"Charge taken in the test, {one.words}", "charge",
        {"N_p": Input("whole battery", "number", 1.0, place), "Q_cell": charge},
    )  # fmt: skip
    if isinstance(ends, str):
        raise OutsideRange(ends)
    whole = evaluate(
        log_capacity.whole_capacity, f"logged_capacity.{name}", f"Capacity by the log, {one.words}", "charge",
        {"Q_t": taken(taken_charge), "z_1": ends[0], "z_2": ends[1]},
    )  # fmt: skip
    return {"logged_charge": taken_charge, "logged_capacity": whole}


def _difference(number: int, one: LoggedTest, logged: Figure | None) -> Figure | None:
    if logged is None or one.stated is None:
        return None
    return evaluate(
        log_capacity.capacity_beyond, f"capacity_difference.test_{number}",
        f"Capacity by the log less that by the record, {one.words}", "charge",
        {"Q": taken(logged), "Q_s": given(one.stated, f"capacity of {one.words}, as stated")},
    )  # fmt: skip


def _disagreements(
    one: LoggedTest, figures: Mapping[str, Figure], agrees: bool | None, compared: tuple[Comparison, ...]
) -> Iterator[Finding]:
    """Warn of what disagrees; an energy that only follows a wrong capacity is not told again."""
    if agrees is False and one.stated:
        yield _capacity(figures["logged_capacity"], one.stated, one)
    for pair in compared:
        if pair.agrees is False and not (pair.quantity == "energy" and agrees is False):
            yield _disagreement(pair, one)


def _capacity(logged: Figure, stated: Quantity, one: LoggedTest) -> Finding:
    spread = COVERAGE_FACTOR * logged.standard_uncertainty / HOUR
    given_by_log = f"{logged.value / HOUR:.1f} Ah ± {spread:.1f} Ah (k = 2)"
    fault = f"the capacity of {one.words}: {stated.text} is stated, and its log gives {given_by_log}"
    remedy = "correct the capacity, or show in a note how it follows from the log"
    return Finding("L009", fault, remedy, stated.place, Severity.WARNING)


def _disagreement(pair: Comparison, one: LoggedTest) -> Finding:
    computed, difference = pair.computed, pair.difference
    assert computed
    assert difference
    code, factor, unit, decimals, remedy = TOLD[pair.quantity]
    measured, by_model, off, doubt = (
        f"{value / factor:.{decimals}f} {unit}"
        for value in (
            pair.measured.value,
            computed.value,
            abs(difference.value),
            COVERAGE_FACTOR * difference.standard_uncertainty,
        )
    )
    more = "more" if difference.value > 0 else "less"
    fault = (
        f"the {pair.quantity} of {one.words}: its log gives {measured}, the model of the type {by_model}: "
        f"{off} {more}, and ± {doubt} (k = 2) is what both may be off"
    )
    place = one.event.log.place_of_key("file") if one.event.log else None
    return Finding(code, fault, remedy, place, Severity.WARNING)
