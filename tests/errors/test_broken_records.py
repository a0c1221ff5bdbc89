"""Every finding code has a broken record, and the whole message is the expected text.

``DOSSIER_REWRITE_EXPECTED=1`` writes the messages anew; review them as a diff.
"""

from __future__ import annotations

import os
import re
from datetime import date
from pathlib import Path

import pytest

from dossier.cli import main
from dossier.finding_codes import CODES
from dossier.findings import Finding, Rejected
from dossier.fleet import make_all
from dossier.starter import write_starter
from errors.cases import CASES, Broken

EXPECTED = Path(__file__).parent / "expected"
ELSEWHERE = {
    "P060": "tests/test_own_output.py",
    "P061": "tests/test_own_output.py",
    "P062": "tests/test_own_output.py",
    "P063": "tests/test_own_output.py",
    "P064": "tests/test_own_output.py: test_an_output_that_is_a_file_ends_in_words_"
    "and_the_code_of_a_wrong_call",
    "P005": "test_a_starter_is_never_written_over_a_folder",
    "R015": "tests/completed_lists: test_hostile_json_is_refused_with_its_place",
    "M016": "tests/completed_lists: test_hostile_json_is_refused_with_its_place",
    "M017": "tests/completed_lists: test_hostile_json_is_refused_with_its_place",
    "R013": "test_an_evidence_link_that_leads_out_of_the_folder_is_refused",
    "R017": "tests/read/test_picture.py: test_a_link_that_leads_out_of_the_project_is_refused",
    "R020": "tests/read/test_log.py: test_each_fault_has_its_line",
    "R021": "tests/read/test_log.py: test_each_fault_has_its_line",
    "R022": "tests/read/test_log.py: test_each_fault_has_its_line",
    "R023": "tests/read/test_unread.py: test_a_link_that_leads_out_of_the_project_is_refused",
}
"""Codes that no edit of a file can bring about, and the test that does."""
AS_OF = {"W005": date(2026, 5, 3), "E014": date(2026, 5, 3)}


def break_project(folder: Path, case: Broken) -> None:
    write_starter(folder)
    for file, old, new in case.edits:
        text = (folder / file).read_text(encoding="utf-8")
        assert old in text, f"{file} does not hold {old!r}"
        (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    for file, content in case.whole.items():
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_bytes(content)
    for file in case.absent:
        (folder / file).unlink()


def findings_of(folder: Path, case: Broken) -> tuple[Finding, ...]:
    try:
        dossiers = make_all(folder, [case.only] if case.only else None, AS_OF.get(case.code))
    except Rejected as rejected:
        return rejected.findings
    return tuple(finding for dossier in dossiers for finding in dossier.findings)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_a_broken_record_gives_the_whole_expected_message(case: Broken, tmp_path: Path) -> None:
    folder = tmp_path / "starter"
    break_project(folder, case)
    findings = findings_of(folder, case)
    assert case.code in {finding.code for finding in findings}
    text = "\n\n".join(f"{finding.severity.value} {finding}" for finding in findings) + "\n"
    expected = EXPECTED / f"{case.code}.txt"
    if os.environ.get("DOSSIER_REWRITE_EXPECTED"):
        expected.write_text(text, encoding="utf-8")
    assert text == expected.read_text(encoding="utf-8")


def test_every_code_of_the_record_and_its_figures_has_a_broken_record() -> None:
    covered = {case.code for case in CASES} | set(ELSEWHERE)
    assert {code for code in CODES if code[0] in "RMPEWCASDF"} | {
        "L009",
        "L010",
        "L011",
        "L012",
        "L013",
    } == covered  # other L: tests/compute


def test_every_code_in_the_source_is_listed() -> None:
    package = Path(__file__).parents[2] / "dossier"
    used = {
        code
        for path in package.rglob("*.py")
        for code in re.findall(r'"([A-Z]\d{3})"', path.read_text(encoding="utf-8"))
    }
    assert used == set(CODES)


def test_the_untouched_starter_has_no_finding(tmp_path: Path) -> None:
    write_starter(tmp_path / "starter")
    assert [
        finding for dossier in make_all(tmp_path / "starter", None, None) for finding in dossier.findings
    ] == []


def test_a_starter_is_never_written_over_a_folder(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    with pytest.raises(Rejected) as refused:
        write_starter(tmp_path / "mine")
    assert [finding.code for finding in refused.value.findings] == ["P005"]
    assert list((tmp_path / "mine").iterdir()) == []


def test_an_evidence_link_that_leads_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    write_starter(tmp_path / "starter")
    evidence = tmp_path / "starter/serials/0001/evidence/weighing.csv"
    evidence.rename(tmp_path / "secret.csv")
    evidence.symlink_to(tmp_path / "secret.csv")
    with pytest.raises(Rejected) as refused:
        make_all(tmp_path / "starter", None, None)
    assert [finding.code for finding in refused.value.findings] == ["R013"]


def test_the_problems_of_many_files_are_told_at_once_in_order(tmp_path: Path) -> None:
    folder = tmp_path / "starter"
    write_starter(folder)
    for file, old, new in (
        ("aircraft.yaml", '"225 kg"', "225"),
        ("battery.yaml", "series: 14", "series: many"),
        ("serials/0001/record.yaml", "by: A. Builder", "bye: A. Builder"),
    ):
        path = folder / file
        path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    with pytest.raises(Rejected) as refused:
        make_all(folder, None, None)
    files = [finding.place.file for finding in refused.value.findings if finding.place]
    assert files == sorted(files)
    assert set(files) == {"aircraft.yaml", "battery.yaml", "serials/0001/record.yaml"}


def test_a_wrong_record_prints_every_problem_and_no_traceback(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "starter"
    write_starter(folder)
    (folder / "hazards.yaml").write_text("hazards: 12\n", encoding="utf-8")
    (folder / "battery.yaml").unlink()
    assert main(["check", str(folder)]) == 2
    said = capsys.readouterr()
    assert "P002" in said.err
    assert "M014" in said.err
    assert "Traceback" not in said.err
    assert "2 problems; nothing was written" in said.err
