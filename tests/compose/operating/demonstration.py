"""The demonstration projects as dossiers, and dossiers with one thing changed."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from dossier import pipeline
from dossier.dossier import Dossier
from dossier.model.aircraft import Limit
from dossier.model.procedure import Procedure
from dossier.quantities import parse

PROJECTS = Path(__file__).parents[3] / "projects"
SERIALS = (("quillet-e1", "0003"), ("barrow-t2", "T2-007"))


@cache
def demonstration(project: str, serial: str) -> Dossier:
    """Make the dossier of a demonstration serial, once."""
    return pipeline.run(PROJECTS / project, serial)


def quillet() -> Dossier:
    """US units first, indicator in knots."""
    return demonstration(*SERIALS[0])


def barrow() -> Dossier:
    """SI units first, indicator in miles an hour."""
    return demonstration(*SERIALS[1])


def with_type(dossier: Dossier, **changes: Any) -> Dossier:
    """Change parts of the type's file."""
    aircraft = dossier.project.aircraft.model_copy(update=changes)
    return replace(dossier, project=replace(dossier.project, aircraft=aircraft))


def with_limit(dossier: Dossier, name: str, value: str, kind: str) -> Dossier:
    """Give one limit another value."""
    limits = dossier.project.aircraft.limits
    changed: Limit = limits[name].model_copy(update={"value": parse(value, kind)})
    return with_type(dossier, limits={**limits, name: changed})


def with_procedures(dossier: Dossier, **procedures: Procedure) -> Dossier:
    """Put other procedures in the place of the type's; ``_`` in a name stands for ``-``."""
    named = {name.replace("_", "-"): procedure for name, procedure in procedures.items()}
    return replace(dossier, project=replace(dossier.project, procedures=named))


def without(dossier: Dossier, *items: str) -> Dossier:
    """Leave out just these items of the type's list."""
    return replace(dossier, state=replace(dossier.state, left_out=frozenset(items)))


def procedure(**parts: Any) -> Procedure:
    """Make a procedure; sections may be left out."""
    base: dict[str, Any] = {
        "title": "Sample work", "kind": "rigging", "purpose": "For the test.", "people": 1,
        "tools": [], "loose_items": [], "hazards": [], "order": 50,
        "duration": None, "closing": "The work is complete.", "sections": [],
    }  # fmt: skip
    return Procedure.model_construct(**{**base, **parts})
