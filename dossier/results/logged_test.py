"""A capacity test with its log, and the states of charge between which it went."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dossier.battery_log import BatteryLog
from dossier.compute.log_analysis import DischargeTest
from dossier.compute.log_instruments import Instruments
from dossier.compute.log_orientation import IDLE
from dossier.compute.open_circuit import state_of_charge
from dossier.figures import Input, OutsideRange, error_source
from dossier.model.battery import Cell, Option
from dossier.model.events import CapacityTest, PackFitted
from dossier.quantities import Quantity
from dossier.tables.rest_voltages import rest_columns

REST = 1800.0
"""In s after the load, from which a voltage counts as rested (source practice)."""


@dataclass(frozen=True)
class LoggedTest:
    """One test with its log."""

    event: PackFitted | CapacityTest
    option: str
    log: BatteryLog

    @property
    def stated(self) -> Quantity | None:
        """The capacity that the record states for it."""
        event = self.event
        return event.capacity if isinstance(event, CapacityTest) else event.measured_capacity

    @property
    def words(self) -> str:
        """What a reader calls it."""
        return f"battery {self.event.pack}, {self.event.date.isoformat()}"


def charges(one: LoggedTest, test: DischargeTest, option: Option, cell: Cell) -> tuple[Input, Input]:
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
    charges, voltages = rest_columns(cell)
    z = np.linspace(charges[0], charges[-1], 2001)
    rest = np.interp(z, charges, voltages)
    loaded = rest - current * np.interp(z, [z for z, _ in points], [R for _, R in points])
    at = int(np.argmin(np.abs(loaded - test.last_voltage / option.series)))
    error = error_source(f"rest voltage reckoned after the test of {one.event.date.isoformat()}", 0.01)
    return start, Input(
        "state of charge after the test, from the voltage under load", "ratio", float(z[at]) + error, last
    )


def _charge_at(voltage: float, when: str, cell: Cell, one: LoggedTest) -> Input:
    """Look a rest voltage up; what the voltmeter may be off is carried on the slope of the table."""
    z_i, U_i = rest_columns(cell)
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
