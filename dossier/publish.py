"""Made dossiers to files: sites and results, each built beside its place, and the builder's index
of the fleet."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from multiprocessing import get_context
from pathlib import Path

from dossier.compose.fleet_index import fleet_index
from dossier.compose.pages import packet
from dossier.dossier import Dossier
from dossier.findings import Finding, Rejected
from dossier.fleet import make_all
from dossier.own_output import refuse_what_is_not_ours
from dossier.pipeline import load_checked, make
from dossier.project import serial_numbers
from dossier.replacing import Taken, locked, replace_all, sweep, workshop
from dossier.results_file import as_json
from dossier.web.build import SiteNotBuilt, build_site


@dataclass(frozen=True)
class _Order:
    """What a worker needs to make one serial again and write it."""

    project: Path
    serial_number: str
    as_of: date
    folder: Path


def write_all(dossiers: Sequence[Dossier], out: Path, progress: Callable[[str, int, int], None]) -> None:
    """Write ``out/SN/site`` and ``out/SN/results.json`` for each serial, and the builder's index
    of the fleet.

    Every serial is built beside its place; when all are whole they are moved there, or, after
    any fault, none.

    Args:
        dossiers: as :func:`dossier.fleet.make_all` returns them.
        out: the output folder; what else is in it stays, and what is in the way and not written by this
            tool is refused.
        progress: called with serial number, how many are done, and how many there are.

    Raises:
        Rejected: what is in the way is not ours, another build is writing there, the file system refuses, or
            a site cannot be built; all stands as it was.
    """
    numbers = [str(one.record.serial_number) for one in dossiers]
    refuse_what_is_not_ours(dossiers[0].project.folder, out, numbers)
    try:
        out.mkdir(parents=True, exist_ok=True)
        with locked(out):
            sweep(out)
            # once more: what a stopped command had put aside is back now, and another may have written since
            refuse_what_is_not_ours(dossiers[0].project.folder, out, numbers)
            _write_locked(dossiers, out, progress)
    except OSError as error:
        what = f"{error.filename or str(out)!r}: {error.strerror or error}"
        raise Rejected(
            [
                Finding(
                    "P064",
                    f"the output cannot be written, {what}",
                    "name another output folder, or make room",
                )
            ]
        ) from error
    except Taken:
        raise Rejected(
            [
                Finding(
                    "P062",
                    f"another build is writing into {str(out)!r}",
                    "wait until it has ended, or name another output folder",
                )
            ]
        ) from None


def _write_locked(dossiers: Sequence[Dossier], out: Path, progress: Callable[[str, int, int], None]) -> None:
    with workshop(out) as made:
        orders = [
            _Order(one.project.folder, str(one.record.serial_number), one.state.as_of, made)
            for one in dossiers
        ]
        for done, number in enumerate(_built(orders), 1):
            progress(number, done, len(orders))
        index = made / "index.html"
        index.write_text(fleet_index(_everyone(dossiers, out)), encoding="utf-8")
        replace_all([*(made / order.serial_number for order in orders), index], out, made)


def _everyone(dossiers: Sequence[Dossier], out: Path) -> list[Dossier]:
    """The serials of this call, and those that an earlier call left in the folder."""
    first = dossiers[0]
    here = {str(one.record.serial_number): one for one in dossiers}
    others = [
        number
        for number in serial_numbers(first.project.folder)
        if number not in here and (out / number / "results.json").is_file()
    ]
    if others:
        here |= {str(one.record.serial_number): one for one in make_all(first.project.folder, others, None)}
    return [here[number] for number in sorted(here)]


def _built(orders: Sequence[_Order]) -> Iterator[str]:
    workers = min(len(orders), os.cpu_count() or 1)
    if workers == 1:
        yield from map(_write, orders)
        return
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        yield from pool.map(_write, orders)


def _write(order: _Order) -> str:
    """Make one serial in a process of its own (MkDocs is not thread-safe; a Dossier holds what
    cannot be sent)."""
    dossier = make(load_checked(order.project, [order.serial_number]), order.serial_number, order.as_of)
    folder = order.folder / order.serial_number
    folder.mkdir()
    epoch = int(datetime.combine(order.as_of, time(), UTC).timestamp())
    try:
        build_site(packet(dossier), folder / "site", epoch=epoch)
    except SiteNotBuilt as refused:
        raise Rejected(_not_built(order.serial_number, refused.complaints)) from None
    (folder / "results.json").write_text(as_json(dossier), encoding="utf-8")
    return order.serial_number


def _not_built(serial_number: str, complaints: Sequence[str]) -> list[Finding]:
    remedy = (
        "rename the file or list that it names, or correct its text; if it names none of yours, this is "
        "a fault of the tool"
    )
    return [
        Finding("P063", f"the site of {serial_number} cannot be built: {complaint}", remedy)
        for complaint in complaints
    ]
