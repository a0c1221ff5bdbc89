"""A small project to begin with: every value is invented and waits for the builder's own."""

from __future__ import annotations

import shutil
from pathlib import Path

from dossier.findings import Finding, Rejected

TEMPLATE = Path(__file__).parent / "project"


def write_starter(folder: Path) -> tuple[Path, ...]:
    """Write the starter project.

    Args:
        folder: a folder that does not exist yet.

    Returns:
        the files written, in order of their names.

    Raises:
        Rejected: the folder exists, and nothing is written into it.
    """
    if folder.exists():
        raise Rejected(
            [
                Finding(
                    "P005",
                    f"{folder} exists already",
                    "name a folder that does not exist yet: the tool never writes over a record",
                )
            ]
        )
    shutil.copytree(TEMPLATE, folder)
    return tuple(sorted(path for path in folder.rglob("*") if path.is_file()))
