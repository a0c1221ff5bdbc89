"""The runs of a flight test from a table of comma-separated values: every fault with its line and column."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.findings import Rejected
from dossier.read.runs import read_runs

WANTED = {"indicated_speed": ("speed / mph", "speed"), "time": ("time / s", "time")}


def read(folder: Path, text: str) -> list[dict[str, float]]:
    file = folder / "runs.csv"
    file.write_text(text, "utf-8")
    runs = read_runs(file, "evidence/runs.csv", WANTED)
    return [{name: value.value for name, value in run.items()} for run in runs]


def faults(folder: Path, text: str) -> list[tuple[str, int, int]]:
    with pytest.raises(Rejected) as rejected:
        read(folder, text)
    return [(one.code, one.place.line, one.place.column) for one in rejected.value.findings if one.place]


def test_values_are_si_and_have_their_place(tmp_path: Path) -> None:
    (tmp_path / "runs.csv").write_text("run,speed / mph,time / s\n1,36,153\n", "utf-8")
    (run,) = read_runs(tmp_path / "runs.csv", "evidence/runs.csv", WANTED)
    assert run["indicated_speed"].value == pytest.approx(36 * 0.44704)
    assert str(run["time"].place) == "evidence/runs.csv:2:6"
    assert run["time"].text == "153 s"


def test_a_comma_in_quotation_marks_parts_nothing(tmp_path: Path) -> None:
    text = 'speed / mph,remark,time / s\n36,"mush, no drop",153\n'
    assert read(tmp_path, text) == [{"indicated_speed": pytest.approx(16.09344), "time": 153.0}]


def test_empty_lines_are_no_runs(tmp_path: Path) -> None:
    assert len(read(tmp_path, "speed / mph,time / s\n36,153\n\n,\n37,150\n")) == 2


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("speed / mph,time / s\n36,15x\n37,\n", [("R022", 2, 4), ("R022", 3, 4)]),
        ('speed / mph,time / s\n36,"1,53"\n', [("R022", 2, 4)]),
        ("speed / mph,time / s\n36,nan\n", [("R022", 2, 4)]),
        ("speed / mph,time / s\n36\n", [("R020", 2, 1)]),
        ("speed / mph,time / s\n36,1,2\n", [("R020", 2, 6)]),
        ('speed / mph,time / s\n36,"1\n', [("R020", 2, 4), ("R022", 2, 4)]),
        ("speed / mph,seconds\n36,1\n", [("R021", 1, 1)]),
        ("time / s,speed / mph,time / s\n1,36,1\n", [("R021", 1, 1)]),
        ("speed / mph,time / s\n", [("R020", 1, 1)]),
        ("", [("R020", 1, 1)]),
    ],
)
def test_each_fault_has_its_line_and_column(
    tmp_path: Path, text: str, found: list[tuple[str, int, int]]
) -> None:
    assert faults(tmp_path, text) == found


def test_a_unit_that_is_not_known_is_told_at_its_heading(tmp_path: Path) -> None:
    (tmp_path / "runs.csv").write_text("run,speed / furlong\n1,36\n", "utf-8")
    with pytest.raises(Rejected) as rejected:
        read_runs(tmp_path / "runs.csv", "evidence/runs.csv", {"v": ("speed / furlong", "speed")})
    (finding,) = rejected.value.findings
    assert (finding.code, str(finding.place)) == ("R021", "evidence/runs.csv:1:5")


def test_bytes_that_are_no_text_are_refused(tmp_path: Path) -> None:
    (tmp_path / "runs.csv").write_bytes(b"speed / mph,time / s\n36,\xff\n")
    with pytest.raises(Rejected) as rejected:
        read_runs(tmp_path / "runs.csv", "evidence/runs.csv", WANTED)
    assert [one.code for one in rejected.value.findings] == ["R002"]


def test_a_unit_may_have_a_stroke_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "runs.csv").write_text("speed / km/h\n36\n", "utf-8")
    (run,) = read_runs(tmp_path / "runs.csv", "evidence/runs.csv", {"v": ("speed / km/h", "speed")})
    assert run["v"].value == pytest.approx(10.0)
