"""What to do if a check fails, which value is right, and whether a limit fits its words."""

from __future__ import annotations

from pathlib import Path

import pytest

from procedures.workbench import PREFLIGHT, RIG, Edit, findings

LIMITS = "  cell_voltage_spread: {"
MORE = (
    '  maximum_wind: {name: "Maximum wind for flight, with gusts", value: "18 kt", reason: own}\n'
    '  maximum_crosswind: {name: Maximum crosswind for take-off and landing, value: "8 kt", reason: own}\n'
    '  tyre_low: {name: Lowest tyre pressure, value: "28 psi", reason: own}\n'
    '  tyre_high: {name: Highest tyre pressure, value: "33 psi", reason: own}\n'
    '  charging_temperature: {name: Highest battery temperature for charging, value: "104 °F", reason: own}\n'
)
SECTION = "    if_not: Do not fly.\n"


def told(folder: Path, do: str, expect: str) -> list[str]:
    edits = (
        Edit("aircraft.yaml", LIMITS, MORE + LIMITS),
        Edit(
            RIG,
            "      - do: Read the wind.\n        expect: Calm.\n",
            f"      - do: {do}\n        expect: '{expect}'\n",
        ),
    )
    return [finding.code for finding in findings(folder, *edits) if finding.code in ("V108", "V109")]


FITTING = [
    (
        "Read the wind for take-off, along and across the field.",
        "{maximum_wind} or less with gusts, and {maximum_crosswind} or less across.",
    ),
    ("Read the tyre pressure.", "Between {tyre_low} and {tyre_high}."),
    ("Read the tyre pressure.", "{tyre_low} to {tyre_high}."),
    ("Read the battery temperature.", "Below {charging_temperature}, so that charging may begin."),
    ("Read the charge.", "70 % or more."),
    ("Read the fault memory.", "Every fault has its answer."),
]
WRONG = {
    "V109": [
        (
            "Read the wind, along and across.",
            "{maximum_crosswind} or less with gusts, and {maximum_wind} or less across.",
        ),
        (
            "Read the wind, along and across.",
            "{maximum_wind} or less with gusts, and {maximum_wind} or less across.",
        ),
        ("Read the tyre pressure.", "Between {tyre_high} and {tyre_low}."),
        ("Read the tyre pressure.", "{tyre_low} to {maximum_wind}."),
        ("Read the tyre pressure.", "{tyre_low} or less."),
        ("Read the wind.", "{maximum_wind} or more."),
        ("Read the battery temperature.", "{maximum_wind} or less."),
        ("Read the battery temperature.", "Below {charging_temperature}."),
    ],
    "V108": [
        ("Read the difference between the cells.", "The cells look even."),
        ("Measure the play at the tip.", "Hardly any."),
    ],
}


@pytest.mark.parametrize(("do", "expect"), FITTING)
def test_a_limit_among_its_own_words_is_left_alone(do: str, expect: str, tmp_path: Path) -> None:
    assert told(tmp_path, do, expect) == []


@pytest.mark.parametrize(
    ("code", "do", "expect"), [(code, *one) for code, some in WRONG.items() for one in some]
)
def test_a_limit_among_the_words_of_another_or_a_reading_without_value_is_told(
    code: str, do: str, expect: str, tmp_path: Path
) -> None:
    assert code in told(tmp_path, do, expect)


def codes(folder: Path, *edits: Edit) -> list[str]:
    return [finding.code for finding in findings(folder, *edits)]


def test_a_remedy_of_the_section_serves_each_of_its_checks(tmp_path: Path) -> None:
    assert "V107" not in codes(tmp_path)


def test_checks_without_remedy_in_a_section_without_one_are_told_and_mere_work_is_not(tmp_path: Path) -> None:
    found = [one for one in findings(tmp_path, Edit(PREFLIGHT, SECTION, "")) if one.code == "V107"]
    assert len(found) == 7  # of eleven steps four only raise, shut, move and switch on


def test_a_critical_check_needs_a_remedy_of_its_own(tmp_path: Path) -> None:
    critical = Edit(
        PREFLIGHT,
        "      - do: Look at the spar joint.\n        expect: Clip in.\n",
        "      - do: Look at the spar joint.\n        expect: Clip in.\n        critical: true\n"
        "        second_check: Ben looks.\n",
    )
    acts = Edit(
        PREFLIGHT,
        "        acts: [{act: inspect, what: spar}]\n",
        "        acts: [{act: inspect, what: spar}]\n        second_acts: [{act: look, what: spar}]\n",
    )
    own = Edit(
        PREFLIGHT,
        "        second_check: Ben looks.\n",
        "        second_check: Ben looks.\n        if_not: Rig again.\n",
    )
    assert "V107" in codes(tmp_path / "without", critical, acts)
    assert "V107" not in codes(tmp_path / "with", critical, acts, own)


def test_a_limit_in_the_remedy_of_a_section_must_exist(tmp_path: Path) -> None:
    assert "P010" in codes(tmp_path, Edit(PREFLIGHT, SECTION, '    if_not: "Wait below {no_such_limit}."\n'))
