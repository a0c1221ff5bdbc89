"""A project folder: the files of the type and the folder of each serial, read and validated together."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from dossier.findings import Finding, Place, Rejected
from dossier.model.aircraft import Aircraft
from dossier.model.assembly import Assembly
from dossier.model.battery import Battery
from dossier.model.compliance import Compliance
from dossier.model.events import AnyEvent, EventFile
from dossier.model.maintenance import Maintenance
from dossier.model.procedure import Hazards, Picture, Procedure
from dossier.model.record import SerialRecord
from dossier.model.rigging import Rigging
from dossier.model.rule_set import RuleSet
from dossier.model.trailer import Trailer
from dossier.model.validation import validate
from dossier.read.picture import PictureFile, read_picture
from dossier.read.unread import unread
from dossier.read.yaml_text import read_yaml

Result = TypeVar("Result")
PartType = TypeVar("PartType", bound=BaseModel)

KINDS_OF_FILE: dict[str, type[BaseModel]] = {
    "aircraft": Aircraft,
    "assembly": Assembly,
    "battery": Battery,
    "compliance": Compliance,
    "event": EventFile,
    "hazards": Hazards,
    "maintenance": Maintenance,
    "procedure": Procedure,
    "record": SerialRecord,
    "rigging": Rigging,
    "rule-set": RuleSet,
    "trailer": Trailer,
}
"""Kind of file -> its model; ``dossier schema`` writes one JSON Schema for each."""


@dataclass(frozen=True)
class Project:
    """One type and the serials that were asked for."""

    folder: Path
    aircraft: Aircraft
    battery: Battery
    compliance: Compliance
    hazards: Hazards
    procedures: Mapping[str, Procedure]
    """By file name without ending, in order of names."""
    rule_sets: Mapping[str, RuleSet]
    """The project's own rule sets."""
    serials: Mapping[str, SerialRecord]
    rigging: Rigging | None = None
    """None if the project has no rigging.yaml: its procedures then are only text."""
    assembly: Assembly | None = None
    """None if the project has no assembly.yaml: entries of the assembly then say in words what was done."""
    maintenance: Maintenance | None = None
    """None if the project has no maintenance.yaml: nothing then is due."""
    trailer: Trailer | None = None
    """None if the project has no trailer.yaml."""
    pictures: Mapping[str, PictureFile] = field(default_factory=dict)
    """The pictures that steps show, by the path that the steps name."""

    def serial_folder(self, serial_number: str) -> Path:
        """Return the folder that holds a serial's record and evidence."""
        return self.folder / "serials" / serial_number


class _Collected:
    """Gathers the problems of many files, so that all are told at once."""

    def __init__(self) -> None:
        self.findings: list[Finding] = []

    def attempt(self, read: Callable[[], Result]) -> Result | None:
        try:
            return read()
        except Rejected as rejected:
            self.findings += rejected.findings
            return None


def serial_numbers(folder: Path) -> tuple[str, ...]:
    """List the serials of a project, from the names of its folders."""
    homes = (path.parent.name for path in folder.glob("serials/*/record.yaml"))
    return tuple(sorted(name for name in homes if not name.startswith(".")))


def _shown(folder: Path, pattern: str) -> list[Path]:
    """List files in order, without the hidden ones that editors and file systems put beside them."""
    return sorted(path for path in folder.glob(pattern) if not path.name.startswith("."))


def refuse_no_project(folder: Path) -> None:
    """Refuse a folder that holds no project.

    Raises:
        Rejected: it has no aircraft.yaml.
    """
    if not (folder / "aircraft.yaml").is_file():
        named = folder.name or str(folder)
        remedy = "name the folder of a project, such as  projects/quillet-e1"
        raise Rejected([Finding("P001", f"{named!r} holds no aircraft.yaml", remedy)])


def serial_meant(folder: Path, number: str | None) -> str:
    """Return the serial that a call names, or the first of the project if it names none.

    Raises:
        Rejected: the folder is no project, it has no such serial, or none at all.
    """
    refuse_no_project(folder)
    known = serial_numbers(folder)
    if number is not None and number not in known:
        raise Rejected([_no_serial(number, known)])
    if not known:
        what = f"the project {folder.name!r} has no serial"
        raise Rejected([Finding("P004", what, "write serials/0001/record.yaml")])
    return number or known[0]


def load(folder: Path, only: Collection[str] | None = None) -> Project:
    """Read a project.

    Args:
        folder: the project folder.
        only: the serials to read; all of them if left out.

    Raises:
        Rejected: with every problem of every file.
    """
    refuse_no_project(folder)
    found = _Collected()
    found.findings += unread(folder)

    def one(path: Path, model: type[PartType]) -> PartType | None:
        return found.attempt(lambda: _read(folder, path, model))

    aircraft = one(folder / "aircraft.yaml", Aircraft)
    battery = one(folder / "battery.yaml", Battery)
    compliance = one(folder / "compliance.yaml", Compliance)
    hazards = one(folder / "hazards.yaml", Hazards)
    rigging = one(folder / "rigging.yaml", Rigging) if (folder / "rigging.yaml").is_file() else None
    trailer = one(folder / "trailer.yaml", Trailer) if (folder / "trailer.yaml").is_file() else None
    maintenance = (
        one(folder / "maintenance.yaml", Maintenance) if (folder / "maintenance.yaml").is_file() else None
    )
    assembly = one(folder / "assembly.yaml", Assembly) if (folder / "assembly.yaml").is_file() else None
    procedures = {path.stem: one(path, Procedure) for path in _shown(folder, "procedures/*.yaml")}
    rule_sets = {path.stem: one(path, RuleSet) for path in _shown(folder, "rule_sets/*.yaml")}
    serials = {
        number: found.attempt(partial(_serial, folder, number)) for number in _chosen(folder, only, found)
    }
    pictures = _pictures(folder, (*procedures.values(), assembly), found)
    if found.findings or not (aircraft and battery and compliance and hazards):
        raise Rejected(found.findings)
    return Project(
        folder,
        aircraft,
        battery,
        compliance,
        hazards,
        {name: procedure for name, procedure in procedures.items() if procedure},
        {name: rule_set for name, rule_set in rule_sets.items() if rule_set},
        {number: record for number, record in serials.items() if record},
        rigging,
        assembly,
        maintenance,
        trailer,
        pictures,
    )


def _pictures(
    folder: Path, files: Iterable[Procedure | Assembly | None], found: _Collected
) -> dict[str, PictureFile]:
    """Read the picture of every step once, by the path that the steps name."""
    named: dict[str, Picture] = {}
    for one in (one for file in files if file for one in file.pictures):
        named.setdefault(str(one.file), one)
    read = {
        path: found.attempt(partial(read_picture, folder, path, one.place_of_key("file")))
        for path, one in named.items()
    }
    return {path: picture for path, picture in read.items() if picture}


def _read(folder: Path, path: Path, model: type[PartType]) -> PartType:
    shown = path.relative_to(folder).as_posix()
    if not path.resolve().is_relative_to(folder.resolve()):
        raise Rejected(
            [
                Finding(
                    "R023",
                    f"the file {shown} leads out of the project",
                    "copy the file into the project",
                    Place(shown, 1, 1),
                )
            ]
        )
    if not path.is_file():
        raise Rejected(
            [
                Finding(
                    "P002",
                    f"the file {shown} is missing",
                    "write it; dossier schema describes each kind of file",
                    Place(shown, 1, 1),
                )
            ]
        )
    return validate(model, read_yaml(path, shown))


def _serial(folder: Path, number: str) -> SerialRecord:
    found = _Collected()
    home = folder / "serials" / number
    record = found.attempt(lambda: _read(folder, home / "record.yaml", SerialRecord))
    files = [found.attempt(partial(_read, folder, path, EventFile)) for path in _shown(home, "events/*.yaml")]
    if found.findings or record is None:
        raise Rejected(found.findings)
    record = with_events(record, [file.root for file in files if file])
    if record.serial_number != number:
        raise Rejected(
            [
                Finding(
                    "P003",
                    f"the serial number {str(record.serial_number)!r} stands in the folder {number!r}",
                    "give the folder the name of the serial number",
                    record.place_of_key("serial_number"),
                )
            ]
        )
    return record


def with_events(record: SerialRecord, events: Iterable[AnyEvent]) -> SerialRecord:
    """Put events from files of their own among those of the record, each behind all that are not
    later than it.

    The record's own order stays, so that a wrong one is still told.
    """
    merged = list(record.events)
    for event in events:
        later = (place for place, other in enumerate(merged) if other.date > event.date)
        merged.insert(next(later, len(merged)), event)
    return record.model_copy(update={"events": merged})


def _chosen(folder: Path, only: Collection[str] | None, found: _Collected) -> tuple[str, ...]:
    known = serial_numbers(folder)
    if only is None:
        return known
    for number in only:
        if number not in known:
            found.findings.append(_no_serial(number, known))
    return tuple(number for number in known if number in only)


def _no_serial(number: str, known: Collection[str]) -> Finding:
    what = f"there is no serial {number!r} in this project"
    return Finding("P004", what, f"serials here: {', '.join(known) or 'none'}")
