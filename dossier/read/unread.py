"""What lies in a project folder and would be read by nobody: a wrong ending, a misspelt name, a folder
for a file.

A file that is passed over switches off what it says, without a word; so each is an error.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from difflib import get_close_matches
from pathlib import Path

from dossier.findings import Finding, Place
from dossier.read.published import list_name

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
_ENDINGS = (".yaml", ".yml", ".yaml.txt", ".yml.txt")
"""Endings of what was meant as a file of the record; some editors put .txt behind and do not show it."""
_NEAR = 0.7
"""How like a known name the name of a folder is that must be meant: "pictures" is not
taken for "procedures"."""


def unread(folder: Path) -> Iterator[Finding]:
    """Tell every file and folder of a project that looks like a part of the record and is not read."""
    yield from _level(folder, folder, FILES, FOLDERS)
    yield from _all_yaml(folder, folder / "procedures", list_name)
    yield from _all_yaml(folder, folder / "rule_sets")
    yield from _clashing(folder, (home for home in _shown(folder / "serials") if home.is_dir()))
    for home in _shown(folder / "serials"):
        if home.is_dir():
            yield from _serial(folder, home)
        elif _is_meant(home):
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
        elif _is_meant(path):
            near = get_close_matches(f"{_stem(path).lower()}.yaml", files, n=1, cutoff=0.6)
            hint = f"did you mean {near[0]!r}? " if near else ""
            yield _unread_file(folder, path, f"{hint}files read here: {', '.join(files)}")


def _all_yaml(folder: Path, here: Path, name_of: Callable[[str], str] = str.lower) -> Iterator[Finding]:
    """Tell wrong endings, files in folders below, and names that are one when published."""
    below = sorted(here.rglob("*")) if here.is_dir() else []
    meant = [path for path in below if _is_meant(path) and not _is_hidden(path.relative_to(here))]
    read = [path for path in meant if path.parent == here and path.suffix == ".yaml"]
    for path in meant:
        if path not in read:
            right = (here / f"{_stem(path)}.yaml").relative_to(folder).as_posix()
            yield _unread_file(folder, path, f"did you mean {right!r}?")
    yield from _clashing(folder, read, name_of)


def _clashing(
    folder: Path, paths: Iterable[Path], name_of: Callable[[str], str] = str.lower
) -> Iterator[Finding]:
    """Tell names that one disk keeps apart and another does not, or that are one in the address of a page."""
    taken: dict[str, Path] = {}
    for path in paths:
        first = taken.setdefault(name_of(path.name), path)
        if first is not path:
            shown = path.relative_to(folder).as_posix()
            yield Finding(
                "P074",
                f"{shown} and {first.name} would be one when published",
                "give one of them another name: capitals do not count, and in the name of a list no signs",
                Place(shown, 1, 1),
            )


def _is_meant(path: Path) -> bool:
    return path.name.lower().endswith(_ENDINGS) and not path.is_dir()


def _is_hidden(path: Path) -> bool:
    return any(part.startswith(".") for part in path.parts)


def _stem(path: Path) -> str:
    ending = next(one for one in _ENDINGS if path.name.lower().endswith(one))
    return path.name[: -len(ending)]


def _unread_file(folder: Path, path: Path, remedy: str) -> Finding:
    shown = path.relative_to(folder).as_posix()
    return Finding("P070", f"the file {shown} is read by nobody", remedy, Place(shown, 1, 1))


def _shown(here: Path) -> list[Path]:
    return sorted(path for path in here.iterdir() if not path.name.startswith(".")) if here.is_dir() else []
