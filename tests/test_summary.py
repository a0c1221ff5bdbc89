"""A serial in a few lines: how heavy it is, how its requirements stand, and what is open, the worst first."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from demos import SERIALS, demo
from sample_project import Draft, support, weighing

from dossier.judge.claim_result import Support
from dossier.judge.verdict import State
from dossier.summary import OPEN, blocks, counts, is_open, others, summary, worst_first

EVERY_SERIAL = pytest.mark.parametrize(("project", "serial"), SERIALS)


@EVERY_SERIAL
def test_the_first_line_names_serial_date_and_counts(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    first = summary(dossier).split("\n")[0]
    assert first.startswith(f"{serial} as of {dossier.state.as_of}: empty ")
    assert counts(dossier) in first


@EVERY_SERIAL
def test_every_open_requirement_has_a_line_with_its_reason(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    lines = summary(dossier).split("\n")[1 : -len(blocks(dossier)) - len(others(dossier)) or None]
    wanted = [verdict for verdict in dossier.verdicts if verdict.verdict in OPEN]
    assert len(lines) == len(wanted)
    assert all(
        any(verdict.requirement in line and verdict.reason in line for line in lines) for verdict in wanted
    )


@EVERY_SERIAL
def test_the_counts_add_up_to_all_requirements(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    assert sum(int(part.split()[0]) for part in counts(dossier).split(", ")) == len(dossier.verdicts)


@EVERY_SERIAL
def test_an_aircraft_is_open_just_when_a_requirement_or_work_is(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    open_ones = [verdict for verdict in dossier.verdicts if verdict.verdict in OPEN]
    assert is_open(dossier) == bool(open_ones or blocks(dossier))


@EVERY_SERIAL
def test_every_claim_that_is_not_supported_has_a_line_and_none_makes_the_aircraft_open(
    project: str, serial: str
) -> None:
    dossier = demo(project)[serial]
    lines = [line.replace("\u00a0", " ") for line in others(dossier)]
    left = [claim for claim in dossier.claims if claim.result is not Support.SUPPORTED]
    assert left
    told = [
        claim.claim
        for claim in left
        if any(claim.text.replace("\u00a0", " ") in line and str(claim.result) in line for line in lines)
    ]
    assert told == [claim.claim for claim in left]
    assert is_open(replace(dossier, claims=())) == is_open(dossier)


def test_what_is_overdue_and_what_an_inspection_left_open_have_lines() -> None:
    lines = "\n".join(others(demo("quillet-e1")["0005"]))
    assert "  overdue: Inspection after 25 h of flight: " in lines
    assert "  open: Owner to take out the second 12 V battery" in lines


@EVERY_SERIAL
def test_what_keeps_an_aircraft_from_delivery_stands_behind_the_requirements(
    project: str, serial: str
) -> None:
    dossier = demo(project)[serial]
    told = blocks(dossier)
    assert len(told) == len(dossier.assembly.blocks)
    behind = 1 + len([one for one in dossier.verdicts if one.verdict in OPEN])
    assert summary(dossier).split("\n")[behind:] == [*told, *others(dossier)]


def test_what_does_not_conform_stands_first() -> None:
    verdicts = demo("quillet-e1")["0005"].verdicts
    assert worst_first(verdicts)[0].verdict is State.DOES_NOT_CONFORM
    assert {verdict.requirement for verdict in worst_first(verdicts)} == {
        verdict.requirement for verdict in verdicts
    }


def test_an_aircraft_that_was_not_weighed_says_so(tmp_path: Path) -> None:
    assert "0001 as of 2026-01-12: not weighed; " in summary(Draft().make(tmp_path))


def on_two(*readings: str) -> tuple[Any, Any]:
    """Stand the aircraft on two wheels, 98 kg together, as the list of the starter has it."""
    return support("front", *readings, arm="0 m"), support("rear", "58 kg", "58 kg", arm="1 m")


def test_an_aircraft_that_was_weighed_without_battery_is_not_called_unweighed(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(weighing(*on_two("40 kg", "40 kg")))
    assert "0001 as of 2026-03-01: empty, without battery, 98.0 kg; " in summary(draft.make(tmp_path))


@pytest.mark.parametrize(("readings", "word"), [(("40 kg",), "1 warning"), (("40 kg", "40 kg"), "")])
def test_warnings_are_counted_and_one_is_no_plural(
    readings: tuple[str, ...], word: str, tmp_path: Path
) -> None:
    draft = Draft()
    draft.compliance["claims"] = {}
    draft.compliance["relies_on"] = []
    draft.events.append(weighing(*on_two(*readings)))
    first = summary(draft.make(tmp_path)).split("\n")[0]
    assert first == "0001 as of 2026-03-01: empty, without battery, 98.0 kg" + (f"; {word}" if word else "")


def test_no_line_holds_a_space_that_terminals_show_oddly() -> None:
    assert "\u00a0" not in summary(demo("quillet-e1")["0002"]).split("\n")[0]
