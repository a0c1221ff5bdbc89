"""A torque after the table is held against it in every list, replayed or not, and in the assembly."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.findings import Severity
from dossier.judge.rule_sets import known_rule_sets
from dossier.procedures.verify import verify
from dossier.project import load
from dossier.references import check
from dossier.starter import TEMPLATE, write_starter
from procedures.workbench import written

LIST = """title: Inspection
kind: inspection
purpose: Once a year.
people: 1
sections:
  - title: All
    steps:
      - do: Tighten the bolts of the motor mount.
        expect: The wrench clicks.
        torque: {value: "%s", fastener: "%s", source: "%s"%s}
closing: Inspected.
"""
TABLE = "AC 43.13-1B, table 7-1"
# bounds of table 7-1 as printed: 1/4-28, tension 50 to 70, shear 30 to 40; 5/16-24, tension 100 to 140 in-lb
CASES = {
    "inside": (("60 in-lb", "1/4-28 tension nut", TABLE, ""), ""),
    "both ends pass": (("60 in-lb ± 10 in-lb (limits)", "1/4-28 tension nut", TABLE, ""), ""),
    "above": (("71 in-lb", "1/4-28 tension nut", TABLE, ""), "tightened to 71 in-lb; the table has 50 to 70"),
    "below": (
        ("99 in-lb", "5/16-24 tension nut", TABLE, ""),
        "tightened to 99 in-lb; the table has 100 to 140",
    ),
    "of the other nut": (("60 in-lb", "1/4-28 shear nut", TABLE, ""), "the table has 30 to 40"),
    "with its drag": (("82 in-lb", "1/4-28 tension nut", TABLE, ', drag: "12 in-lb"'), ""),
    "in another unit": (("60 ft-lb", "1/4-28 tension nut", TABLE, ""), "tightened to 720 in-lb"),
    "no thread": (("60 in-lb", "mount bolt, tension nut", TABLE, ""), "no thread is named"),
    "no row": (("60 in-lb", "M6 bolt, tension nut", TABLE, ""), "the table has no row for the thread 'M6'"),
    "no nut": (("60 in-lb", "1/4-28 bolt", TABLE, ""), "whether the nut is of the tension or the shear type"),
    "of the maker": (("24 N m", "M8 bolt", "motor sheet 4", ""), ""),
}


@pytest.mark.parametrize("with_model", [True, False], ids=["beside a model", "without rigging.yaml"])
@pytest.mark.parametrize("name", CASES)
def test_a_torque_of_a_list_that_nobody_replays(name: str, with_model: bool, tmp_path: Path) -> None:
    texts, words = CASES[name]
    project = written(tmp_path)
    (project / "procedures" / "yearly.yaml").write_text(LIST % texts, "utf-8")
    if not with_model:
        (project / "rigging.yaml").unlink()
    found = [one for one in verify(load(project, ()), ()).findings if one.code == "V080"]
    assert [one.severity for one in found] == ([Severity.WARNING] if words else [])
    assert all(words in one.message for one in found)


@pytest.mark.parametrize(("more", "words"), [
    ('fastener: 1/4-28 tension nut, drag: "12 in-lb"', ""),
    ("fastener: 1/4-28 tension nut", "tightened to 62 to 82 in-lb; the table has 50 to 70"),
    ("fastener: 1/4-28 bolt", "whether the nut is of the tension or the shear type"),
])  # fmt: skip
def test_a_torque_of_the_assembly_is_held_against_the_table(more: str, words: str, tmp_path: Path) -> None:
    write_starter(tmp_path / "p")
    assembly = tmp_path / "p" / "assembly.yaml"
    old = 'required: {minimum: "0.02 mm", maximum: "0.08 mm", source: drawing 12}'
    text = (TEMPLATE / "assembly.yaml").read_text("utf-8")
    new = f'required: {{minimum: "62 in-lb", maximum: "82 in-lb", {more}, source: "{TABLE}"}}'
    assembly.write_text(text.replace(old, new), "utf-8")
    found = [one for one in check(load(tmp_path / "p", ()), known_rule_sets()) if one.code == "V080"]
    assert [words in one.message for one in found] == ([True] if words else [])
