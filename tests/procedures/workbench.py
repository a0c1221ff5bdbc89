"""The small project of this folder, with edits: so that a test shows only what it breaks."""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from dossier.findings import Finding, Severity
from dossier.judge.rule_sets import known_rule_sets
from dossier.procedures.verify import Verification, verify
from dossier.project import load
from dossier.references import check
from dossier.starter import TEMPLATE

BENCH = Path(__file__).parent / "bench"
RIG, DERIG, PREFLIGHT = "procedures/rig.yaml", "procedures/derig.yaml", "procedures/preflight.yaml"
AFTER = "procedures/after.yaml"
MODEL = "rigging.yaml"


@dataclass(frozen=True)
class Edit:
    """A text of a file that is replaced, once; the text must be there."""

    file: str
    old: str
    new: str


def written(folder: Path, *edits: Edit, absent: Iterable[str] = ()) -> Path:
    """Write the project with edits, and without some files."""
    project = folder / "bench"
    shutil.copytree(BENCH, project)
    for name in ("aircraft.yaml", "battery.yaml", "compliance.yaml"):
        text = (TEMPLATE / name).read_text("utf-8")
        (project / name).write_text(text, "utf-8")
    for edit in edits:
        path = project / edit.file
        text = path.read_text("utf-8")
        assert edit.old in text, f"{edit.file} does not hold {edit.old!r}"
        path.write_text(text.replace(edit.old, edit.new, 1), "utf-8")
    for name in absent:
        (project / name).unlink()
    return project


def verified(folder: Path, *edits: Edit) -> Verification:
    """Write the project with edits, and verify it with nothing left out."""
    return verify(load(written(folder, *edits), ()), ())


def findings(folder: Path, *edits: Edit, absent: Iterable[str] = ()) -> tuple[Finding, ...]:
    """Return what a builder is told of the procedures: references that lead nowhere, else what they leave
    open and what the verifier finds."""
    project = load(written(folder, *edits, absent=absent), ())
    told = check(project, known_rule_sets())
    wrong = tuple(one for one in told if one.severity is Severity.ERROR)
    return wrong or (*(one for one in told if one.code.startswith("V")), *verify(project, ()).findings)


def step(text: str, file: str = RIG) -> str:
    """Return a whole step of a file of the bench, from its first line to the line before the next one."""
    content = (BENCH / file).read_text("utf-8")
    start = content.index(f"      - do: {text}")
    lines = content[start:].split("\n")
    length = next(i for i, line in enumerate(lines) if i and not line.startswith("        "))
    return "\n".join(lines[:length]) + "\n"


def without(file: str, text: str) -> Edit:
    """Leave a step out."""
    return Edit(file, step(text, file), "")


def swapped(file: str, first: str, second: str) -> Edit:
    """Put a step behind the one that follows it."""
    one, two = step(first, file), step(second, file)
    return Edit(file, one + two, two + one)
