"""The calibrations of the airspeed of one serial, and the speeds that are read by them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import sqrt

from uncertainties import UFloat

from dossier.compute import airspeed_calibration, performance
from dossier.compute.atmosphere import standard_pressure
from dossier.figures import Figure, Input, OutsideRange, error_source, evaluate, given, propagate, taken
from dossier.model.events import FlightTest
from dossier.model.flight_runs import AirspeedCalibration, Runs
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.replay import State
from dossier.results.reduced_runs import Reduced, Run, Tables

LEAST_SPEEDS = 3
"""Through which a line is drawn that shows how far they lie from it."""


@dataclass(frozen=True)
class Line:
    """The latest calibration: straight lines between, or through, corrections of indicated speeds."""

    indicated: Sequence[Input]
    corrections: Sequence[Input]


@dataclass(frozen=True)
class Flights:
    """The flight tests of one serial: state, runs read from files, calibrations of the airspeed."""

    state: State
    tables: Tables = field(default_factory=dict)
    calibrations: Mapping[int, Reduced | OutsideRange] = field(default_factory=dict)
    """By the number of the flight test, from 1."""
    lines: Mapping[int, Line] = field(default_factory=dict)
    """By the number of the flight test: the line that goes for its runs, where there is one."""

    def tests(self) -> Sequence[tuple[int, FlightTest]]:
        """Number the flight tests, from 1."""
        return list(enumerate(self.state.of_kind(FlightTest), start=1))

    def runs(self, number: int, kind: str, block: Runs) -> Sequence[Run]:
        """Return the runs of a field, from its file or from the record."""
        return self.tables[number, kind] if block.file else block.runs

    def speed(self, number: int, name: str, label: str, reading: Run) -> Figure:
        """Return the calibrated speed of a run, as it was stated or by the latest calibration.

        Raises:
            OutsideRange: it was read as indicated, and no calibration stands before it.
        """
        if "calibrated_speed" in reading:
            inputs = {"y": given(reading["calibrated_speed"], "calibrated speed")}
            return evaluate(performance.as_stated, name, label, "speed", inputs)
        if number not in self.lines:
            raise OutsideRange("no calibration of the airspeed stands before it that could be used")
        line = self.lines[number]
        return evaluate(
            airspeed_calibration.calibrated_from_line, name, label, "speed",
            {
                "v_IAS": given(reading["indicated_speed"], "indicated speed"),
                "v_i": list(line.indicated),
                "dv_i": list(line.corrections),
            },
        )  # fmt: skip


def flights(state: State, tables: Tables) -> Flights:
    """Reduce every calibration of the airspeed; each goes for the runs of its test and of later ones."""
    found: dict[int, Reduced | OutsideRange] = {}
    lines: dict[int, Line] = {}
    plain = Flights(state, tables)
    for number, test in plain.tests():
        if number - 1 in lines:
            lines[number] = lines[number - 1]
        block = test.airspeed_calibration
        if block is None:
            continue
        try:
            found[number], lines[number] = _calibration(number, test, block, plain)
        except OutsideRange as error:
            found[number] = error
    return Flights(state, tables, found, lines)


def _calibration(
    number: int, test: FlightTest, block: AirspeedCalibration, plain: Flights
) -> tuple[Reduced, Line]:
    readings = plain.runs(number, "airspeed_calibration", block)
    shared = _zero(f"shared error of the airspeed calibration of {test.date}", block.shared_error)
    figures = tuple(
        _corrected(f"{number}.{run}", block, reading, shared, test)
        for run, reading in enumerate(readings, start=1)
    )
    if len({reading["indicated_speed"].value for reading in readings}) < LEAST_SPEEDS:
        raise OutsideRange(f"it has {len(readings)} speeds, and a line is drawn through three")
    indicated = [given(reading["indicated_speed"], "indicated speed") for reading in readings]
    corrections = [taken(figure) for figure in figures]
    off = _misfit(indicated, corrections)
    if off:
        about = estimated_as_nothing(f"line of the calibration of {test.date}", off)
        corrections = [_with(one, about) for one in corrections]
    return Reduced(test, "airspeed_calibration", tuple(readings), figures, None, off), Line(
        indicated, corrections
    )


def _with(one: Input, about: UFloat | float) -> Input:
    """Add what all corrections read from the line share: how far they lie from it."""
    return Input(one.label, one.kind, one.estimate + about, one.origin)


def _corrected(
    name: str, block: AirspeedCalibration, reading: Run, shared: Input, test: FlightTest
) -> Figure:
    headings = block.directions_are == "headings"
    speeds = [
        given(reading[f"ground_speed_{n}"], f"ground speed {n}") for n in range(1, len(block.directions) + 1)
    ]
    ways = [given(one, f"direction {n}") for n, one in enumerate(block.directions, start=1)]
    height = given(block.pressure_altitude, "pressure altitude")
    at_height = propagate(standard_pressure, {"h_g": height})
    pressure = Input("pressure at that height", "pressure", at_height, height.origin)
    formula = (
        airspeed_calibration.correction_from_headings
        if headings
        else airspeed_calibration.correction_from_tracks
    )
    inputs: dict[str, Input | list[Input]] = {
        "v_IAS": given(reading["indicated_speed"], "indicated speed"),
        "v_GSi": speeds,
        "psi_i" if headings else "chi_i": ways,
        "p": pressure,
        "T": given(block.temperature, "temperature"),
        "dv_c": shared,
    }
    label = f"Correction of the airspeed, {reading['indicated_speed'].text} indicated, {test.date}"
    return evaluate(formula, f"airspeed_correction.{name}", label, "speed", inputs)


def estimated_as_nothing(label: str, standard: float) -> UFloat | float:
    """Make an error that is estimated as 0; one that is nothing stays a plain 0."""
    return error_source(label, standard) if standard else 0.0


def _zero(label: str, expanded: Quantity) -> Input:
    """Take an expanded uncertainty as an error that is estimated as 0."""
    origin = expanded.place or "not in a file"
    standard = expanded.value / COVERAGE_FACTOR
    return Input(label, expanded.kind, estimated_as_nothing(label, standard), origin, expanded.text)


def _misfit(indicated: Sequence[Input], corrections: Sequence[Input]) -> float:
    """Return the standard deviation of corrections about their straight line, in m/s."""
    v, dv = [one.value for one in indicated], [one.value for one in corrections]
    line = airspeed_calibration.calibrated_from_line
    squares = [(line(at, v, dv) - at - off) ** 2 for at, off in zip(v, dv, strict=True)]
    return sqrt(sum(squares) / (len(v) - 2))
