"""Measured glides of a flight test: brought to one mass and to sea level, with what all of them share."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from dossier import units
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY, air_density, standard_pressure
from dossier.compute.performance import speed_at_mass
from dossier.compute.polar_fit import CommonErrors, GlidePoint
from dossier.compute.reduction import sink_at_standard
from dossier.model.events import FlightTest
from dossier.model.glides import MeasuredGlide, SharedErrors
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.replay import State


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


def latest_glides(state: State) -> FlightTest | None:
    """Return the latest flight test that measured glides."""
    found = [test for test in state.of_kind(FlightTest) if test.glide_points]
    return found[-1] if found else None


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
