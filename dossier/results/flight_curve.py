"""The drag polar as points of a drawing: sink against speed, with its uncertainty."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dossier.compute import polar
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY
from dossier.compute.energy import GRAVITY
from dossier.compute.glide import drag
from dossier.figures import Input, given, nominal, propagate, spread, taken
from dossier.model.aircraft import Aircraft
from dossier.results.flight_figures import DENSITY
from dossier.results.flight_polar import PolarInUse
from dossier.results.flight_tables import Fastest

POINTS = 33
"""Of the curve."""
FURTHEST = 2.0
"""Times the speed of the best glide: where a curve without a limit of speed ends."""


@dataclass(frozen=True)
class CurvePoint:
    """One point: calibrated speed, sink and its standard uncertainty, all in m/s."""

    speed: float
    sink: float
    standard_uncertainty: float


def curve(in_use: PolarInUse, aircraft: Aircraft, limit: Fastest | None) -> tuple[CurvePoint, ...]:
    """Draw the polar at the mass of ``glide``, from 1.1 times the stall to the limit of speed."""
    at = drag(in_use.polar, aircraft.glide.at_mass.value, SEA_LEVEL_DENSITY)
    slowest, furthest = float(at.slowest), FURTHEST * float(at.best_glide_speed)
    end = min(furthest, limit.speed) if limit and limit.speed > slowest else max(furthest, slowest)
    return tuple(_point(float(speed), in_use, aircraft) for speed in np.linspace(slowest, end, POINTS))


def _point(speed: float, in_use: PolarInUse, aircraft: Aircraft) -> CurvePoint:
    sink = propagate(
        polar.sink_rate,
        {
            "v": Input("speed", "speed", speed, "a point of the curve"),
            "m": given(aircraft.glide.at_mass, "mass of the glides"),
            "S": in_use.area,
            "rho": DENSITY,
            "C_D0": taken(in_use.zero_lift),
            "K": taken(in_use.induced),
            "g": GRAVITY,
        },
    )
    return CurvePoint(speed, nominal(sink), spread(sink))
