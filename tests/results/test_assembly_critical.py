"""Critical steps of the assembly: another person looks, and each control is seen to go the right way."""

from __future__ import annotations

from pathlib import Path

import pytest
from errors.cases import ASSEMBLY, HOOKED_UP, RECORD, SAW, SAW_UP

from dossier.dossier import Dossier
from dossier.findings import Rejected
from dossier.pipeline import run
from dossier.results.assembly_critical import same_person
from dossier.starter import write_starter

Edit = tuple[str, str, str]
BOTH = "by: A. Builder, checked_by: C. Colleague, measured"


def made(folder: Path, seen: str = SAW_UP, *edits: Edit) -> Dossier:
    write_starter(folder / "p")
    for file, old, new in (*HOOKED_UP, *edits, (*SAW[:2], SAW[2].format(seen))):
        path = folder / "p" / file
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), "utf-8")
    return run(folder / "p", "0001")


def codes(dossier: Dossier) -> list[str]:
    return [one.code for one in dossier.findings if one.code.startswith("A")]


def test_a_control_that_two_people_saw_go_the_right_way_leaves_nothing_open(tmp_path: Path) -> None:
    assert codes(made(tmp_path)) == []


@pytest.mark.parametrize("by", ["C. Colleague", "c colleague", "A. Builder and C. Colleague"])
def test_a_second_check_by_whoever_did_the_work_is_none(tmp_path: Path, by: str) -> None:
    dossier = made(tmp_path, SAW_UP, (RECORD, BOTH, f"by: {by}, checked_by: C. Colleague, measured"))
    assert codes(dossier) == ["A026"]


def test_a_second_check_by_nobody_is_told_once(tmp_path: Path) -> None:
    assert codes(made(tmp_path, SAW_UP, (RECORD, BOTH, "by: A. Builder, measured"))) == ["A026"]


def test_a_missing_second_check_keeps_from_delivery(tmp_path: Path) -> None:
    blocks = made(tmp_path, SAW_UP, (RECORD, BOTH, "by: A. Builder, measured")).assembly.blocks
    assert ("second check missing", True) in [(one.state, one.fails) for one in blocks]


@pytest.mark.parametrize(("seen", "told"), [
    ("{control: stick, moves: right, surface: left aileron, goes: down}", []),
    ("{control: Stick, moves: left, surface: Left aileron, goes: up}", []),
    ("{control: stick, moves: left, surface: left aileron, goes: down}", ["A027"]),
    ("{control: stick, moves: right, surface: left aileron, goes: up}", ["A027"]),
    ("{control: pedal, moves: left, surface: rudder, goes: left}", ["A026", "A027"]),
    ("", ["A026"]),
])  # fmt: skip
def test_what_was_seen_is_held_against_the_model(tmp_path: Path, seen: str, told: list[str]) -> None:
    assert sorted(codes(made(tmp_path, seen))) == told


def test_a_crossed_control_keeps_from_delivery(tmp_path: Path) -> None:
    blocks = made(tmp_path, SAW_UP.replace("goes: up", "goes: down")).assembly.blocks
    assert ("control seen to go the wrong way", True) in [(one.state, one.fails) for one in blocks]


def test_work_that_is_open_need_not_have_been_checked(tmp_path: Path) -> None:
    opened = (
        RECORD,
        'C. Colleague, measured: "0.05 mm", result: done',
        'C. Colleague, measured: "0.05 mm", result: open',
    )
    assert codes(made(tmp_path, "", (opened[0], opened[1], opened[2]))) == []


@pytest.mark.parametrize(("old", "new"), [
    ("        critical: true\n", ""),
    ('        second_check: "Hold the aileron. Stick left: the left aileron is up"\n', ""),
    ("        checked_by: second person\n  - name: A", "  - name: A"),
])  # fmt: skip
def test_a_step_that_looks_at_controls_is_critical_and_checked_twice(
    tmp_path: Path, old: str, new: str
) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, SAW_UP, (ASSEMBLY, old, new))
    assert "A024" in {one.code for one in refused.value.findings}


@pytest.mark.parametrize("name", ["left-main-pin", "nothing"])
def test_a_sense_is_that_of_something_with_ways(tmp_path: Path, name: str) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, SAW_UP, (ASSEMBLY, "senses: [aileron]", f"senses: [{name}]"))
    assert "P010" in {one.code for one in refused.value.findings}


@pytest.mark.parametrize(("one", "other", "same"), [
    ("Jory Pellen", "JORY  PELLEN", True), ("J. Pellen", "J Pellen", True),
    ("Jory Pellen and Wilmot Hask", "Wilmot Hask", True), ("Jory Pellen", "Jory Pell", False),
    ("Ann", "Anna", False),
])  # fmt: skip
def test_one_person_is_known_under_several_spellings(one: str, other: str, *, same: bool) -> None:
    assert same_person(one, other) is same
