"""Claims of stall, least sink and glide ratio, held against the wing that they need. All in SI, sea level.

From a parabolic polar: claims that fail are wrong for any parabola; the last tenth near the stall is soft.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from dossier.compute.energy import STANDARD_GRAVITY
from dossier.compute.polar import aspect_ratio
from dossier.compute.stall import lift_coefficient, stall_speed
from dossier.judge.identities_of_flight import SINK_OF_PARABOLA
from dossier.judge.identity import Identity, compared, needing

G = STANDARD_GRAVITY


def stall_claim(speed: float, *, mass: float, area: float, flaps: bool = False) -> Identity:
    """Hold a calibrated stalling speed against mass and area: which lift coefficient does it need?"""
    needed = lift_coefficient(mass, area, speed, g=G)
    name = "stall_flapped" if flaps else "stall_clean"
    return needing(name, speed, needed, lambda C_L: stall_speed(mass, area, C_L, g=G))


def aspect_ratio_claim(ratio: float, *, span: float, area: float) -> Identity:
    """Hold an aspect ratio against span and area."""
    return compared("aspect_ratio", ratio, aspect_ratio(span, area))


def drag_area_claim(glide_ratio: float, *, span: float) -> Identity:
    """Hold a best glide ratio against the span: how small must the drag area be, even with an ideal wing?"""
    return needing("drag_area", glide_ratio, pi * (span / (2 * glide_ratio)) ** 2,
                   lambda area: span / 2 * sqrt(pi / area))  # fmt: skip


@dataclass(frozen=True)
class Wing:
    """What is claimed of the wing."""

    mass: float
    area: float
    span: float


@dataclass(frozen=True)
class Polar:
    """The parabola that a best glide ratio and a least sink need."""

    best_glide_speed: float
    least_sink_speed: float
    lift: float
    """Lift coefficient at the best glide."""
    zero_lift_drag: float
    oswald: float


def needed_polar(glide_ratio: float, least_sink: float, wing: Wing) -> Polar:
    """Return the parabola that a best glide ratio and a least sink in m/s need.

    Raises:
        OutsideRange: a number that is not positive.
    """
    v = glide_ratio * least_sink / SINK_OF_PARABOLA
    C_L = lift_coefficient(wing.mass, wing.area, v, g=G)
    e = 2 * glide_ratio * C_L / (pi * aspect_ratio(wing.span, wing.area))
    return Polar(v, 3**-0.25 * v, C_L, C_L / (2 * glide_ratio), e)


def oswald_claim(least_sink: float, *, glide_ratio: float, wing: Wing) -> Identity:
    """Hold a least sink against glide ratio, mass and span: which Oswald factor does it need?"""
    e = needed_polar(glide_ratio, least_sink, wing).oswald
    return needing("oswald", least_sink, e, lambda end: least_sink * sqrt(e / end))


def lift_at_least_sink_claim(least_sink: float, *, glide_ratio: float, wing: Wing) -> Identity:
    """Hold a least sink against glide ratio, mass and area: which lift coefficient is flown at its speed?"""
    C_L = sqrt(3) * needed_polar(glide_ratio, least_sink, wing).lift
    return needing("lift_at_least_sink", least_sink, C_L, lambda end: least_sink * sqrt(C_L / end))


def zero_lift_drag_claim(glide_ratio: float, *, least_sink: float, wing: Wing) -> Identity:
    """Hold a best glide ratio against least sink, mass and area: which zero-lift drag does it need?"""
    C_D0 = needed_polar(glide_ratio, least_sink, wing).zero_lift_drag
    return needing("zero_lift_drag", glide_ratio, C_D0, lambda end: glide_ratio * (C_D0 / end) ** (1 / 3))


def least_possible_sink(mass: float, span: float, glide_ratio: float, area: float) -> float:
    """Return the least sink in m/s that an ideal wing of this span and area has at this best glide ratio.

    Valid: parabola, Oswald factor 1. Source: derived.
    """
    found = needed_polar(glide_ratio, 1.0, Wing(mass, area, span))
    return sqrt(found.oswald)
