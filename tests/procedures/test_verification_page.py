"""The page of a list says what was checked, what is wrong, and what a replay cannot prove."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from demos import demo

from dossier.compose.operating.lists import lists
from dossier.compose.operating.procedure_pages import page
from dossier.compose.operating.verification import verification
from dossier.dossier import Dossier
from procedures.workbench import RIG, verified, without


def _serial() -> Dossier:
    return demo("quillet-e1")["0003"]


def _markdown(dossier: Dossier, name: str) -> str:
    return page(dossier, next(one for one in lists(dossier) if one.name == name)).text


@pytest.mark.parametrize(
    ("name", "start", "end"),
    [
        ("rigging-1-wings", "In the trailer", "Wings joined and secured"),
        ("rigging-2-tail", "Wings joined and secured", "Wings and tailplane joined, controls tried"),
        (
            "rigging-3-battery",
            "Wings and tailplane joined, controls tried",
            "Rigged, chocked and held on the ground",
        ),
    ],
)
def test_the_page_says_how_many_checks_were_made_and_that_none_failed(
    name: str, start: str, end: str
) -> None:
    text = _markdown(_serial(), name)
    assert re.search(rf"from “{start}” to “{end}”.*: \d\d checks, no fault\.", text)


@pytest.mark.parametrize("name", ["rigging-1-wings", "rigging-2-tail", "rigging-3-battery"])
def test_the_page_says_what_a_replay_cannot_prove(name: str) -> None:
    text = _markdown(_serial(), name)
    assert "A replay cannot prove:" in text
    assert "That whoever checks has looked." in text


def test_a_faulty_list_says_so_before_its_first_step(tmp_path: Path) -> None:
    fault = next(
        report
        for report in verified(tmp_path, without(RIG, "Pull the rod")).reports
        if report.procedure == "rig"
    ).faults[0]
    dossier = _serial()
    reports = tuple(
        replace(report, faults=(fault,)) if report.procedure == "rigging-1-wings" else report
        for report in dossier.procedures
    )
    text = _markdown(replace(dossier, procedures=reports), "rigging-1-wings")
    assert (
        text.index("Do not work from this list.")
        < text.index("The aileron connector is made, and never pulled.")
        < text.index('id="step-1"')
    )


def test_a_list_that_names_no_states_is_said_to_be_unreplayed() -> None:
    said = verification(_serial(), "emergency-parachute")
    assert "was not replayed" in said.said
    assert said.not_proved == ()


def test_the_page_of_an_emergency_says_at_its_foot_that_it_was_only_read() -> None:
    text = _markdown(_serial(), "emergency-parachute")
    assert text.index("This list was read, and was not replayed") > text.index("This list is for serial")
    assert "A replay cannot prove:" not in text


def test_text_of_a_record_stays_text_in_a_fault(tmp_path: Path) -> None:
    fault = next(
        report
        for report in verified(tmp_path, without(RIG, "Pull the rod")).reports
        if report.procedure == "rig"
    ).faults[0]
    hostile = replace(
        fault, finding=replace(fault.finding, message="the <script>alert(1)</script> {{ 7 * 7 }} is loose")
    )
    dossier = _serial()
    reports = tuple(
        replace(one, faults=(hostile,)) if one.procedure == "rigging-1-wings" else one
        for one in dossier.procedures
    )
    text = _markdown(replace(dossier, procedures=reports), "rigging-1-wings")
    assert "<script>alert" not in text
    assert "&lt;script&gt;alert(1)&lt;/script&gt; {{ 7 * 7 }} is loose" in text
