"""Many serials of one project, made together: all of them, or those that are asked for, and every problem
at once."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest
from demos import NAMES, PROJECTS, demo
from sample_project import SERIAL, Draft, event, pack_removed

from dossier.findings import Rejected
from dossier.fleet import make_all
from dossier.project import serial_numbers


def add_serial(project: Path, number: str) -> Path:
    """Copy the serial of a written project under another number."""
    source, target = (project / "serials" / name for name in (SERIAL, number))
    shutil.copytree(source, target)
    record = target / "record.yaml"
    record.write_text(record.read_text("utf-8").replace(SERIAL, number), "utf-8")
    return record


@pytest.mark.parametrize("project", NAMES)
def test_without_a_choice_every_serial_is_made_in_order_of_numbers(project: str) -> None:
    assert tuple(demo(project)) == serial_numbers(PROJECTS / project)


def test_with_a_choice_only_the_chosen_are_made(tmp_path: Path) -> None:
    project = Draft().write(tmp_path)
    add_serial(project, "0002")
    add_serial(project, "0003")
    made = make_all(project, ["0003", "0001"], None)
    assert [str(dossier.record.serial_number) for dossier in made] == ["0001", "0003"]


def test_a_date_holds_for_every_serial(tmp_path: Path) -> None:
    project = Draft().write(tmp_path)
    add_serial(project, "0002")
    made = make_all(project, None, date(2026, 3, 4))
    assert {dossier.state.as_of for dossier in made} == {date(2026, 3, 4)}


def refused(project: Path, serials: list[str] | None = None) -> list[tuple[str, str]]:
    with pytest.raises(Rejected) as rejected:
        make_all(project, serials, None)
    return [
        (finding.code, finding.place.file if finding.place else "") for finding in rejected.value.findings
    ]


def test_the_problems_of_every_serial_are_told_at_once(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(pack_removed("P-9", "2026-02-01"))
    project = draft.write(tmp_path)
    add_serial(project, "0002")
    assert refused(project) == [("E006", "serials/0001/record.yaml"), ("E006", "serials/0002/record.yaml")]


def test_a_missing_evidence_file_of_each_serial_is_told_at_once(tmp_path: Path) -> None:
    draft = Draft()
    evidence = [{"file": "evidence/gone.txt", "shows": "nothing"}]
    draft.events.append(event("inspection", "2026-02-01", what="all", result="good", evidence=evidence))
    project = draft.write(tmp_path)
    add_serial(project, "0002")
    assert [code for code, _ in refused(project)] == ["R014", "R014"]


def test_a_serial_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert refused(Draft().write(tmp_path), ["0009"]) == [("P004", "")]


def test_a_project_without_a_serial_is_told(tmp_path: Path) -> None:
    project = Draft().write(tmp_path)
    shutil.rmtree(project / "serials")
    assert refused(project) == [("P004", "")]


def test_a_battery_in_two_aircraft_at_once_is_told(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(event("pack-fitted", "2026-02-01", pack="P-1", option="standard-pack", mass="18 kg"))
    project = draft.write(tmp_path)
    add_serial(project, "0002")
    assert refused(project) == [("P051", "serials/0002/record.yaml")]
