"""JSON Schema for each kind of file, so that an editor completes and checks while the builder types."""

from __future__ import annotations

from typing import Any

from dossier.project import KINDS_OF_FILE

DRAFT = "https://json-schema.org/draft/2020-12/schema"
FILES = {
    "aircraft": "aircraft.yaml",
    "assembly": "assembly.yaml",
    "battery": "battery.yaml",
    "compliance": "compliance.yaml",
    "event": "serials/*/events/*.yaml",
    "hazards": "hazards.yaml",
    "maintenance": "maintenance.yaml",
    "procedure": "procedures/*.yaml",
    "record": "serials/*/record.yaml",
    "rigging": "rigging.yaml",
    "rule-set": "rule_sets/*.yaml",
    "trailer": "trailer.yaml",
}
"""Kind of file -> where it stands in a project."""


def schemas() -> dict[str, dict[str, Any]]:
    """Return the schema of each kind of file by its name."""
    return {
        name: {"$schema": DRAFT} | model.model_json_schema() | {"title": f"dossier: {FILES[name]}"}
        for name, model in KINDS_OF_FILE.items()
    }
