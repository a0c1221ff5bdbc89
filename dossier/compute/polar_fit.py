"""The drag polar from measured glides: weighted least squares, and all that can be wrong with the points.

    w = a v³ + b / v      a = rho_0 S C_D0 / (2 m g)      b = 2 K m g / (rho_0 S)

The points are at one mass and at sea level in the standard atmosphere (:mod:`dossier.compute.reduction`).
What differs from point to point goes into their weights, an error of speed through the slope of the polar
(effective variance). What all points share leaves no trace in the residuals, so each such error is a term of
its own: the fit is made again with all points moved. Drag and induced drag come out correlated, so the
covariance is carried, never two separate ±.

1000 invented campaigns in the tests: 95 % intervals cover between 92 and 98 %.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import pi, sqrt

import numpy as np

from dossier.compute.atmosphere import SEA_LEVEL_DENSITY
from dossier.compute.bounds import not_negative, positive
from dossier.compute.curve import Array
from dossier.compute.energy import STANDARD_GRAVITY
from dossier.figures import Input, OutsideRange, error_source

ROUNDS = 6
"""Of weights made from the slope of the last fit."""
SCATTER = "scatter of the glides"


@dataclass(frozen=True)
class GlidePoint:
    """One measured glide, reduced. Standard uncertainties hold what differs from glide to glide."""

    speed: float
    """Calibrated, in m/s."""
    sink: float
    """In m/s."""
    speed_uncertainty: float
    sink_uncertainty: float
    sink_step: float = 0.0
    """Last printed digit of a published sink, in m/s; 0 for a measured one."""


@dataclass(frozen=True)
class CommonErrors:
    """Standard uncertainties that all glides of a session share."""

    air_motion: float
    """In m/s: unseen rise or fall of the air; 0.05 to 0.10 for a calm morning (own judgement)."""
    speed_scale: float
    """Relative error of the airspeed calibration."""
    mass: float
    """Relative."""
    density: float
    """Relative; speeds are calibrated, so it moves the sinks only."""


@dataclass(frozen=True)
class Reference:
    """To what the glides are reduced, and the wing."""

    mass: float
    """In kg."""
    area: float
    """In m²."""
    aspect_ratio: float


@dataclass(frozen=True, eq=False)
class PolarFit:
    """A fitted polar. Matrices are of (C_D0, K)."""

    zero_lift_drag: float
    induced: float
    reference: Reference
    random: Array
    """Covariance from the scatter of the glides, shape (2, 2)."""
    shifts: Mapping[str, Array]
    """What one standard uncertainty of each common error moves, shape (2,)."""
    chi_square: float
    points: tuple[GlidePoint, ...]

    @property
    def covariance(self) -> Array:
        """All errors together, shape (2, 2)."""
        return np.asarray(self.random + sum(np.outer(shift, shift) for shift in self.shifts.values()))

    @property
    def correlation(self) -> float:
        """Of C_D0 and K."""
        V = self.covariance
        return float(V[0, 1] / sqrt(V[0, 0] * V[1, 1]))

    @property
    def oswald(self) -> float:
        """Oswald factor; above 1 the air or the airspeed was not what was thought."""
        return 1 / (pi * self.induced * self.reference.aspect_ratio)

    @property
    def best_glide_ratio(self) -> float:
        """In still air."""
        return 1 / (2 * sqrt(self.zero_lift_drag * self.induced))

    @property
    def best_glide_speed(self) -> float:
        """Calibrated, at the reference mass, in m/s."""
        pressure = 2 * self.reference.mass * STANDARD_GRAVITY / (SEA_LEVEL_DENSITY * self.reference.area)
        return sqrt(pressure * sqrt(self.induced / self.zero_lift_drag))

    @property
    def least_sink_speed(self) -> float:
        """Of the parabola, calibrated, at the reference mass, in m/s."""
        return float(3**-0.25 * self.best_glide_speed)

    def estimates(self) -> tuple[Input, Input]:
        """Return C_D0 and K as inputs of figures: whatever is made of both carries their correlation."""
        root = np.linalg.cholesky(self.random)
        sources = [(SCATTER, root[:, 0]), (SCATTER, root[:, 1]), *sorted(self.shifts.items())]
        C_D0, K = self.zero_lift_drag, self.induced
        for label, (move_C, move_K) in sources:
            one = error_source(label, 1.0)
            C_D0, K = C_D0 + float(move_C) * one, K + float(move_K) * one
        origin = f"fit to {len(self.points)} glides"
        zero_lift = Input("zero-lift drag coefficient", "number", C_D0, origin)
        return zero_lift, Input("induced drag factor", "number", K, origin)


def fit(points: Sequence[GlidePoint], reference: Reference, common: CommonErrors) -> PolarFit:
    """Fit the drag polar. What is doubtful about the result says :mod:`dossier.compute.polar_fit_doubts`.

    Raises:
        OutsideRange: fewer than two speeds; a speed, a sink or its uncertainty that is not positive; sinks
        that
            no parabola has, because a drag comes out that is not positive.

    Valid: speeds from 1.1 times the stall; one configuration. Source: derived.
    """
    table = _table(points)
    scale = _scale(reference)
    best, inverse, chi_square = _solve(table)
    if not (best > 0).all():
        raise OutsideRange(
            f"the glides give no drag polar: zero-lift drag coefficient {best[0] * scale[0]:.4g}, "
            f"induced drag factor {best[1] * scale[1]:.4g}; look for air motion or a wrong speed"
        )
    C_D0, K = best * scale
    return PolarFit(
        float(C_D0), float(K), reference, np.asarray(inverse * np.outer(scale, scale)),
        _shifts(table, common, scale), chi_square, tuple(points),
    )  # fmt: skip


def _table(points: Sequence[GlidePoint]) -> Array:
    """Return rows of speed, sink and their uncertainties."""
    if len({point.speed for point in points}) < 2:
        raise OutsideRange(f"{len(points)} glides at one speed give no polar; fly two speeds at the least")
    for point in points:
        positive(point.speed, "speed of a glide", "m/s")
        positive(point.sink, "sink of a glide", "m/s")
        positive(point.sink_uncertainty, "uncertainty of the sink of a glide", "m/s")
        not_negative(point.speed_uncertainty, "uncertainty of the speed of a glide", "m/s")
    return np.array([[p.speed, p.sink, p.speed_uncertainty, p.sink_uncertainty] for p in points]).T


def _scale(reference: Reference) -> Array:
    """Return what turns (a, b) into (C_D0, K)."""
    weight = positive(reference.mass, "mass", "kg") * STANDARD_GRAVITY
    half = SEA_LEVEL_DENSITY * positive(reference.area, "wing area", "m²") / 2
    positive(reference.aspect_ratio, "aspect ratio")
    return np.array([weight / half, half / weight])


def _solve(table: Array) -> tuple[Array, Array, float]:
    """Return (a, b), their covariance and the sum of squares over variance."""
    v, w, u_v, u_w = table
    design = np.column_stack([v**3, 1 / v])
    best = np.zeros(2)
    for _ in range(ROUNDS):
        slope = 3 * best[0] * v**2 - best[1] / v**2
        sigma = np.sqrt(u_w**2 + (slope * u_v) ** 2)
        weighted = design / sigma[:, None]
        size = np.linalg.norm(weighted, axis=0)  # v³ and 1/v are eight powers of ten apart
        best = np.linalg.lstsq(weighted / size, w / sigma, rcond=None)[0] / size
    scaled = weighted / size
    covariance = np.linalg.inv(scaled.T @ scaled) / np.outer(size, size)
    return best, covariance, float((((design @ best - w) / sigma) ** 2).sum())


def _shifts(table: Array, common: CommonErrors, scale: Array) -> dict[str, Array]:
    v, w, u_v, u_w = table

    def move(error: float, v_of: float, w_of: float, lift: float = 0.0) -> Array:
        if not not_negative(error, "common error of the glides"):
            return np.zeros(2)
        up, down = (
            _solve(np.array([v * (1 + d * v_of), w * (1 + d * w_of) + d * lift, u_v, u_w]))[0]
            for d in (error, -error)
        )
        return np.asarray((up - down) / 2 * scale)

    return {
        "motion of the air": move(common.air_motion, 0.0, 0.0, 1.0),
        "scale of the airspeed": move(common.speed_scale, 1.0, 0.0),
        "mass of the glides": move(common.mass, -0.5, -0.5),
        "density of the air": move(common.density, 0.0, 0.5),
    }
