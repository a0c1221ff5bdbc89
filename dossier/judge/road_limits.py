"""The road limits that the tool ships."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from dossier.model.road_limits import RoadLimits
from dossier.model.validation import validate
from dossier.read.yaml_text import read_yaml

FILE = Path(__file__).with_name("road_limits.yaml")


@cache
def known_road_limits() -> RoadLimits:
    """Read the limits of size on the road.

    Raises:
        Rejected: the file is broken.
    """
    return validate(RoadLimits, read_yaml(FILE, f"dossier/judge/{FILE.name}"))
