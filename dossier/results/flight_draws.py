"""Climb to a height and top speed there as draws of all errors: near a ceiling no slope describes them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from dossier.compute.atmosphere import air
from dossier.compute.climb import climb_to, heights
from dossier.compute.flight_outcome import OBSTACLES, Answers, Obstacle
from dossier.compute.glide import Polars
from dossier.compute.level import top_speed
from dossier.figures import Figure, Input
from dossier.halton import COUNT, Array
from dossier.results.flight_polar import PolarInUse
from dossier.sampling import Column, Draws, Refusal, Sampled


@dataclass(frozen=True)
class ClimbDraws:
    """One height: what draws say of the three values of a row."""

    time: Sampled
    energy: Sampled
    top_speed: Sampled


@dataclass(frozen=True)
class Flying:
    """What a climb rests on besides the polar; each with its errors."""

    power: Input
    """Of the pack at full throttle."""
    drive: Figure
    mass: Figure | Input


def climb_draws(in_use: PolarInUse, flying: Flying, pressure_heights: Array) -> Iterator[ClimbDraws]:
    """Climb from sea level to each height in all draws, and fly level there.

    A draw whose numbers make no wing or no drive has no answer.

    Args:
        in_use: the polar.
        flying: power, drive and mass.
        pressure_heights: in m.
    """
    parts = (
        flying.power,
        flying.drive,
        in_use.zero_lift,
        in_use.induced,
        in_use.lift_maximum,
        flying.mass,
        in_use.area,
    )
    draws = Draws(parts)
    columns = {id(part): np.broadcast_to(draws.of(part).values, COUNT) for part in parts}
    power, drive, zero_lift, induced, lift, mass, area = (columns[id(part)] for part in parts)
    valid = np.logical_and.reduce([column > 0 for column in columns.values()]) & (drive <= 1)
    wings = Polars(zero_lift[valid], induced[valid], area[valid], lift[valid])
    thrust, spent, loads = (power * drive)[valid], power[valid], mass[valid]
    for height in pressure_heights.tolist():
        way = climb_to(wings.along(1), thrust, 1.0, loads, heights(0.0, height))
        level = top_speed(wings, thrust, loads, air(height).density)
        time = way.computed["time"]
        yield ClimbDraws(
            _sampled(time, way, valid),
            _sampled(spent * time, way, valid),
            _sampled(level.computed["speed"], level, valid),
        )


def _sampled(values: Array, answer: Answers, valid: Array) -> Sampled:
    """Put the answers back to their draws."""
    found = np.full(COUNT, np.nan)
    found[valid] = np.where(answer.answered, values, np.nan)
    lost = np.flatnonzero(np.isnan(found))
    if not lost.size:
        return Column(found).sampled()
    obstacles = np.zeros(COUNT, np.int64)
    obstacles[valid] = answer.obstacle
    state = OBSTACLES.get(Obstacle(int(obstacles[lost[0]])), "the numbers make no wing and no drive")
    return Column(found, Refusal(int(lost[0]), state, state)).sampled()
