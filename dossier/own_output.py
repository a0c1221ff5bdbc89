"""An output folder before anything is made: what stands in the way and is not an earlier output
of this tool."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from dossier.findings import Finding, Rejected
from dossier.results_file import FORMAT

INDEX_MARK = '<meta name="generator" content="dossier">'
"""Stands in every index of a fleet, near its top."""
RESULTS_MARK = FORMAT.rpartition("/")[0]
"""How ``format`` of a results.json begins, whichever version wrote it."""
_OURS = {"site", "results.json"}


def refuse_what_is_not_ours(project: Path, out: Path, serials: Sequence[str]) -> None:
    """Refuse an output folder in which a build would delete or overwrite somebody's files.

    Raises:
        Rejected: with everything that stands in the way; nothing was touched.
    """
    if found := [*_where(project, out), *_in_the_way(out, serials)]:
        raise Rejected(found)


def _where(project: Path, out: Path) -> Iterator[Finding]:
    home, place = project.resolve(), out.resolve()
    beside = "name a folder that neither lies in the project nor holds it, such as  --out ../build"
    if place.is_relative_to(home):
        yield Finding(
            "P060",
            f"the output folder {str(out)!r} lies in the project, where it would mix with the record",
            beside,
        )
    elif home.is_relative_to(place):
        yield Finding("P060", f"the output folder {str(out)!r} holds the project", beside)
    if os.path.lexists(out) and not out.is_dir():
        yield Finding("P061", f"{str(out)!r} is no folder", "name another output folder")


def _in_the_way(out: Path, serials: Sequence[str]) -> Iterator[Finding]:
    for number in serials:
        place = out / number
        if os.path.lexists(place) and not _is_ours(place, number):
            yield Finding(
                "P061",
                f"{str(place)!r} is there and was not written by this command as the dossier of {number}",
                "name another output folder, or move it away: nothing is deleted that the tool did not write",
            )
    index = out / "index.html"
    if os.path.lexists(index) and not _is_our_index(index):
        yield Finding(
            "P061",
            f"{str(index)!r} is there and is no index that this command wrote",
            "name another output folder, or move it away: nothing is overwritten that the tool did not write",
        )


def _is_ours(place: Path, number: str) -> bool:
    """Whether a folder holds a site and results of that serial, and nothing else."""
    if place.is_symlink() or not place.is_dir():
        return False
    names, site, results = {path.name for path in place.iterdir()}, place / "site", place / "results.json"
    if (
        names != _OURS
        or site.is_symlink()
        or not site.is_dir()
        or results.is_symlink()
        or not results.is_file()
    ):
        return False
    try:
        told = json.loads(results.read_bytes())
    except (ValueError, RecursionError):
        return False
    return (
        isinstance(told, dict)
        and str(told.get("format")).startswith(RESULTS_MARK)
        and told.get("serial_number") == number
    )


def _is_our_index(index: Path) -> bool:
    if index.is_symlink() or not index.is_file():
        return False
    with index.open("rb") as opened:
        return INDEX_MARK.encode() in opened.read(2000)
