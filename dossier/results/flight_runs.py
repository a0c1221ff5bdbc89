"""The runs of flight tests, reduced: calibrated, brought to sea level and standard air, and averaged."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import sqrt
from statistics import stdev

from uncertainties import UFloat

from dossier.compute import airspeed_calibration, performance, reduction
from dossier.compute.atmosphere import standard_pressure
from dossier.figures import Figure, Input, OutsideRange, error_source, evaluate, given, propagate, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.events import FlightTest
from dossier.model.flight_runs import AirspeedCalibration, LevelRuns, Runs
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.replay import State
from dossier.results.attempt import reason
from dossier.results.flight_glides import shared_errors
from dossier.results.flight_polar import PolarInUse
from dossier.results.reduced_runs import QUANTITIES, FlightRuns, Reduced, Run, Tables
from dossier.sources import cite
from dossier.units import scale


def flight_runs(aircraft: Aircraft, state: State, tables: Tables, in_use: PolarInUse | None) -> FlightRuns:
    """Reduce the runs of every flight test.

    Args:
        aircraft: for the power at full throttle.
        state: with the flight tests up to the date.
        tables: runs that were read from files.
        in_use: the polar, by which a level run is brought to full power; None where there is none.
    """
    maker = _Maker(aircraft, tables, in_use)
    for number, test in enumerate(state.of_kind(FlightTest), start=1):
        maker.take(number, test)
    return FlightRuns(tuple(maker.reduced), tuple(maker.findings))


@dataclass
class _Maker:
    """Reduces test after test; a calibration goes for what comes after it."""

    aircraft: Aircraft
    tables: Tables
    in_use: PolarInUse | None
    reduced: list[Reduced] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    indicated: list[Input] = field(default_factory=list)
    """Of the latest calibration."""
    corrections: list[Input] = field(default_factory=list)

    def take(self, number: int, test: FlightTest) -> None:
        ways: tuple[tuple[str, Callable[[int, FlightTest], Reduced | None]], ...] = (
            ("airspeed_calibration", self._calibration),
            ("stalls", self._stalls),
            ("timed_descents", self._descents),
            ("level_runs", self._level),
        )
        for kind, reduce in ways:
            if getattr(test, kind) is None:
                continue
            try:
                found = reduce(number, test)
            except OutsideRange as error:
                self._tell(test, kind, reason(error))
                continue
            if found:
                self.reduced.append(found)
                self._compare(found)

    def _tell(self, test: FlightTest, kind: str, why: str) -> None:
        words = kind.replace("_", " ")
        self.findings.append(
            Finding(
                "F010", f"the {words} of {test.date} cannot be reduced: {why}",
                "correct the readings named, or fly them again", test.place_of_key(kind), Severity.WARNING,
            )
        )  # fmt: skip

    def _runs(self, number: int, kind: str, block: Runs) -> Sequence[Run]:
        return self.tables[number, kind] if block.file else block.runs

    def _calibration(self, number: int, test: FlightTest) -> Reduced:
        block = test.airspeed_calibration
        assert block is not None
        readings = self._runs(number, "airspeed_calibration", block)
        shared = _zero(f"shared error of the airspeed calibration of {test.date}", block.shared_error)
        figures = tuple(
            self._corrected(f"{number}.{run}", block, reading, shared, test)
            for run, reading in enumerate(readings, start=1)
        )
        if len({reading["indicated_speed"].value for reading in readings}) < 3:
            raise OutsideRange(f"it has {len(readings)} speeds, and a line is drawn through three")
        self.indicated = [given(reading["indicated_speed"], "indicated speed") for reading in readings]
        self.corrections = [taken(figure) for figure in figures]
        off = _misfit(self.indicated, self.corrections)
        if off:
            about = _error(f"line of the calibration of {test.date}", off)
            self.corrections = [self._with(one, about) for one in self.corrections]
        return Reduced(test, "airspeed_calibration", tuple(readings), figures, None, off)

    @staticmethod
    def _with(one: Input, about: UFloat | float) -> Input:
        """Add what all corrections read from the line share: how far they lie from it."""
        return Input(one.label, one.kind, one.estimate + about, one.origin)

    def _corrected(
        self, name: str, block: AirspeedCalibration, reading: Run, shared: Input, test: FlightTest
    ) -> Figure:
        headings = block.directions_are == "headings"
        speeds = [
            given(reading[f"ground_speed_{n}"], f"ground speed {n}")
            for n in range(1, len(block.directions) + 1)
        ]
        ways = [given(one, f"direction {n}") for n, one in enumerate(block.directions, start=1)]
        height = given(block.pressure_altitude, "pressure altitude")
        pressure = Input(
            "pressure at that height",
            "pressure",
            propagate(standard_pressure, {"h_g": height}),
            height.origin,
        )
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

    def _speed(self, name: str, label: str, reading: Run) -> Figure:
        """Return the calibrated speed of a run, as it was stated or by the latest calibration."""
        if "calibrated_speed" in reading:
            inputs = {"y": given(reading["calibrated_speed"], "calibrated speed")}
            return evaluate(performance.as_stated, name, label, "speed", inputs)
        if not self.corrections:
            raise OutsideRange("no calibration of the airspeed stands before it that could be used")
        return evaluate(
            airspeed_calibration.calibrated_from_line, name, label, "speed",
            {
                "v_IAS": given(reading["indicated_speed"], "indicated speed"),
                "v_i": self.indicated,
                "dv_i": self.corrections,
            },
        )  # fmt: skip

    def _stalls(self, number: int, test: FlightTest) -> Reduced:
        assert test.stalls is not None
        readings = self._runs(number, "stalls", test.stalls)
        runs = tuple(
            self._speed(f"stall_run.{number}.{run}", f"Stall {run} of {test.date}, calibrated", reading)
            for run, reading in enumerate(readings, start=1)
        )
        return self._mean(number, test, "stalls", readings, runs)

    def _descents(self, number: int, test: FlightTest) -> Reduced:
        block = test.timed_descents
        assert block is not None
        readings = self._runs(number, "timed_descents", block)
        motion = next(one for one in shared_errors(test.shared_errors) if one.name == "air_motion")
        error = _error(f"{motion.words}, {test.date}", motion.standard)
        stated = test.shared_errors and test.shared_errors.place_of_key("air_motion")
        moved = Input(motion.words, "speed", error, (motion.stated and stated) or cite("practice"))
        mass = given(block.at_mass, "mass of the test")
        runs = tuple(
            evaluate(
                reduction.sink_of_descent, f"descent_run.{number}.{run}",
                f"Sink of descent {run} of {test.date}, sea level, standard air", "speed",
                {
                    "h_1": given(reading["from_height"], "height where it begins"),
                    "h_2": given(reading["to_height"], "height where it ends"),
                    "t": given(reading["time"], "time"),
                    "T": given(reading["temperature"], "temperature"),
                    "m_t": mass, "m": mass, "dw": moved,
                },
                style="vertical_speed",
            )
            for run, reading in enumerate(readings, start=1)
        )  # fmt: skip
        return self._mean(number, test, "timed_descents", readings, runs)

    def _level(self, number: int, test: FlightTest) -> Reduced:
        block = test.level_runs
        assert block is not None
        readings = self._runs(number, "level_runs", block)
        runs = []
        for run, reading in enumerate(readings, start=1):
            words, name = f"Level run {run} of {test.date}", f"level_run.{number}.{run}"
            if block.held_by == "control":
                runs.append(self._speed(name, f"{words}, calibrated", reading))
                continue
            speed = self._speed(f"{name}.calibrated", f"{words}, calibrated", reading)
            runs.append(self._at_full_power(name, f"{words}, at full power", speed, reading, block))
        return self._mean(number, test, "level_runs", readings, tuple(runs))

    def _at_full_power(self, name: str, label: str, speed: Figure, reading: Run, block: LevelRuns) -> Figure:
        if self.in_use is None:
            raise OutsideRange("the type states no aerodynamics, by which it is brought to full power")
        return evaluate(
            reduction.full_power_speed, name, label, "speed",
            {
                "v_CAS": taken(speed),
                "P_t": given(reading["power"], "power of the run"),
                "P": given(self.aircraft.propulsion.maximum_power, "power at full throttle"),
                "m": given(block.at_mass, "mass of the test"),
                "h_p": given(block.pressure_altitude, "pressure altitude"),
                "T": given(block.temperature, "temperature"),
                "S": self.in_use.area,
                "C_D0": taken(self.in_use.zero_lift),
                "K": taken(self.in_use.induced),
            },
        )  # fmt: skip

    def _mean(
        self, number: int, test: FlightTest, kind: str, readings: Sequence[Run], runs: tuple[Figure, ...]
    ) -> Reduced:
        if len(runs) < 2:
            raise OutsideRange(f"there is {len(runs)} run, and scatter shows from two")
        words = kind.replace("_", " ")
        scatter = stdev(run.value for run in runs)
        error = Input(
            f"scatter of the {words}: standard deviation of {len(runs)} runs over the root of their number",
            "speed",
            _error(f"scatter of the {words} of {test.date}", scatter / sqrt(len(runs))),
            cite("jcgm-100, 4.2.3"),
        )
        note = (
            "What is random within a run shows in the scatter; what the runs share is carried through each."
        )
        mean = evaluate(
            reduction.mean_of_runs, f"mean_of_{kind}.{number}",
            f"Mean of {len(runs)} {words} of {test.date}, at {getattr(test, kind).at_mass.text}", "speed",
            {"v_ri": [taken(run) for run in runs], "dv_s": error},
            note=note, style="vertical_speed" if kind == "timed_descents" else "",
        )  # fmt: skip
        return Reduced(test, kind, tuple(readings), runs, mean, scatter)

    def _compare(self, one: Reduced) -> None:
        """Say where the stated result and the runs behind it do not agree."""
        stated = [r for r in one.test.results if str(r.quantity) == QUANTITIES.get(one.kind)]
        if one.mean is None or not stated or stated[0].value.kind != "speed":
            return
        value, mean = stated[0].value, one.mean
        mass, flown = getattr(one.test, one.kind).at_mass, stated[0].at_mass
        carried = value.value * (sqrt(mass.value / flown.value) if flown else 1.0)
        allowed = COVERAGE_FACTOR * max(value.standard_uncertainty, mean.standard_uncertainty)
        if abs(carried - mean.value) <= allowed:
            return
        factor = scale("speed", value.unit)[0]
        fault = (
            f"the {str(stated[0].quantity).replace('_', ' ')} of {one.test.date} is stated as {value.text}, "
            f"and its runs give {mean.value / factor:.3g} {value.unit} at {mass.text}: both may be off by "
            f"± {allowed / factor:.2g} {value.unit} (k = 2)"
        )
        remedy = "correct the result or the runs; the runs are what counts"
        self.findings.append(Finding("F011", fault, remedy, value.place, Severity.WARNING))


def _error(label: str, standard: float) -> UFloat | float:
    """Make an error that is estimated as 0; one that is nothing stays a plain 0."""
    return error_source(label, standard) if standard else 0.0


def _zero(label: str, expanded: Quantity) -> Input:
    """Take an expanded uncertainty as an error that is estimated as 0."""
    origin = expanded.place or "not in a file"
    return Input(label, expanded.kind, _error(label, expanded.value / COVERAGE_FACTOR), origin, expanded.text)


def _misfit(indicated: Sequence[Input], corrections: Sequence[Input]) -> float:
    """Return the standard deviation of corrections about their straight line, in m/s."""
    v, dv = [one.value for one in indicated], [one.value for one in corrections]
    line = airspeed_calibration.calibrated_from_line
    squares = [(line(at, v, dv) - at - off) ** 2 for at, off in zip(v, dv, strict=True)]
    return sqrt(sum(squares) / (len(v) - 2))
