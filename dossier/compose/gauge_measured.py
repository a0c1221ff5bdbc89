"""The gauge card beside a measured discharge, on its page."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.display import MINUS
from dossier.quantities import COVERAGE_FACTOR
from dossier.results.gauge import Gauge
from dossier.results.gauge_measured import MeasuredGauge, MeasuredLine

_MARKS = {True: Mark("Agrees", "conforms"), False: Mark("Differs", "fails")}
HEADS = (
    "Charge | State | # By the log, V | # By the model, V | # Difference, V | # At rest from the log, V "
    "| # In level flight from the log, V | # kWh left by the log | # kWh left by the model"
)


@dataclass(frozen=True)
class MeasuredPart:
    """The table and its words. All ready strings."""

    words: str
    table: Grid | None


def measured(at: Printer, gauge: Gauge) -> MeasuredPart:
    """Make the part of one card; where nothing was measured it says why."""
    one = next(each for each in at.dossier.modelled.measured if each.option == gauge.option)
    if not isinstance(one, MeasuredGauge):
        return MeasuredPart(f"No measured discharge stands beside this card: {one.why}.", None)
    loaded = {line.charge: line.loaded_voltage for line in gauge.lines}
    title = f"Against the discharge of battery {one.pack}, {one.day.isoformat()}, at {one.current:.0f}\u00a0A"
    rows = [_line(line, loaded[line.charge]) for line in one.lines]
    return MeasuredPart(_words(one), grid(title, HEADS, rows))


def _words(one: MeasuredGauge) -> str:
    ends = "where the log ends" if one.ends_early else "where flying stops"
    left = (
        f" Rows that the log does not reach are left out: {', '.join(one.left_out)}." if one.left_out else ""
    )
    return (
        f"From its accepted log, {one.file.rpartition('/')[2]}: voltage and energy at the current of the "
        f"test, beside what "
        f"the model gives at that current. What is found at rest and in level flight has the same "
        f"difference, for the fall by "
        f"the resistance is that of the table: a slow test does not show it. Energy is counted down to "
        f"{100 * one.counted_to:.0f}\u00a0%, {ends}. In the ±: voltmeter, charge, resistance, and "
        f"{100 * one.model_part:.1f}\u00a0% (standard) for the model.{left}"
    )


def _line(line: MeasuredLine, loaded: float) -> Row:
    return row(
        f"{100 * line.charge:.0f}\u00a0% {line.name}".strip(),
        _MARKS[line.agrees],
        f"{line.measured:.1f}",
        f"{line.modelled:.1f}",
        Cell(_signed(line.difference), note=f"± {COVERAGE_FACTOR * line.uncertainty:.1f} (k = 2)"),
        f"{line.rest:.1f}",
        f"{loaded + line.difference:.1f}",
        f"{line.energy_left / 3.6e6:.2f}",
        f"{line.model_energy_left / 3.6e6:.2f}",
    )


def _signed(volts: float) -> str:
    text = f"{abs(volts):.1f}"
    return text if float(text) == 0 else f"{'+' if volts > 0 else MINUS}{text}"
