"""A project written as YAML: the starter project with edits, so that a test states only what matters to
it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

import yaml

from dossier import pipeline
from dossier.dossier import Dossier
from dossier.findings import Rejected
from dossier.starter import TEMPLATE

Tree = dict[str, Any]

SERIAL = "0001"
BUILT = "2026-01-12"


def starter_file(name: str) -> Tree:
    """Read a file of the starter project; every scalar stays text, but true and false."""
    tree: Tree = _with_flags(yaml.load((TEMPLATE / name).read_text("utf-8"), yaml.BaseLoader))
    return tree


def _with_flags(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _with_flags(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_with_flags(item) for item in value]
    return {"true": True, "false": False}.get(value, value)


def _empty_record() -> Tree:
    return {
        "serial_number": SERIAL,
        "build": {"started": BUILT, "built_at": "Sampletown", "design_revision": "1"},
        "events": [],
    }


@dataclass
class Draft:
    """The files of a project as trees, to be edited and then written."""

    aircraft: Tree = field(default_factory=lambda: starter_file("aircraft.yaml"))
    battery: Tree = field(default_factory=lambda: starter_file("battery.yaml"))
    compliance: Tree = field(default_factory=lambda: starter_file("compliance.yaml"))
    record: Tree = field(default_factory=_empty_record)

    @property
    def events(self) -> list[Tree]:
        """The events of the serial, in the order of the file."""
        events: list[Tree] = self.record["events"]
        return events

    def write(self, folder: Path) -> Path:
        """Write the project; hazards and procedures are those of the starter."""
        project = folder / "project"
        serial = project / "serials" / SERIAL
        serial.mkdir(parents=True, exist_ok=True)
        (project / "procedures").mkdir(exist_ok=True)
        lists = [f"procedures/{name}.yaml" for name in ("rigging", "de-rigging", "preflight")]
        for name in ("hazards.yaml", "rigging.yaml", *lists):
            (project / name).write_bytes((TEMPLATE / name).read_bytes())
        for name in ("aircraft", "battery", "compliance"):
            _write(project / f"{name}.yaml", getattr(self, name))
        _write(serial / "record.yaml", self.record)
        return project

    def make(self, folder: Path, as_of: str | None = None) -> Dossier:
        """Write the project and make the dossier of its serial; a refused record shows its findings
        in the test."""
        project = self.write(folder)
        try:
            return pipeline.run(project, SERIAL, date.fromisoformat(as_of) if as_of else None)
        except Rejected as rejected:
            rejected.add_note("\n".join(map(str, rejected.findings)))
            raise


class _Dumper(yaml.SafeDumper):
    """Writes a tree out in full: a record has no aliases."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002 - the name is the base class's
        return True


def _write(path: Path, tree: Tree) -> None:
    text = yaml.dump(tree, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=1000)
    path.write_text(text, "utf-8")


def event(kind: str, on: str, **more: Any) -> Tree:
    """Write an event."""
    return {"event": kind, "date": on, "by": "A. Builder", **more}


def scale(**more: str) -> Tree:
    """Write a scale without any error, unless ``more`` says otherwise."""
    return {
        "name": "Scale",
        "serial_number": "S-1",
        "calibrated": BUILT,
        "certificate": "C-100",
        "maximum_permissible_error": "0 kg",
        "resolution": "0 kg",
        **more,
    }


def support(name: str, *readings: str, arm: str, **more: str) -> Tree:
    """Write a support of a weighing; it stands on the scale ``scale`` unless ``more`` names another."""
    return {"name": name, "scale": "scale", "readings": list(readings), "arm": arm, **more}


def weighing(*supports: Tree, on: str = "2026-03-01", **more: Any) -> Tree:
    """Write a weighing with one errorless scale, unless ``more`` brings its own ``scales``.

    On one support the aircraft hangs: short, and what such a test is about does not depend on it.
    """
    return event(
        "weighing",
        on,
        **{
            "place_of_weighing": "closed hangar",
            "condition": "empty",
            "levelled": "spirit level",
            "scales": {"scale": scale()},
            "supports": list(supports),
            **({"suspended": True} if len(supports) == 1 else {}),
            **more,
        },
    )


def item(name: str, mass: str, arm: str) -> Tree:
    """Write something that is taken off, added, fitted or removed."""
    return {"name": name, "mass": mass, "arm": arm}


def pack_fitted(
    pack: str, mass: str, on: str = "2026-02-01", option: str = "standard-pack", **more: str
) -> Tree:
    """Write that a battery goes in."""
    return event("pack-fitted", on, pack=pack, option=option, mass=mass, **more)


def pack_removed(pack: str, on: str, **more: Any) -> Tree:
    """Write that a battery comes out."""
    return event("pack-removed", on, pack=pack, **more)
