"""One broken example for each code of this room; its whole message is the expected text.

A folder holds ``expected.txt`` and either a compliance file with the serial that it is used on, beside it
rule sets of the project if any, or the broken rule set alone.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from invented import Serial, read

from dossier.finding_codes import CODES
from dossier.findings import Finding, Severity, in_order
from dossier.judge.claim_register import hold_claims
from dossier.judge.rule_set_checks import check
from dossier.judge.rule_sets import known_rule_sets
from dossier.model.compliance import Compliance
from dossier.model.rule_set import RuleSet

EXAMPLES = Path(__file__).parent / "errors"
FIRST_OF_A_FILE = "J020"
"""From here on a code refuses a rule-set file; before it, the dossier is written and says so."""

NOTES = ("J017",)


def findings(code: str) -> tuple[Finding, ...]:
    folder = EXAMPLES / code
    own = {
        path.stem: read(path, f"rule_sets/{path.name}", RuleSet)
        for path in sorted(folder.glob("rule_sets/*.yaml"))
    }
    if not (folder / "compliance.yaml").is_file():
        return in_order(finding for name, rule_set in own.items() for finding in check(name, rule_set))
    compliance = read(folder / "compliance.yaml", "compliance.yaml", Compliance)
    one = Serial.of(folder / "serial.yaml")
    judgement = one.judged(compliance, {**known_rule_sets(), **own})
    held = hold_claims(compliance, {}, ())
    return in_order([*judgement.findings, *one.claims(compliance).findings, *held.findings])


CODES_HERE = sorted(code for code in CODES if code.startswith("J"))


def test_every_code_has_a_broken_example() -> None:
    assert sorted(folder.name for folder in EXAMPLES.iterdir()) == CODES_HERE


@pytest.mark.parametrize("code", CODES_HERE)
def test_the_whole_message_is_the_expected_text(code: str) -> None:
    expected = (EXAMPLES / code / "expected.txt").read_text("utf-8")
    assert "\n".join(map(str, findings(code))) + "\n" == expected


@pytest.mark.parametrize("code", CODES_HERE)
def test_the_example_shows_its_own_code_alone(code: str) -> None:
    assert {finding.code for finding in findings(code)} == {code}


@pytest.mark.parametrize("code", CODES_HERE)
def test_a_verdict_only_warns_and_a_broken_rule_set_is_refused(code: str) -> None:
    due = Severity.ERROR if code >= FIRST_OF_A_FILE else Severity.NOTE if code in NOTES else Severity.WARNING
    assert {finding.severity for finding in findings(code)} == {due}


@pytest.mark.parametrize("code", CODES_HERE)
def test_every_finding_has_a_place(code: str) -> None:
    assert all(finding.place for finding in findings(code))
