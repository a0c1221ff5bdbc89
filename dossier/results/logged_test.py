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
RECKONED = 0.01
"""Standard uncertainty of a state of charge that is reckoned from a voltage under load: the resistance is
that of another rate and temperature (own judgement, no source)."""
HELD = 0.5
"""Standard uncertainty, of itself, of a resistance beyond its table (own judgement, no source)."""
Table = tuple[tuple[float, ...], tuple[float, ...]]
"""States of charge, rising, and voltages of one cell."""


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
    table = _under_load(cell, current)
    voltage = test.last_voltage / option.series
    charge = _looked_up(voltage, table, "voltage under load at the end")
    day = one.event.date.isoformat()
    errors = error_source(f"resistance of the cell at the end of the test of {day}", RECKONED) + error_source(
        f"voltmeter of the test of {day}, at the end", by_voltmeter(voltage, table)
    )
    if held := _held(charge, current, cell, table):
        errors += error_source(f"resistance beyond its table at the end of the test of {day}", held)
    return start, Input(
        "state of charge after the test, from the voltage under load", "ratio", charge + errors, last
    )


def _under_load(cell: Cell, current: float) -> Table:
    """Return states of charge and voltages under load; beyond its table a resistance is held.

    Raises:
        OutsideRange: the voltage does not rise with the charge, so that a reading has two meanings.
    """
    points = [(p.state_of_charge.value, p.resistance.value) for p in cell.resistance or []]
    charges, voltages = rest_columns(cell)
    z = np.linspace(charges[0], charges[-1], 2001)
    at, ohms = [one[0] for one in points], [one[1] for one in points]
    loaded = np.interp(z, charges, voltages) - current * np.interp(z, at, ohms)
    if not (np.diff(loaded) > 0).all():
        raise OutsideRange("the voltage under load does not rise with the charge: a reading has two meanings")
    return tuple(z.tolist()), tuple(loaded.tolist())


def _looked_up(voltage: float, table: Table, what: str) -> float:
    """Look a voltage of a cell up.

    Raises:
        OutsideRange: it lies outside the table, where nothing is known of the charge.
    """
    charges, volts = table
    if not volts[0] <= voltage <= volts[-1]:
        raise OutsideRange(
            f"the {what} is {voltage:.3f} V a cell, and the tables of the cell reach from {volts[0]:.3f} "
            f"to {volts[-1]:.3f} V"
        )
    return float(np.interp(voltage, volts, charges))


def _held(charge: float, current: float, cell: Cell, table: Table) -> float:
    """Carry what a resistance that is held beyond its table may be off; 0 inside it."""
    points = [(p.state_of_charge.value, p.resistance.value) for p in cell.resistance or []]
    (first, low), (last, high) = points[0], points[-1]
    if first <= charge <= last:
        return 0.0
    voltage = float(np.interp(charge, *table))
    return _carried(HELD * current * (low if charge < first else high), voltage, table)


def by_voltmeter(voltage: float, table: Table) -> float:
    """Carry what the voltmeter may be off to the state of charge."""
    return _carried(Instruments().voltage_gain * voltage, voltage, table)


def _carried(off: float, voltage: float, table: Table) -> float:
    """Carry a voltage on the slope of a table; at its ends on the one side that it has."""
    charges, volts = table
    low, high = max(voltage - off, volts[0]), min(voltage + off, volts[-1])
    below, above = (float(np.interp(one, volts, charges)) for one in (low, high))
    return off * (above - below) / (high - low)


def _charge_at(voltage: float, when: str, cell: Cell, one: LoggedTest) -> Input:
    """Look a rest voltage up; what the voltmeter may be off is carried on the slope of the table."""
    z_i, U_i = rest_columns(cell)
    charge = state_of_charge(voltage, z_i, U_i)
    error = error_source(
        f"voltmeter of the test of {one.event.date.isoformat()}, {when}",
        by_voltmeter(voltage, (tuple(z_i), tuple(U_i))),
    )
    row = 0 if when == "before" else len(one.log) - 1
    return Input(
        f"state of charge {when} the test, from the rest voltage", "ratio", charge + error, one.log.place(row)
    )
