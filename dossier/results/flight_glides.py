"""Measured glides of a flight test: brought to one mass and to sea level, with what all of them share."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from dossier import units
from dossier.compute import performance, reduction
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY, air_density, standard_pressure
from dossier.compute.performance import speed_at_mass
from dossier.compute.polar_fit import CommonErrors, GlidePoint
from dossier.compute.reduction import sink_at_standard
from dossier.figures import Figure, Input, evaluate, given, propagate, taken
from dossier.findings import Place
from dossier.model.events import FlightTest
from dossier.model.flight_runs import SPEED, TimedDescents
from dossier.model.glides import MeasuredGlide, SharedErrors
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.results.airspeed import Flights
from dossier.results.reduced_runs import Run


@dataclass(frozen=True)
class SharedError:
    """One error that all glides of a session share, as the fit took it."""

    name: str
    words: str
    expanded: float
    """Expanded uncertainty, k = 2: in m/s for the motion of the air, else relative."""
    kind: str
    stated: bool
    """True where the record says it, false where the usual value stands."""

    @property
    def standard(self) -> float:
        """The standard uncertainty."""
        return self.expanded / COVERAGE_FACTOR


USUAL = (
    SharedError("air_motion", "unseen rise or fall of the air", 0.15, "speed", False),
    SharedError("airspeed_scale", "calibration of the airspeed", 0.02, "ratio", False),
    SharedError("mass", "mass of the aircraft", 0.01, "ratio", False),
    SharedError("density", "density of the air", 0.01, "ratio", False),
)
"""Own judgement, for a calm morning, an indicator calibrated over the ground, a weighed aircraft, and an
altimeter and a thermometer that were read. A builder who knows better writes ``shared_errors``."""


def latest_glides(flights: Flights) -> tuple[int, FlightTest] | None:
    """Return the latest flight test that measured glides, and its number."""
    found = [(number, test) for number, test in flights.tests() if test.glide_points or test.timed_glides]
    return found[-1] if found else None


def glides_place(test: FlightTest) -> Place | None:
    """Return where the glides of a test stand in the record."""
    return test.place_of_key("timed_glides" if test.timed_glides else "glide_points")


def glide_points(flights: Flights, number: int, test: FlightTest, mass: Quantity) -> tuple[GlidePoint, ...]:
    """Return the glides of a test at one mass and at sea level in the standard atmosphere.

    Raises:
        OutsideRange: a reading outside the atmosphere of this tool, or a speed that cannot be calibrated.
    """
    block = test.timed_glides
    if block is None:
        return tuple(reduced(test.glide_points, mass.value))
    readings = flights.runs(number, "timed_glides", block)
    return tuple(
        _timed(reading, glide_speed(flights, number, run, (reading, block.at_mass, mass)), block, mass)
        for run, reading in enumerate(readings, start=1)
    )


def glide_speed(flights: Flights, number: int, run: int, flown: tuple[Run, Quantity, Quantity]) -> Figure:
    """Make the calibrated speed of a glide, carried from the mass of the test to another.

    Args:
        flights: with the calibration of the airspeed.
        number: of the flight test.
        run: of the glide in it, from 1.
        flown: readings of the run, mass of the test, the other mass.
    """
    reading, own, mass = flown
    name, label = f"glide_run.{number}.{run}", f"Speed of glide {run}, flight test {number}"
    flown_at = flights.speed(number, f"{name}.flown", f"{label}, calibrated", reading)
    return evaluate(
        performance.speed_at_mass, f"{name}.speed", f"{label}, calibrated, at {mass.text}", "speed",
        {
            "v_ref": taken(flown_at),
            "m": given(mass, "mass it is brought to"),
            "m_ref": given(own, "mass of the test"),
        },
    )  # fmt: skip


def _timed(reading: Run, speed: Figure, block: TimedDescents, mass: Quantity) -> GlidePoint:
    """Take as its own ± what was read in this glide: calibration, mass and motion of the air are shared."""
    read = {
        "h_1": given(reading["from_height"], "height where it begins"),
        "h_2": given(reading["to_height"], "height where it ends"),
        "t": given(reading["time"], "time"),
        "T": given(reading["temperature"], "temperature"),
    }
    exact = {
        name: Input(name, kind, value, "exact here")
        for name, kind, value in (
            ("m_t", "mass", block.at_mass.value), ("m", "mass", mass.value), ("dw", "speed", 0.0)
        )
    }  # fmt: skip
    sink = propagate(reduction.sink_of_descent, read | exact)
    own = 0.0 if isinstance(sink, float) else float(sink.std_dev)
    (shown,) = (reading[key] for key in SPEED if key in reading)
    slower = performance.speed_at_mass(1.0, mass.value, block.at_mass.value)
    value = sink if isinstance(sink, float) else float(sink.nominal_value)
    return GlidePoint(speed.value, value, shown.standard_uncertainty * slower, own)


def shared_errors(stated: SharedErrors | None) -> tuple[SharedError, ...]:
    """Take each error from the record, or the usual one."""
    return tuple(_stated_or_usual(stated, usual) for usual in USUAL)


def _stated_or_usual(stated: SharedErrors | None, usual: SharedError) -> SharedError:
    quantity: Quantity | None = getattr(stated, usual.name) if stated else None
    if quantity is None:
        return usual
    return SharedError(usual.name, usual.words, quantity.value, usual.kind, True)


def common_errors(errors: tuple[SharedError, ...]) -> CommonErrors:
    """Turn them into what the fit takes."""
    return CommonErrors(*(error.standard for error in errors))


def reduced(points: list[MeasuredGlide], mass: float) -> Iterator[GlidePoint]:
    """Bring glides to a mass in kg and to sea level in the standard atmosphere.

    Raises:
        OutsideRange: a pressure altitude outside the atmosphere of this tool.
    """
    for point in points:
        own = point.at_mass.value if point.at_mass else mass
        slower = speed_at_mass(1.0, mass, own)  # a calibrated speed does not change with the air
        less = sink_at_standard(1.0, own, mass, _density(point))
        yield GlidePoint(
            point.speed.value * slower,
            point.sink.value * less,
            point.speed.standard_uncertainty * slower,
            point.sink.standard_uncertainty * less,
            printed_step(point.sink) * less,
        )


def _density(point: MeasuredGlide) -> float:
    if point.pressure_altitude is None or point.temperature is None:
        return SEA_LEVEL_DENSITY
    return air_density(standard_pressure(point.pressure_altitude.value), point.temperature.value)


def printed_step(quantity: Quantity) -> float:
    """Return the step of the last digit that was written, in SI: 0.1 m/s for ``0.8 m/s``."""
    number = re.match(r"[-+]?[0-9]*\.?([0-9]*)", quantity.text)
    decimals = len(number[1]) if number else 0
    return float(units.scale(quantity.kind, quantity.unit)[0] * 10.0**-decimals)
