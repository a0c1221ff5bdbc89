"""What the logs of capacity tests show, held against what the record states."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dossier.battery_log import BatteryLog
from dossier.compute import log_capacity, pack
from dossier.compute.log_acceptance import Acceptance, Criteria, accept
from dossier.compute.log_analysis import DischargeTest, analyse
from dossier.compute.log_instruments import Instruments
from dossier.compute.log_orientation import IDLE
from dossier.compute.log_quality import PackUnderTest
from dossier.compute.open_circuit import state_of_charge
from dossier.figures import Figure, Input, OutsideRange, error_source, evaluate, taken
from dossier.findings import Finding, Severity
from dossier.model.battery import Battery, Cell, Option
from dossier.model.events import CapacityTest, PackFitted
from dossier.quantities import COVERAGE_FACTOR, Quantity

REST = 1800.0
"""In s after the load, from which a voltage counts as rested (source practice)."""
SLACK = 2 * Instruments().voltage_gain
"""Of a voltage, by which an instrument may miss a criterion."""


@dataclass(frozen=True)
class LoggedTest:
    """One test with its log."""

    event: PackFitted | CapacityTest
    option: str
    log: BatteryLog


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


@dataclass(frozen=True)
class CapacityLogs:
    """All logs of one aircraft, in the order of their events."""

    logs: tuple[CapacityLog, ...] = ()

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return tuple(figure for log in self.logs for figure in log.figures.values())

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything that was found in the logs."""
        return tuple(finding for log in self.logs for finding in log.findings)


def capacity_logs(tests: Sequence[LoggedTest], battery: Battery) -> CapacityLogs:
    """Analyse each log, in the order of the events.

    A log that cannot be judged has findings of severity error, and its record is to be refused.
    """
    return CapacityLogs(tuple(_judge(number, one, battery) for number, one in enumerate(tests, 1)))


def _judge(number: int, one: LoggedTest, battery: Battery) -> CapacityLog:
    option = battery.options[one.option]
    cell = battery.cells[option.cell]
    under_test = PackUnderTest(option.series, cell.nominal_capacity.value * option.parallel)
    assert one.event.log
    positive = one.event.log.discharge == "positive"
    analysis = analyse(one.log, under_test, discharge_is_positive=positive)
    acceptance = accept(one.log, analysis, _criteria(option))
    stated = one.event.capacity if isinstance(one.event, CapacityTest) else one.event.measured_capacity
    figures: dict[str, Figure] = {}
    findings = list(acceptance.findings)
    if analysis.test:
        try:
            figures = _figures(number, one, analysis.test, option, cell)
        except OutsideRange as error:
            fault = f"the log gives no capacity: {error}"
            remedy = "test over more of the charge, from rest to rest"
            findings.append(Finding("L008", fault, remedy, one.log.place(0), Severity.WARNING))
    agrees = _agrees(figures.get("logged_capacity"), stated)
    if agrees is False and stated:
        findings.append(_disagreement(figures["logged_capacity"], stated, one))
    return CapacityLog(
        one.event,
        one.option,
        one.log.file,
        analysis.test,
        acceptance,
        figures,
        stated,
        agrees,
        tuple(findings),
    )


def _criteria(option: Option) -> Criteria:
    """The battery was full at the start, and emptied at least to where flying stops."""
    return Criteria(
        rest_voltage_at_start=option.series * option.full_cell_voltage.value * (1 - SLACK),
        voltage_at_end=option.series * option.empty_cell_voltage.value * (1 + SLACK),
    )


def _figures(
    number: int, one: LoggedTest, test: DischargeTest, option: Option, cell: Cell
) -> dict[str, Figure]:
    name, words = f"test_{number}", f"battery {one.event.pack}, {one.event.date.isoformat()}"
    place = one.log.place(test.first)
    error = error_source(f"current of the test of {words}", test.charge.standard_uncertainty)
    charge = Input(f"charge by the log of {words}", "charge", test.charge.value + error, place)
    taken_charge = evaluate(
        pack.pack_capacity, f"logged_charge.{name}", f"Charge taken in the test, {words}", "charge",
        {"N_p": Input("whole battery", "number", 1.0, place), "Q_cell": charge},
    )  # fmt: skip
    start, end = _charges(one, test, option, cell)
    whole = evaluate(
        log_capacity.whole_capacity, f"logged_capacity.{name}", f"Capacity by the log, {words}", "charge",
        {"Q_t": taken(taken_charge), "z_1": start, "z_2": end},
    )  # fmt: skip
    return {"logged_charge": taken_charge, "logged_capacity": whole}


def _charges(one: LoggedTest, test: DischargeTest, option: Option, cell: Cell) -> tuple[Input, Input]:
    """States of charge before and after, from rest voltages; after, from the voltage under load where no rest
    is in the log and the resistance is known.

    Raises:
        OutsideRange: a voltage is outside the table of the cell, or no rest voltage is known.
    """
    if test.rest_voltage is None:
        raise OutsideRange("it does not begin with the battery at rest")
    log, last = one.log, one.log.place(len(one.log) - 1)
    start = _charge_at(test.rest_voltage / option.series, "before", cell, one)
    idle = abs(log.current[-1]) <= IDLE * np.abs(log.current).max()
    if idle and log.time[-1] - log.time[test.last] >= REST:
        return start, _charge_at(float(log.voltage[-1]) / option.series, "after", cell, one)
    if not cell.resistance:
        raise OutsideRange(
            "it does not end with the battery at rest, and no resistance of the cell is stated"
        )
    current = abs(float(log.current[test.last])) / option.parallel
    points = [(p.state_of_charge.value, p.resistance.value) for p in cell.resistance]
    z = np.linspace(
        cell.open_circuit_voltage[0].state_of_charge.value,
        cell.open_circuit_voltage[-1].state_of_charge.value,
        2001,
    )
    rest = np.interp(z, *_rest_table(cell))
    loaded = rest - current * np.interp(z, [z for z, _ in points], [R for _, R in points])
    at = int(np.argmin(np.abs(loaded - test.last_voltage / option.series)))
    error = error_source(f"rest voltage reckoned after the test of {one.event.date.isoformat()}", 0.01)
    return start, Input(
        "state of charge after the test, from the voltage under load", "ratio", float(z[at]) + error, last
    )


def _rest_table(cell: Cell) -> tuple[list[float], list[float]]:
    points = cell.open_circuit_voltage
    return [p.state_of_charge.value for p in points], [p.voltage.value for p in points]


def _charge_at(voltage: float, when: str, cell: Cell, one: LoggedTest) -> Input:
    """Look a rest voltage up; what the voltmeter may be off is carried on the slope of the table."""
    z_i, U_i = _rest_table(cell)
    charge = state_of_charge(voltage, z_i, U_i)
    off = Instruments().voltage_gain * voltage
    ends = [float(np.interp(voltage + side * off, U_i, z_i)) for side in (-1, 1)]
    error = error_source(
        f"voltmeter of the test of {one.event.date.isoformat()}, {when}", (ends[1] - ends[0]) / 2
    )
    row = 0 if when == "before" else len(one.log) - 1
    return Input(
        f"state of charge {when} the test, from the rest voltage", "ratio", charge + error, one.log.place(row)
    )


def _agrees(logged: Figure | None, stated: Quantity | None) -> bool | None:
    if logged is None or stated is None:
        return None
    doubt = COVERAGE_FACTOR * float(np.hypot(logged.standard_uncertainty, stated.standard_uncertainty))
    return abs(logged.value - stated.value) <= doubt


def _disagreement(logged: Figure, stated: Quantity, one: LoggedTest) -> Finding:
    spread = COVERAGE_FACTOR * logged.standard_uncertainty / 3600
    fault = (
        f"{stated.text} is stated, and its log gives {logged.value / 3600:.1f} Ah ± {spread:.1f} Ah (k = 2)"
    )
    remedy = "correct the capacity, or show in a note how it follows from the log"
    return Finding(
        "L009", f"the capacity of battery {one.event.pack}: {fault}", remedy, stated.place, Severity.WARNING
    )
