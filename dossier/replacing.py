"""Finished files and folders put where earlier ones stood: all of them or none, and by one command
at a time."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from tempfile import mkdtemp

LOCK = ".dossier-lock"
WORKSHOP = ".dossier-new-"
"""How the name of a folder begins in which something is made beside its place."""
_ASIDE = "old"


class Taken(Exception):  # noqa: N818 - says what was found
    """Another command is writing into the folder."""


@contextmanager
def workshop(beside: Path) -> Iterator[Path]:
    """Give an empty folder on the same file system, and take it away.

    It stays if what was replaced lies in it still, because it could not be put back; :func:`sweep`
    then tries again.
    """
    made = Path(mkdtemp(prefix=WORKSHOP, dir=beside))
    try:
        yield made
    finally:
        if not _kept(made):
            shutil.rmtree(made)


def replace_all(made: Sequence[Path], folder: Path, workshop: Path) -> None:
    """Put each file or folder into ``folder`` under its own name, in place of what stands there.

    After any fault everything stands as it was.

    Raises:
        OSError: the file system refused.
    """
    aside = workshop / _ASIDE
    aside.mkdir()
    with ExitStack() as way_back:
        for new in made:
            place = folder / new.name
            if os.path.lexists(place):
                place.rename(aside / new.name)
                way_back.callback((aside / new.name).rename, place)
            new.rename(place)
            way_back.callback(place.rename, new)
        way_back.pop_all()
    shutil.rmtree(aside)


def sweep(folder: Path) -> None:
    """Take away what a stopped command left; what it had put aside and not replaced goes back.

    To be called only while :func:`locked` holds the folder.
    """
    for left in sorted(folder.glob(f"{WORKSHOP}*")):
        if left.is_symlink() or not left.is_dir():
            continue
        for old in _kept(left):
            if not os.path.lexists(folder / old.name):
                old.rename(folder / old.name)
        shutil.rmtree(left)


def _kept(made: Path) -> list[Path]:
    return sorted((made / _ASIDE).glob("*"))


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Hold the folder against other commands. The system lets go by itself when a command is killed.

    Raises:
        Taken: another command holds it.
    """
    path = folder / LOCK
    while True:
        held = os.open(path, os.O_CREAT | os.O_RDWR, 0o644)
        try:
            _hold(held)
        except OSError:
            os.close(held)
            raise Taken from None
        if _is_still(held, path):
            break
        os.close(held)  # whoever held it has taken the file away meanwhile
    try:
        yield
    finally:
        if sys.platform == "win32":
            os.close(held)  # a file that is open cannot be taken away there; it stays, and harms nobody
        else:
            path.unlink(missing_ok=True)
            os.close(held)


def _is_still(held: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(held), path.stat())
    except FileNotFoundError:
        return False


def _hold(held: int) -> None:
    if sys.platform == "win32":
        import msvcrt

        msvcrt.locking(held, msvcrt.LK_NBLCK, 1)
    else:
        import fcntl

        fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
