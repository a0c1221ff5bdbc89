"""A record file into the record: checked, copied to the evidence, told by one new event in its own file."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import count
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

from dossier.completed_lists.checks import faults, people_faults
from dossier.completed_lists.event_text import event_text
from dossier.compose.operating.list_text import ListText, list_text
from dossier.compose.operating.lists import lists
from dossier.findings import Finding, Rejected
from dossier.model.completed_list import CompletedList
from dossier.model.events import EventFile
from dossier.model.validation import validate
from dossier.pipeline import load_checked, make
from dossier.project import Project, with_events
from dossier.read.json_text import read_json
from dossier.read.yaml_text import read_yaml
from dossier.replay import replay

LARGEST_FILE = 500_000
"""Bytes. A list of two hundred steps with a note on each stays below."""


def add_record(project_folder: Path, serial_number: str, file: Path) -> tuple[Path, Path]:
    """Take the record file of a completed list into a serial's record.

    Returns:
        the event's file and the evidence file, both new.

    Raises:
        Rejected: with every problem of the project or of the file; nothing was written.
    """
    project = load_checked(project_folder, [serial_number])
    one = validate(CompletedList, read_json(file, file.name, LARGEST_FILE))
    said = _checked(project, serial_number, one)
    home = project.serial_folder(serial_number)
    content = file.read_bytes()
    _refuse_what_is_there(home, one, content)
    return _write(project, serial_number, one, (said, content))


def _checked(project: Project, serial_number: str, one: CompletedList) -> ListText:
    strange = list(_strange(project, serial_number, one))
    if strange:
        raise Rejected([*strange, *people_faults(one)])
    day = one.day if one.done else one.as_of
    said = _worded(project, serial_number, one, day)
    if found := list(faults(one, said.ticks)):
        raise Rejected(found)
    return said


def _strange(project: Project, serial_number: str, one: CompletedList) -> Iterator[Finding]:
    name = " ".join(project.aircraft.identification.name.split())
    if str(one.type) != name:
        yield Finding(
            "T001",
            f"the list is of the type {str(one.type)!r}, and this project is {name!r}",
            "name the project of that type",
            one.place_of_key("type"),
        )
    if str(one.serial_number) != serial_number:
        yield Finding(
            "T001",
            f"the list is of serial {str(one.serial_number)!r}, and you named {serial_number!r}",
            f"if the work was done on that aircraft, name it:  {one.serial_number}",
            one.place_of_key("serial_number"),
        )
    known = [key for key, procedure in project.procedures.items() if procedure.kind != "emergency"]
    if str(one.procedure) not in known:
        yield Finding(
            "T002",
            f"there is no list {str(one.procedure)!r} in this project",
            f"lists here: {', '.join(known)}",
            one.place_of_key("procedure"),
        )


def _worded(project: Project, serial_number: str, one: CompletedList, day: date) -> ListText:
    """Find the words of the list on the day of its ticks, before or after what else happened that day."""
    for state in (day, day - timedelta(days=1)):
        said = _said(project, serial_number, str(one.procedure), state)
        if said is not None and said.digest == one.digest:
            return said
    raise Rejected([_other_words(project, serial_number, one, day)])


def _other_words(project: Project, serial_number: str, one: CompletedList, day: date) -> Finding:
    before = _said(project, serial_number, str(one.procedure), one.as_of)
    place = one.place_of_key("digest")
    if before is not None and before.digest == one.digest:
        return Finding(
            "T003",
            f"the list is that of {one.as_of}, and an event up to {day} has changed it",
            "do the list of the aircraft as it is now; keep this file with your own papers",
            place,
        )
    now = _said(project, serial_number, str(one.procedure), day)
    difference = _difference(one, now) if now else "the serial has it no more"
    return Finding(
        "T003",
        f"the list was made for another edition of {str(one.procedure)!r}: {difference}",
        "do the list of today; or add the record from the state of the project that the list was made from",
        place,
    )


def _difference(one: CompletedList, now: ListText) -> str:
    """Show the first tick whose words have changed."""
    for made, tick in zip(one.ticks, now.ticks, strict=False):
        if (made.tick, " ".join(made.text.split())) != (tick.name, " ".join(tick.text.split())):
            return f"{made.tick} was {str(made.text)!r}, and now {tick.words} is {tick.text!r}"
    if len(one.ticks) != len(now.ticks):
        return f"it had {len(one.ticks)} ticks, and now it has {len(now.ticks)}"
    return "the words beside its steps have changed (an expected state, a caution, a note)"


def _said(project: Project, serial_number: str, name: str, day: date) -> ListText | None:
    dossier = make(project, serial_number, day)
    return next((list_text(dossier, one) for one in lists(dossier) if one.name == name), None)


def _refuse_what_is_there(home: Path, one: CompletedList, content: bytes) -> None:
    new = _without_time_of_saving(content)
    for file in sorted((home / "evidence" / "lists").glob("*.json")):
        if _without_time_of_saving(file.read_bytes()) == new:
            shown = file.relative_to(home).as_posix()
            raise Rejected(
                [
                    Finding(
                        "T008",
                        f"this list is on record already, as {shown}",
                        "nothing is left to do",
                        one.place_of_key("started"),
                    )
                ]
            )


def _without_time_of_saving(content: bytes) -> Any:
    try:
        told = json.loads(content)
    except ValueError:
        return None  # somebody's own file in the folder
    return {key: value for key, value in told.items() if key != "saved"} if isinstance(told, dict) else None


def _write(
    project: Project, serial_number: str, one: CompletedList, what: tuple[ListText, bytes]
) -> tuple[Path, Path]:
    said, content = what
    home = project.serial_folder(serial_number)
    event, evidence = _places(home, one)
    workshop = Path(mkdtemp(prefix=".new-", dir=home))
    try:
        new_event, new_evidence = workshop / "event.yaml", workshop / "list.json"
        new_evidence.write_bytes(content)
        new_event.write_text(
            event_text(one, said.ticks, evidence.relative_to(home).as_posix()), encoding="utf-8"
        )
        _refuse_unfit(project, serial_number, new_event, event.relative_to(project.folder).as_posix())
        _put(new_evidence, evidence)
        try:
            _put(new_event, event)
        except BaseException:
            evidence.unlink()
            raise
    finally:
        shutil.rmtree(workshop)
    return event, evidence


def _places(home: Path, one: CompletedList) -> tuple[Path, Path]:
    """Choose two new names that tell day and procedure."""
    procedure = re.sub(r"[^a-z0-9]+", "-", one.procedure.lower()).strip("-")
    events, evidence = home / "events", home / "evidence" / "lists"
    for folder in (events, evidence):
        if not folder.resolve().is_relative_to(home.resolve()):
            raise Rejected(
                [
                    Finding(
                        "R013",
                        f"{folder.relative_to(home).as_posix()} leads out of the serial's folder",
                        "make it a folder, not a link",
                    )
                ]
            )
    for number in count(1):
        name = f"{one.day.isoformat()}-{procedure}-{number}"
        event, copy = events / f"{name}.yaml", evidence / f"{name}.json"
        if not event.exists() and not copy.exists():
            break
    return event, copy


def _refuse_unfit(project: Project, serial_number: str, written: Path, shown_as: str) -> None:
    """Read the new event as the loader will, and replay the life of the aircraft with it."""
    read = validate(EventFile, read_yaml(written, shown_as)).root
    record = with_events(project.serials[serial_number], [read])
    if problems := replay(record, project.battery.options, read.date).findings:
        raise Rejected(problems)


def _put(new: Path, place: Path) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    if place.exists():
        raise FileExistsError(place.name)
    new.rename(place)
