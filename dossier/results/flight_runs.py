"""The runs of flight tests, reduced: calibrated, brought to sea level and standard air, and averaged."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import sqrt
from statistics import stdev

from dossier.compute import reduction
from dossier.figures import Figure, Input, OutsideRange, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.events import FlightTest
from dossier.model.flight_runs import QUANTITIES, LevelRuns, TimedDescents
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.results.airspeed import Flights, estimated_as_nothing
from dossier.results.attempt import reason
from dossier.results.flight_glides import glide_speed, shared_errors
from dossier.results.flight_polar import PolarInUse
from dossier.results.reduced_runs import FlightRuns, Reduced, Run
from dossier.sources import cite
from dossier.units import scale


def flight_runs(aircraft: Aircraft, flights: Flights, in_use: PolarInUse | None) -> FlightRuns:
    """Reduce the runs of every flight test.

    Args:
        aircraft: for the power at full throttle and the mass of the glides.
        flights: the flight tests up to the date, with the runs that were read from files.
        in_use: the polar, by which a level run is brought to full power; None where there is none.
    """
    maker = _Maker(aircraft, flights, in_use)
    for number, test in flights.tests():
        maker.take(number, test)
    return FlightRuns(tuple(maker.reduced), tuple(maker.findings))


@dataclass
class _Maker:
    """Reduces test after test."""

    aircraft: Aircraft
    flights: Flights
    in_use: PolarInUse | None
    reduced: list[Reduced] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def take(self, number: int, test: FlightTest) -> None:
        ways: tuple[tuple[str, Callable[[int, FlightTest], Reduced | None]], ...] = (
            ("airspeed_calibration", self._calibration),
            ("stalls", self._stalls),
            ("timed_descents", self._descents),
            ("timed_glides", self._glides),
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

    def _calibration(self, number: int, _test: FlightTest) -> Reduced:
        found = self.flights.calibrations[number]
        if isinstance(found, OutsideRange):
            raise found
        return found

    def _stalls(self, number: int, test: FlightTest) -> Reduced:
        assert test.stalls is not None
        readings = self.flights.runs(number, "stalls", test.stalls)
        runs = tuple(
            self.flights.speed(
                number, f"stall_run.{number}.{run}", f"Stall {run} of {test.date}, calibrated", reading
            )
            for run, reading in enumerate(readings, start=1)
        )
        return self._mean(number, test, "stalls", readings, runs)

    def _descents(self, number: int, test: FlightTest) -> Reduced:
        block = test.timed_descents
        assert block is not None
        readings = self.flights.runs(number, "timed_descents", block)
        runs = self._sinks(f"descent_run.{number}", test, (block, readings), block.at_mass)
        return self._mean(number, test, "timed_descents", readings, runs)

    def _glides(self, number: int, test: FlightTest) -> Reduced:
        """Glides at several speeds have no mean: the polar is fitted to them."""
        block = test.timed_glides
        assert block is not None
        readings = self.flights.runs(number, "timed_glides", block)
        mass = self.aircraft.glide.at_mass
        speeds = tuple(
            glide_speed(self.flights, number, run, (reading, block.at_mass, mass))
            for run, reading in enumerate(readings, start=1)
        )
        sinks = self._sinks(f"glide_run.{number}", test, (block, readings), mass)
        return Reduced(test, "timed_glides", tuple(readings), sinks, None, speeds=speeds)

    def _sinks(
        self, name: str, test: FlightTest, flown: tuple[TimedDescents, Sequence[Run]], mass: Quantity
    ) -> tuple[Figure, ...]:
        """Reduce the sinks of descents to a mass, at sea level in standard air."""
        block, readings = flown
        motion = next(one for one in shared_errors(test.shared_errors) if one.name == "air_motion")
        error = estimated_as_nothing(f"{motion.words}, {test.date}", motion.standard)
        stated = test.shared_errors and test.shared_errors.place_of_key("air_motion")
        moved = Input(motion.words, "speed", error, (motion.stated and stated) or cite("practice"))
        what = "glide" if name.startswith("glide") else "descent"
        masses = {"m_t": given(block.at_mass, "mass of the test"), "m": given(mass, "mass it is brought to")}
        return tuple(
            evaluate(
                reduction.sink_of_descent, f"{name}.{run}",
                f"Sink of {what} {run} of {test.date}, sea level, standard air", "speed",
                {
                    "h_1": given(reading["from_height"], "height where it begins"),
                    "h_2": given(reading["to_height"], "height where it ends"),
                    "t": given(reading["time"], "time"),
                    "T": given(reading["temperature"], "temperature"),
                    **masses, "dw": moved,
                },
                style="vertical_speed",
            )
            for run, reading in enumerate(readings, start=1)
        )  # fmt: skip

    def _level(self, number: int, test: FlightTest) -> Reduced:
        block = test.level_runs
        assert block is not None
        readings = self.flights.runs(number, "level_runs", block)
        runs = []
        for run, reading in enumerate(readings, start=1):
            words, name = f"Level run {run} of {test.date}", f"level_run.{number}.{run}"
            if block.held_by == "control":
                runs.append(self.flights.speed(number, name, f"{words}, calibrated", reading))
                continue
            speed = self.flights.speed(number, f"{name}.calibrated", f"{words}, calibrated", reading)
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
            estimated_as_nothing(f"scatter of the {words} of {test.date}", scatter / sqrt(len(runs))),
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
        value, mean = stated[0].value if stated else None, one.mean
        if mean is None or value is None or value.kind != "speed":
            return
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
