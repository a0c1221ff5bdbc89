"""What lies in a project and would be read by nobody is told; what is no part of the record is left alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.findings import Finding, Rejected
from dossier.project import load, serial_numbers
from dossier.read.unread import FILES, unread
from dossier.starter import write_starter


@pytest.fixture
def project(tmp_path: Path) -> Path:
    folder = tmp_path / "project"
    write_starter(folder)
    return folder


def put(folder: Path, *files: str) -> tuple[Finding, ...]:
    """Put empty files into a project and return what is told of it."""
    for file in files:
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_text("", encoding="utf-8")
    return tuple(unread(folder))


def told(folder: Path, *files: str) -> list[tuple[str, str]]:
    """Return code and file of what is told."""
    return [(finding.code, finding.place.file) for finding in put(folder, *files) if finding.place]


def refused(folder: Path) -> list[tuple[str, str]]:
    with pytest.raises(Rejected) as caught:
        load(folder)
    return [(finding.code, finding.place.file) for finding in caught.value.findings if finding.place]


def test_nothing_is_told_of_the_starter(project: Path) -> None:
    assert list(unread(project)) == []


@pytest.mark.parametrize("name", FILES)
def test_every_file_that_the_project_reads_may_stand_there(name: str, project: Path) -> None:
    (project / name).write_text("", encoding="utf-8")
    assert list(unread(project)) == []


@pytest.mark.parametrize(
    "file",
    [
        "battery.yml",
        "Hazards.yaml",
        "maintenance.yaml.txt",
        "notes.yaml",
        "procedures/rigging.yml",
        "procedures/rigging.YAML",
        "procedures/rigging.yaml.txt",
        "procedures/old/rigging.yaml",
        "rule_sets/own.yml",
        "serials/0002.yaml",
        "serials/0001/records.yaml",
        "serials/0001/events/rigged.yml",
        "serials/0001/events/2026/rigged.yaml",
    ],
)
def test_a_file_of_the_record_that_is_passed_over_is_told(file: str, project: Path) -> None:
    assert told(project, file) == [("P070", file)]


@pytest.mark.parametrize(
    ("file", "meant"),
    [
        ("hazard.yaml", "hazards.yaml"),
        ("maintenance.yaml.txt", "maintenance.yaml"),
        ("Trailer.yml", "trailer.yaml"),
        ("procedures/winter.yaml.txt", "procedures/winter.yaml"),
        ("rule_sets/old/own.yaml", "rule_sets/own.yaml"),
        ("serials/0001/events/rigged.yml", "serials/0001/events/rigged.yaml"),
    ],
)
def test_the_help_names_the_file_that_is_meant(file: str, meant: str, project: Path) -> None:
    (finding,) = put(project, file)
    assert f"did you mean '{meant}'?" in finding.help


@pytest.mark.parametrize(
    ("folder", "meant"),
    [
        ("procedure", "procedures"),
        ("Rule_Sets", "rule_sets"),
        ("serials/0001/event", "events"),
        ("serial", "serials"),
    ],
)
def test_a_misspelt_folder_is_told_with_the_right_name(folder: str, meant: str, project: Path) -> None:
    (finding,) = put(project, f"{folder}/note.txt")
    assert (finding.code, finding.place and finding.place.file) == ("P071", folder)
    assert finding.help == f"did you mean {meant!r}?"


@pytest.mark.parametrize("file", ["rule_sets", "serials/0001/events"])
def test_a_file_where_a_folder_is_due_is_told(file: str, project: Path) -> None:
    assert told(project, file) == [("P072", file)]


@pytest.mark.parametrize("name", ["trailer.yaml", "serials/0001/record.yaml"])
def test_a_folder_where_a_file_is_due_is_told(name: str, project: Path) -> None:
    (project / name).unlink(missing_ok=True)
    (project / name).mkdir()
    assert ("P072", name) in told(project)


def test_a_serial_without_its_record_is_told_with_the_file_to_write(project: Path) -> None:
    (finding,) = put(project, "serials/0002/evidence/weighing.csv")
    assert (finding.code, str(finding.place)) == ("P073", "serials/0002/record.yaml:1:1")
    assert "write serials/0002/record.yaml" in finding.help


@pytest.mark.parametrize(
    "pair",
    [
        ("procedures/winter.yaml", "procedures/Winter.yaml"),
        ("procedures/winter 1.yaml", "procedures/winter-1.yaml"),
        ("procedures/winter_.yaml", "procedures/winter.yaml"),
        ("rule_sets/own.yaml", "rule_sets/OWN.yaml"),
        ("serials/0001/events/a.yaml", "serials/0001/events/A.yaml"),
        ("serials/a1/record.yaml", "serials/A1/record.yaml"),
    ],
)
def test_two_names_that_are_one_when_published_are_told(pair: tuple[str, str], project: Path) -> None:
    finding, *more = put(project, *pair)
    assert (finding.code, more) == ("P074", [])
    assert finding.place
    named = finding.place.file.removesuffix("/record.yaml")
    assert any(name.removesuffix("/record.yaml") == named for name in pair)


def test_signs_tell_the_names_of_rule_sets_apart(project: Path) -> None:
    assert put(project, "rule_sets/own-1.yaml", "rule_sets/own_1.yaml") == ()


@pytest.mark.parametrize(
    "file",
    [
        "notes.txt",
        "drawings/wing.dxf",
        "pictures/plug.png",
        "tests/check.py",
        ".github/workflows/build.yaml",
        ".hidden.yaml",
        "procedures/.rigging.yaml",
        "procedures/.old/rigging.yaml",
        "procedures/notes.txt",
        "serials/.template/record.yaml",
        "serials/0001/evidence/setup.yaml",
        "serials/0001/photos/tail.jpg",
    ],
)
def test_what_is_no_part_of_the_record_is_left_alone(file: str, project: Path) -> None:
    assert put(project, file) == ()


@pytest.mark.parametrize(
    "file", ["procedures/._rigging.yaml", "rule_sets/.own.yaml", "serials/0001/events/.#rigged.yaml"]
)
def test_a_hidden_file_beside_the_record_is_not_read(file: str, project: Path) -> None:
    (project / file).parent.mkdir(exist_ok=True)
    (project / file).write_bytes(b"\x00\x05\x16\x07")
    assert list(load(project).serials) == ["0001"]


def test_a_link_without_an_end_that_an_editor_leaves_is_not_read(project: Path) -> None:
    (project / "procedures/.#rigging.yaml").symlink_to("builder@workshop.4711")
    assert list(load(project).serials) == ["0001"]


def test_a_hidden_folder_is_no_serial(project: Path) -> None:
    put(project, "serials/.template/record.yaml")
    assert serial_numbers(project) == ("0001",)


def test_all_that_is_passed_over_is_told_at_once_with_the_faults_of_the_files(project: Path) -> None:
    put(project, "hazard.yaml", "procedure/winter.yaml", "serials/0002/evidence/a.csv")
    (project / "battery.yaml").unlink()
    assert refused(project) == [
        ("P002", "battery.yaml"),
        ("P070", "hazard.yaml"),
        ("P071", "procedure"),
        ("P073", "serials/0002/record.yaml"),
    ]


@pytest.mark.parametrize(
    "file", ["hazards.yaml", "procedures/rigging.yaml", "serials/0001/record.yaml", "assembly.yaml"]
)
def test_a_link_that_leads_out_of_the_project_is_refused(file: str, project: Path, tmp_path: Path) -> None:
    (project / file).rename(tmp_path / "elsewhere.yaml")
    (project / file).symlink_to(tmp_path / "elsewhere.yaml")
    assert ("R023", file) in refused(project)


def test_a_linked_folder_that_leads_out_of_the_project_is_refused(project: Path, tmp_path: Path) -> None:
    (project / "procedures").rename(tmp_path / "elsewhere")
    (project / "procedures").symlink_to(tmp_path / "elsewhere")
    assert ("R023", "procedures/rigging.yaml") in refused(project)


def test_a_link_inside_the_project_is_followed(project: Path) -> None:
    (project / "procedures/rigging.yaml").rename(project / "rigging-of-both.txt")
    (project / "procedures/rigging.yaml").symlink_to("../rigging-of-both.txt")
    assert "rigging" in load(project).procedures


def test_a_link_to_a_file_that_is_gone_is_missing(project: Path) -> None:
    (project / "hazards.yaml").unlink()
    (project / "hazards.yaml").symlink_to("hazards-of-last-year.yaml")
    assert ("P002", "hazards.yaml") in refused(project)
