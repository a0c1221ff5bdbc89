"""What lies in a project folder and would be read by nobody: a wrong ending, a misspelt name, a folder
for a file.

A file that is passed over switches off what it says, without a word; so each is an error.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from difflib import get_close_matches
from pathlib import Path

from dossier.findings import Finding, Place

FILES = (
    "aircraft.yaml",
    "assembly.yaml",
    "battery.yaml",
    "compliance.yaml",
    "hazards.yaml",
    "maintenance.yaml",
    "rigging.yaml",
    "trailer.yaml",
)
"""The files that a project may have beside its folders."""
FOLDERS = ("procedures", "rule_sets", "serials")
_OF_A_SERIAL = (("record.yaml",), ("events", "evidence"))
_ENDINGS = {".yaml", ".yml"}
_NEAR = 0.7
"""How like a known name the name of a folder is that must be meant: "pictures" is not
taken for "procedures"."""


def unread(folder: Path) -> Iterator[Finding]:
    """Tell every file and folder of a project that looks like a part of the record and is not read."""
    yield from _level(folder, folder, FILES, FOLDERS)
    for name in ("procedures", "rule_sets"):
        yield from _all_yaml(folder, folder / name)
    for home in _shown(folder / "serials"):
        if home.is_dir():
            yield from _serial(folder, home)
        elif home.suffix.lower() in _ENDINGS:
            yield _unread_file(
                folder, home, "put it into the folder of its serial, as  serials/0001/record.yaml"
            )


def _serial(folder: Path, home: Path) -> Iterator[Finding]:
    files, folders = _OF_A_SERIAL
    yield from _level(folder, home, files, folders)
    yield from _all_yaml(folder, home / "events")
    if not (home / "record.yaml").exists():
        shown = home.relative_to(folder).as_posix()
        yield Finding(
            "P073",
            f"the folder {shown} holds no record.yaml, so this serial is read by nobody",
            f"write {shown}/record.yaml, or move the folder out of serials/",
            Place(f"{shown}/record.yaml", 1, 1),
        )


def _level(folder: Path, here: Path, files: Collection[str], folders: Collection[str]) -> Iterator[Finding]:
    for path in _shown(here):
        shown = path.relative_to(folder).as_posix()
        if path.name in files or path.name in folders:
            if not (path.is_file() if path.name in files else path.is_dir()):
                due = "file" if path.name in files else "folder"
                yield Finding(
                    "P072",
                    f"{shown} is no {due}",
                    f"a {due} of that name is read; rename this one",
                    Place(shown, 1, 1),
                )
        elif path.is_dir():
            if near := get_close_matches(path.name.lower(), folders, n=1, cutoff=_NEAR):
                yield Finding(
                    "P071",
                    f"the folder {shown} is read by nobody",
                    f"did you mean {near[0]!r}?",
                    Place(shown, 1, 1),
                )
        elif path.suffix.lower() in _ENDINGS:
            near = get_close_matches(f"{path.stem.lower()}.yaml", files, n=1, cutoff=0.6)
            hint = f"did you mean {near[0]!r}? " if near else ""
            yield _unread_file(folder, path, f"{hint}files read here: {', '.join(files)}")


def _all_yaml(folder: Path, here: Path) -> Iterator[Finding]:
    """Tell wrong endings, files in folders below, and names that one disk keeps apart and
    another does not."""
    taken: dict[str, Path] = {}
    for path in sorted(here.rglob("*")) if here.is_dir() else ():
        if path.suffix.lower() not in _ENDINGS or path.is_dir() or path.name.startswith("."):
            continue
        if path.parent != here or path.suffix != ".yaml":
            yield _unread_file(
                folder, path, f"did you mean '{here.relative_to(folder).as_posix()}/{path.stem}.yaml'?"
            )
            continue
        first = taken.setdefault(path.name.lower(), path)
        if first is not path:
            shown = path.relative_to(folder).as_posix()
            yield Finding(
                "P074",
                f"{shown} and {first.name} differ only in capitals, and their pages would be one",
                "give one of them another name",
                Place(shown, 1, 1),
            )


def _unread_file(folder: Path, path: Path, remedy: str) -> Finding:
    shown = path.relative_to(folder).as_posix()
    return Finding("P070", f"the file {shown} is read by nobody", remedy, Place(shown, 1, 1))


def _shown(here: Path) -> list[Path]:
    return sorted(path for path in here.iterdir() if not path.name.startswith(".")) if here.is_dir() else []
