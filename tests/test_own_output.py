"""What the builder has in the way of the output stays as it is."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from dossier import publish, replacing
from dossier.cli import main
from dossier.findings import Rejected
from dossier.fleet import make_all
from dossier.publish import write_all
from dossier.replacing import locked, replace_all, sweep, workshop
from dossier.starter import write_starter
from dossier.web.build import SiteNotBuilt


@pytest.fixture
def project(tmp_path: Path) -> Path:
    folder = tmp_path / "project"
    write_starter(folder)
    return folder


def codes(project: Path, out: Path) -> list[str]:
    with pytest.raises(Rejected) as refused:
        write_all(make_all(project, None, None), out, lambda *_: None)
    return [finding.code for finding in refused.value.findings]


@pytest.mark.parametrize("out", ["project", "project/serials", "project/new", "."])
def test_an_output_folder_in_or_around_the_project_is_refused_and_the_record_stays(
    out: str, project: Path, tmp_path: Path
) -> None:
    before = {path: path.read_bytes() for path in project.rglob("*") if path.is_file()}
    assert codes(project, tmp_path / out)[0] == "P060"
    assert {path: path.read_bytes() for path in project.rglob("*") if path.is_file()} == before


@pytest.mark.parametrize("name", ["0001", "index.html"])
def test_a_file_that_is_not_ours_is_not_overwritten(name: str, project: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / name).write_text("mine")
    assert codes(project, out) == ["P061"]
    assert (out / name).read_text() == "mine"


def test_a_folder_that_is_not_ours_is_not_replaced(project: Path, tmp_path: Path) -> None:
    mine = tmp_path / "out" / "0001"
    mine.mkdir(parents=True)
    (mine / "results.json").write_text("{}")
    (mine / "notes.txt").write_text("mine")
    assert codes(project, tmp_path / "out") == ["P061"]
    assert (mine / "notes.txt").read_text() == "mine"


def test_two_builds_into_one_folder_do_not_mix(project: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    with locked(out):
        assert codes(project, out) == ["P062"]


def test_a_site_that_cannot_be_built_leaves_what_stood_there(
    project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise SiteNotBuilt(["page x: a link leads nowhere"])

    monkeypatch.setattr(publish, "build_site", refuse)
    out = tmp_path / "out"
    assert codes(project, out) == ["P063"]
    assert [path.name for path in out.iterdir()] == []


def test_an_output_that_is_a_file_ends_in_words_and_the_code_of_a_wrong_call(
    project: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("mine")
    assert main(["build", str(project), "--out", str(tmp_path / "file" / "x")]) == 2
    told = capsys.readouterr()
    assert "Traceback" not in told.err + told.out
    assert "P064" in told.err
    assert "nothing was written" in told.err + told.out


def two_folders(folder: Path) -> list[Path]:
    """Make two folders to be put in place of two that stand there."""
    for name in ("one", "two"):
        (folder / name).mkdir()
        (folder / name / "text").write_text("old")
    return [folder / name for name in ("one", "two")]


def made_anew(made: Path) -> list[Path]:
    new = [made / name for name in ("one", "two")]
    for path in new:
        path.mkdir()
        (path / "text").write_text("new")
    return new


def test_all_are_replaced_and_nothing_else_is_left(tmp_path: Path) -> None:
    places = two_folders(tmp_path)
    with workshop(tmp_path) as made:
        replace_all(made_anew(made), tmp_path, made)
    assert [(path / "text").read_text() for path in places] == ["new", "new"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["one", "two"]


def test_a_fault_at_the_second_puts_the_first_back(tmp_path: Path) -> None:
    places = two_folders(tmp_path)
    with workshop(tmp_path) as made:
        new = made_anew(made)
        shutil.rmtree(new[1])
        with pytest.raises(FileNotFoundError):
            replace_all(new, tmp_path, made)
    assert [(path / "text").read_text() for path in places] == ["old", "old"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["one", "two"]


def test_what_a_stopped_command_had_put_aside_comes_back(tmp_path: Path) -> None:
    left = tmp_path / f"{replacing.WORKSHOP}stopped"
    (left / "old" / "one").mkdir(parents=True)
    (left / "old" / "one" / "text").write_text("old")
    sweep(tmp_path)
    assert (tmp_path / "one" / "text").read_text() == "old"
    assert not left.exists()
