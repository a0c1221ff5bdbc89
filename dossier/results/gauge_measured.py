"""The gauge card held against a measured discharge of the fitted battery: voltage and energy left, with
the difference.

The log is read at its own current, at the charges of the card; the model is asked at the same current.
Both count
energy to the charge where flying stops, or to where the log ends, if that is above it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from math import hypot, sqrt

import numpy as np

from dossier.compute.cell_resistance import resistance_at
from dossier.compute.log_energy import HOUR, ZERO, accuracy
from dossier.compute.log_instruments import Instruments
from dossier.figures import OutsideRange
from dossier.quantities import COVERAGE_FACTOR
from dossier.results.capacity_logs import CapacityLog, CapacityLogs
from dossier.results.cell_model import CellModel
from dossier.results.gauge import Gauge, GaugeLine
from dossier.results.log_comparison import INDOORS, IRON_PHOSPHATE
from dossier.results.log_curve import LogCurve

RESISTANCE = 0.05
"""Relative standard uncertainty of the resistance that brings a loaded reading back to rest (source
pybamm: 5 % from a
maker's sheet)."""
POINTS = 400
"""Of the charge, over which the energy of the model is summed."""


@dataclass(frozen=True)
class MeasuredLine:
    """One charge of the card, of the whole battery, in SI."""

    charge: float
    name: str
    measured: float
    """Voltage under the current of the test, by the log."""
    modelled: float
    """The same by the model."""
    rest: float
    """Voltage at rest, by the log: the fall by the resistance of the table is given back."""
    card: float
    """Voltage at rest on the card."""
    uncertainty: float
    """Standard, of the difference."""
    energy_left: float
    """By the log at its current, to the charge down to which both are counted."""
    model_energy_left: float
    """The same by the model."""

    @property
    def difference(self) -> float:
        """Measured less modelled, in V: the same at rest and under the current of the test."""
        return self.measured - self.modelled

    @property
    def agrees(self) -> bool:
        """Whether the difference lies within its expanded uncertainty, k = 2."""
        return abs(self.difference) <= COVERAGE_FACTOR * self.uncertainty


@dataclass(frozen=True)
class MeasuredGauge:
    """The card of one battery beside the latest accepted log of the one that is fitted."""

    option: str
    pack: str
    day: date
    file: str
    current: float
    """Mean of the test."""
    lines: tuple[MeasuredLine, ...]
    left_out: tuple[str, ...]
    """Rows of the card that the log does not reach."""
    counted_to: float
    """State of charge down to which energy is counted: where flying stops, or where the log ends."""
    ends_early: bool
    """Whether the log ends above where flying stops."""
    model_part: float
    """Standard, relative: what the discharge model may be off by at the rate of the test."""


@dataclass(frozen=True)
class NotMeasured:
    """A card without a measured discharge beside it."""

    option: str
    why: str


def measured_gauges(
    gauges: Sequence[Gauge], models: Sequence[CellModel], logs: CapacityLogs
) -> tuple[MeasuredGauge | NotMeasured, ...]:
    """Hold each card against the latest log of the battery that is fitted, if that log is accepted.

    Args:
        gauges: the cards by the model.
        models: of the batteries.
        logs: of the tests.
    """
    by_option = {model.result.option: model for model in models}
    return tuple(_measured(gauge, by_option[gauge.option], logs) for gauge in gauges)


def _measured(gauge: Gauge, model: CellModel, logs: CapacityLogs) -> MeasuredGauge | NotMeasured:
    fitted = model.result.fitted
    if fitted is None:
        return NotMeasured(gauge.option, "no battery of this kind is fitted")
    log = logs.latest.get(str(fitted.pack))
    if log is None:
        return NotMeasured(gauge.option, f"no test of battery {fitted.pack} has a log")
    if not log.acceptance.accepted or log.curve is None or log.test is None:
        return NotMeasured(
            gauge.option, f"the latest log of battery {fitted.pack} is not accepted, or gives no capacity"
        )
    try:
        return _made(gauge, model, log, log.curve)
    except OutsideRange as error:
        return NotMeasured(gauge.option, str(error))


def _made(gauge: Gauge, model: CellModel, log: CapacityLog, curve: LogCurve) -> MeasuredGauge:
    low, high = curve.ends
    mean = float(np.mean(curve.current))
    capacity = model.circuit.capacity * model.health * model.shape.strings
    iron = model.cell.chemistry == IRON_PHOSPHATE
    kind = IRON_PHOSPHATE if iron else model.circuit.application
    part = accuracy(kind, mean / capacity * HOUR) / sqrt(3)
    reached = [line for line in gauge.lines if low <= line.charge <= high]
    missing = [f"{100 * line.charge:.0f} %" for line in gauge.lines if line not in reached]
    stop = gauge.lines[-1].charge
    end = max(stop, low)
    lines = tuple(_line(line, model, curve, end=end, part=part) for line in reached)
    return MeasuredGauge(
        gauge.option,
        str(log.event.pack),
        log.event.date,
        log.file,
        mean,
        lines,
        tuple(missing),
        end,
        end > stop,
        part,
    )


def _line(line: GaugeLine, model: CellModel, curve: LogCurve, *, end: float, part: float) -> MeasuredLine:
    z = line.charge
    current, measured = curve.at(z, curve.current), curve.at(z, curve.voltage)
    fall = current * _resistance(model, curve, z)
    rest = float(np.interp(z, model.circuit.rest.x, model.circuit.rest.y)) * model.shape.series
    doubt = hypot(_doubt(z, measured, fall, model=model, curve=curve), part * (rest - fall))
    left = curve.at(end, curve.energy) - curve.at(z, curve.energy)
    return MeasuredLine(
        z, line.name, measured, rest - fall, measured + fall, rest, doubt, left, _energy(model, curve, z, end)
    )


def _resistance(model: CellModel, curve: LogCurve, z: float) -> float:
    """Return the resistance of the whole battery in Ω at a charge, at the mean temperature of the log."""
    warm = INDOORS[0] if curve.temperature is None else max(curve.temperature, ZERO + 5.0)
    R_25 = float(np.interp(z, model.circuit.resistance.x, model.circuit.resistance.y))
    growth = (model.growth.low + model.growth.high) / 2
    cell = resistance_at(R_25, model.circuit.constant, warm, growth)
    shape = model.shape
    return shape.series / shape.strings * (cell + shape.wiring_at_cell)


def _doubt(z: float, measured: float, fall: float, *, model: CellModel, curve: LogCurve) -> float:
    """Return the standard uncertainty of the difference: voltmeter, charge on the slope of the table,
    resistance."""
    rest, step = model.circuit.rest, 0.01
    ends = [min(max(z + side * step, rest.x[0]), rest.x[-1]) for side in (-1, 1)]
    low, high = (float(np.interp(end, rest.x, rest.y)) for end in ends)
    slope = (high - low) / (ends[1] - ends[0]) * model.shape.series
    charge = hypot(curve.start_uncertainty, curve.share_uncertainty * (curve.charge[0] - z))
    growth = model.growth
    resistance = hypot(RESISTANCE, (growth.high - growth.low) / (growth.high + growth.low) / 3**0.5)
    return hypot(Instruments().voltage_gain * measured, slope * charge, fall * resistance)


def _energy(model: CellModel, curve: LogCurve, z: float, end: float) -> float:
    """Return the energy in J between two charges by the model, at the current of the log."""
    charges = np.linspace(end, z, POINTS + 1)
    voltages = np.array(list(_voltages(model, curve, charges)))
    capacity = model.circuit.capacity * model.health * model.shape.strings
    return float(np.trapezoid(voltages, charges)) * capacity


def _voltages(model: CellModel, curve: LogCurve, charges: np.ndarray) -> Iterator[float]:
    mean = float(np.mean(curve.current))
    for z in charges:
        rest = float(np.interp(z, model.circuit.rest.x, model.circuit.rest.y)) * model.shape.series
        yield rest - mean * _resistance(model, curve, float(z))
