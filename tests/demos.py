"""The demonstration projects, made once in a test process."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from dossier.dossier import Dossier
from dossier.fleet import make_all
from dossier.project import serial_numbers

PROJECTS = Path(__file__).resolve().parents[1] / "projects"
NAMES = tuple(sorted(path.parent.name for path in PROJECTS.glob("*/aircraft.yaml")))
SERIALS = tuple((name, number) for name in NAMES for number in serial_numbers(PROJECTS / name))
"""Project and serial number of every demonstration aircraft."""


@cache
def demo(project: str) -> Mapping[str, Dossier]:
    """Make every serial of one demonstration project, by serial number."""
    return {str(made.record.serial_number): made for made in make_all(PROJECTS / project, None, None)}
