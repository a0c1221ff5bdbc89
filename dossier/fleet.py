"""Many serials of one project, made together: every problem of every serial is told at once."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from dossier.dossier import Dossier
from dossier.findings import Finding, Rejected
from dossier.pipeline import load_checked, make


def make_all(project_folder: Path, serials: Sequence[str] | None, as_of: date | None) -> tuple[Dossier, ...]:
    """Make the dossier of each serial that was asked for, or of all.

    Raises:
        Rejected: with every problem of every serial.
    """
    project = load_checked(project_folder, list(serials) if serials else None)
    if not project.serials:
        raise Rejected(
            [
                Finding(
                    "P004",
                    f"the project {project_folder.name!r} has no serial",
                    "write serials/0001/record.yaml",
                )
            ]
        )
    made: list[Dossier] = []
    findings: list[Finding] = []
    for number in project.serials:
        try:
            made.append(make(project, number, as_of))
        except Rejected as rejected:
            findings += rejected.findings
    if findings:
        raise Rejected(findings)
    return tuple(made)
