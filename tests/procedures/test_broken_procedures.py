"""Every code of the verifier has a broken record, and the whole message is the expected text.

``DOSSIER_REWRITE_EXPECTED=1`` writes the messages anew; review them as a diff.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from dossier.finding_codes import CODES
from dossier.procedures.chain import chain
from dossier.procedures.rules.table import RUN_RULES
from dossier.procedures.system import System
from dossier.procedures.verify import listings, verify
from dossier.project import load
from procedures.errors.cases import CASES, Broken
from procedures.test_fixtures import FIXTURES
from procedures.workbench import RIG, Edit, findings, verified, without, written

EXPECTED = Path(__file__).parent / "errors" / "expected"
ELSEWHERE = {
    "V001": "test_a_project_without_a_model_says_that_nothing_was_verified",
    "V008": "test_twenty_options_are_verified_in_part_and_the_note_says_which",
}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_a_broken_procedure_gives_the_whole_expected_message(case: Broken, tmp_path: Path) -> None:
    found = findings(tmp_path, *case.edits, absent=case.absent)
    assert case.code in {finding.code for finding in found}
    text = "\n\n".join(f"{finding.severity.value} {finding}" for finding in found) + "\n"
    expected = EXPECTED / f"{case.code}.txt"
    if os.environ.get("DOSSIER_REWRITE_EXPECTED"):
        expected.write_text(text, encoding="utf-8")
    assert text == expected.read_text(encoding="utf-8")


def test_every_code_of_the_verifier_has_a_broken_record() -> None:
    assert {code for code in CODES if code.startswith("V")} == {case.code for case in CASES} | set(ELSEWHERE)


def test_the_bench_itself_has_no_fault(tmp_path: Path) -> None:
    verification = verified(tmp_path)
    assert verification.findings == ()
    assert all(report.is_ready for report in verification.reports)


def test_a_list_with_a_fault_of_safety_is_not_ready_and_the_others_are(tmp_path: Path) -> None:
    reports = verified(tmp_path, without(RIG, "Pull the rod")).reports
    assert {report.procedure for report in reports if not report.is_ready} == {"rig"}


def test_a_fault_tells_the_steps_that_led_to_it(tmp_path: Path) -> None:
    reports = verified(tmp_path, without(RIG, "Close the sleeve")).reports
    fault = next(report for report in reports if report.procedure == "rig").faults[0]
    assert fault.trace[0] == (10, "Join the aileron.")


def test_a_project_without_a_model_says_that_nothing_was_verified(tmp_path: Path) -> None:
    project = written(tmp_path)
    (project / "rigging.yaml").unlink()
    verification = verify(load(project, ()), ())
    assert [finding.code for finding in verification.findings] == ["V001"]
    assert not any(report.is_ready or report.checks for report in verification.reports)


SPOILED: tuple[tuple[Edit, ...], ...] = (
    *(case.edits for case in CASES if case.code not in ("V002", "V003", "V004", "V007")),
    *(edits for edits, _ in FIXTURES.values()),
)


def failing_rules(folder: Path, edits: tuple[Edit, ...]) -> set[str]:
    project = load(written(folder, *edits), ())
    assert project.rigging is not None
    system = System(project.rigging, project.aircraft, project.battery, frozenset())
    runs = chain(
        system, [one for one in listings(project, project.rigging, ()) if one.procedure.starts_from]
    ).runs
    return {rule.__name__ for rule in RUN_RULES for run in runs if next(rule(run), None) is not None}


def test_each_check_of_a_replay_fails_on_some_broken_list_and_passes_on_the_good_one(tmp_path: Path) -> None:
    failed = set().union(
        *(failing_rules(tmp_path / str(number), edits) for number, edits in enumerate(SPOILED))
    )
    assert failed == {rule.__name__ for rule in RUN_RULES}
    assert failing_rules(tmp_path / "good", ()) == set()


def test_a_closing_line_that_names_a_list_which_does_not_exist_is_told(tmp_path: Path) -> None:
    found = verified(
        tmp_path, Edit(RIG, "closing: Rigged.", 'closing: Rigged. Go on with "Pre-flight".')
    ).findings
    assert [finding.code for finding in found] == ["V093"]
