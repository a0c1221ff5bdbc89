"""The record file that the page of the field list saves, with edits."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from field_list import NAME, write_project

from dossier.compose.edition import edition_words
from dossier.compose.operating.list_text import list_text
from dossier.compose.operating.lists import lists
from dossier.pipeline import run

Tree = dict[str, Any]
FIRST, SECOND = "A. Builder", "B. Second"
DAY = "2026-06-01"


@cache
def _as_shipped() -> str:
    with TemporaryDirectory() as folder:
        dossier = run(write_project(Path(folder) / "project"), "0001")
    (one,) = [one for one in lists(dossier) if one.name == NAME]
    said = list_text(dossier, one)
    ticks = [
        {
            "tick": tick.name, "kind": tick.kind, "text": tick.text,
            "done": f"{DAY}T09:{minute:02d}:00+02:00", "by": SECOND if tick.kind == "second-check" else FIRST,
        }
        for minute, tick in enumerate(said.ticks)
    ]  # fmt: skip
    return json.dumps({
        "format": "dossier-list/1", "type": str(dossier.project.aircraft.identification.name),
        "serial_number": "0001", "edition": edition_words(dossier), "as_of": dossier.state.as_of.isoformat(),
        "procedure": NAME, "title": said.title, "digest": said.digest, "people": [FIRST, SECOND],
        "started": ticks[0]["done"], "saved": f"{DAY}T10:00:00+02:00", "ticks": ticks, "open": [],
        "taken_back": [],
    })  # fmt: skip


def completed() -> Tree:
    """Give the whole list, each tick made by the right person."""
    made: Tree = json.loads(_as_shipped())
    return made


def tick(made: Tree, name: str) -> Tree:
    """Find one tick."""
    (found,) = [one for one in made["ticks"] if one["tick"] == name]
    return found


def leave_open(made: Tree, *names: str) -> None:
    """Take the ticks off."""
    for name in names:
        del tick(made, name)["done"], tick(made, name)["by"]
    made["open"] = [one["tick"] for one in made["ticks"] if "done" not in one]


def saved(folder: Path, made: Tree) -> Path:
    """Save it as the browser does."""
    file = folder / "list-0001.json"
    file.write_text(json.dumps(made, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    return file
