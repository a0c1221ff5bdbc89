"""A step names the remedy, the tool and the picture that rigging.yaml asks for."""

from __future__ import annotations

from pathlib import Path

import pytest

from procedures.workbench import MODEL, PREFLIGHT, RIG, Edit, findings

SPAR, WIND = "    name: Spar joint\n", "  wind: {name: Wind, required_in: [rig, derig]}\n"
PIN = "      - do: Insert the pin.\n        expect: Flush.\n"
READ = "      - do: Read the wind.\n        expect: Calm.\n"
NAMED = ("V115", "V116", "V117")


def told(folder: Path, asked: str, step: str, do: str = PIN) -> list[str]:
    """Ask the spar joint for something, and change the step that engages it."""
    edits = (Edit(MODEL, SPAR, f"{SPAR}    {asked}\n"), Edit(RIG, do, step))
    return [finding.code for finding in findings(folder, *edits) if finding.code in NAMED]


@pytest.mark.parametrize(("asked", "code"), [
    ("remedy: [engage]", "V115"), ("tools: {engage: rubber mallet}", "V116"),
    ("pictures: {engage: [rigging]}", "V117"),
])  # fmt: skip
def test_what_the_model_asks_for_and_the_step_leaves_out_is_told(
    tmp_path: Path, asked: str, code: str
) -> None:
    assert told(tmp_path, asked, PIN) == [code]


@pytest.mark.parametrize(("asked", "more"), [
    ("remedy: [engage]", "        if_not: Draw it out.\n"),
    ("tools: {engage: rubber mallet}", "        tool: Mallet of rubber, the rubber one\n"),
    ("remedy: [torque]", ""), ("pictures: {engage: [inspection]}", ""), ("tools: {torque: wrench}", ""),
])  # fmt: skip
def test_what_the_step_has_or_the_model_does_not_ask_for_is_not_told(
    tmp_path: Path, asked: str, more: str
) -> None:
    assert told(tmp_path, asked, PIN + more) == []


def test_a_tool_may_stand_in_the_words_of_the_step(tmp_path: Path) -> None:
    words = PIN.replace("Insert the pin.", "Insert the pin with the rubber mallet.")
    assert told(tmp_path, "tools: {engage: rubber mallet}", words) == []


def test_half_the_name_of_a_tool_is_not_its_name(tmp_path: Path) -> None:
    assert told(tmp_path, "tools: {engage: rubber mallet}", PIN + "        tool: hammer of rubber\n") == [
        "V116"
    ]


def test_the_remedy_of_the_section_stands_for_a_step_that_is_not_critical(tmp_path: Path) -> None:
    edits = (
        Edit(MODEL, SPAR, f"{SPAR}    remedy: [engage]\n"),
        Edit(RIG, "  - title: Wing\n", "  - title: Wing\n    if_not: Stop.\n"),
    )
    assert [one.code for one in findings(tmp_path / "a", *edits) if one.code == "V115"] == []
    critical = Edit(RIG, PIN, f"{PIN}        critical: true\n        second_check: Ben pulls at the pin.\n")
    assert [one.code for one in findings(tmp_path / "b", *edits, critical) if one.code == "V115"] == ["V115"]


@pytest.mark.parametrize(("asked", "code"), [("remedy: true", "V115"), ("tool: wind gauge", "V116")])
def test_a_check_asks_for_its_remedy_and_its_tool(tmp_path: Path, asked: str, code: str) -> None:
    model = Edit(MODEL, WIND, WIND.replace("derig]}", f"derig], {asked}}}"))
    missing = [one.code for one in findings(tmp_path / "a", model) if one.code in NAMED]
    more = "        if_not: Wait.\n        tool: Wind gauge\n"
    named = [one.place for one in findings(tmp_path / "b", model, Edit(RIG, READ, READ + more))
             if one.code in NAMED and one.place and one.place.file.endswith(RIG)]  # fmt: skip
    assert (set(missing), named) == ({code}, [])


def test_only_the_first_step_of_its_kind_needs_the_picture(tmp_path: Path) -> None:
    asked = Edit(MODEL, SPAR, f"{SPAR}    pictures: {{inspect: [preflight]}}\n")
    found = [one for one in findings(tmp_path, asked) if one.code == "V117"]
    assert [one.place.file for one in found if one.place] == [PREFLIGHT]


@pytest.mark.parametrize(("do", "told"), [
    ("Read the wind.", ["V118"]), ("Look at the strap of the wind sock.", ["V118"]),
    ("Pull the strap of the wind sock.", []), ("Take the strap, and pull at it.", []),
])  # fmt: skip
def test_a_check_that_asks_for_a_hand_is_not_made_by_a_look(tmp_path: Path, do: str, told: list[str]) -> None:
    model = Edit(MODEL, WIND, WIND.replace("derig]}", "derig], by_hand: true}"))
    found = findings(tmp_path, model, Edit(RIG, READ, READ.replace("Read the wind.", do)))
    here = [one.code for one in found if one.code == "V118" and one.place and one.place.file == RIG]
    assert here == told
