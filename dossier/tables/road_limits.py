"""Limits of size on the road, each with its source."""

from __future__ import annotations

from functools import cache

from dossier.model.road_limits import RoadLimits
from dossier.tables.columns import read_table


@cache
def known_road_limits() -> RoadLimits:
    """Read the limits of size on the road.

    Raises:
        Rejected: the file is broken.
    """
    table: RoadLimits = read_table(RoadLimits, "road_limits.yaml")
    return table
