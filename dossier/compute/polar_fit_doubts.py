"""What is doubtful about a fitted polar, by name."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from math import sqrt
from types import MappingProxyType

from dossier.compute.polar_fit import PolarFit

FEWEST = 4
"""Different speeds."""
COARSE = 0.02
"""Printed step of a sink over the least sink, from which rounding counts; own choice."""


class Doubt(StrEnum):
    """One thing that is doubtful."""

    OSWALD_ABOVE_ONE = "oswald-above-one"
    BEST_GLIDE_OUTSIDE = "best-glide-outside"
    LEAST_SINK_OUTSIDE = "least-sink-outside"
    FEW_POINTS = "few-points"
    ROUNDED = "rounded"
    SCATTER = "scatter"


WORDS: Mapping[Doubt, str] = MappingProxyType(
    {
        Doubt.OSWALD_ABOVE_ONE: "the Oswald factor comes out above 1: the air moved or the airspeed is wrong",
        Doubt.BEST_GLIDE_OUTSIDE: "the speed of the best glide lies outside the speeds that were flown",
        Doubt.LEAST_SINK_OUTSIDE: "the speed of the least sink lies outside the speeds that were flown",
        Doubt.FEW_POINTS: "fewer than four speeds were flown",
        Doubt.ROUNDED: "the sinks are printed too coarsely for a fit",
        Doubt.SCATTER: "the glides scatter more than their uncertainties allow",
    }
)


def doubts(fitted: PolarFit) -> tuple[Doubt, ...]:
    """List what is doubtful, in the order of :class:`Doubt`."""
    speeds = {point.speed for point in fitted.points}
    free = len(fitted.points) - 2
    present = {
        Doubt.OSWALD_ABOVE_ONE: fitted.oswald > 1,
        Doubt.BEST_GLIDE_OUTSIDE: not min(speeds) <= fitted.best_glide_speed <= max(speeds),
        Doubt.LEAST_SINK_OUTSIDE: not min(speeds) <= fitted.least_sink_speed <= max(speeds),
        Doubt.FEW_POINTS: len(speeds) < FEWEST,
        Doubt.ROUNDED: max(p.sink_step for p in fitted.points) >= COARSE * min(p.sink for p in fitted.points),
        # mean and three standard deviations of chi-square; own choice
        Doubt.SCATTER: free > 0 and fitted.chi_square > free + 3 * sqrt(2 * free),
    }
    return tuple(doubt for doubt in Doubt if present[doubt])
