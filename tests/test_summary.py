"""A serial in a few lines: how heavy it is, how its requirements stand, and what is open, the worst first."""

from __future__ import annotations

from pathlib import Path

import pytest
from demos import SERIALS, demo
from sample_project import Draft, support, weighing

from dossier.judge.verdict import State
from dossier.summary import OPEN, blocks, counts, is_open, summary, worst_first

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
    lines = summary(dossier).split("\n")[1 : -len(blocks(dossier)) or None]
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
def test_an_aircraft_is_open_just_when_a_requirement_is(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    assert is_open(dossier) == ("\n" in summary(dossier))


@EVERY_SERIAL
def test_what_keeps_an_aircraft_from_delivery_stands_last(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    told = blocks(dossier)
    assert len(told) == len(dossier.assembly.blocks)
    assert summary(dossier).split("\n")[1 + len([v for v in dossier.verdicts if v.verdict in OPEN]) :] == told


def test_what_does_not_conform_stands_first() -> None:
    verdicts = demo("quillet-e1")["0005"].verdicts
    assert worst_first(verdicts)[0].verdict is State.DOES_NOT_CONFORM
    assert {verdict.requirement for verdict in worst_first(verdicts)} == {
        verdict.requirement for verdict in verdicts
    }


def test_an_aircraft_that_was_not_weighed_says_so(tmp_path: Path) -> None:
    assert "0001 as of 2026-01-12: not weighed; " in summary(Draft().make(tmp_path))


def test_an_aircraft_that_was_weighed_without_battery_is_not_called_unweighed(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(weighing(support("all", "50 kg", "50 kg", arm="0.5 m")))
    assert "0001 as of 2026-03-01: empty, without battery, 50.0 kg; " in summary(draft.make(tmp_path))


@pytest.mark.parametrize(("readings", "word"), [(("50 kg",), "1 warning"), (("50 kg", "50 kg"), "")])
def test_warnings_are_counted_and_one_is_no_plural(
    readings: tuple[str, ...], word: str, tmp_path: Path
) -> None:
    draft = Draft()
    draft.compliance["claims"] = {}
    draft.compliance["relies_on"] = []
    draft.events.append(weighing(support("all", *readings, arm="0.5 m")))
    first = summary(draft.make(tmp_path)).split("\n")[0]
    assert first == "0001 as of 2026-03-01: empty, without battery, 50.0 kg" + (f"; {word}" if word else "")


def test_no_line_holds_a_space_that_terminals_show_oddly() -> None:
    assert "\u00a0" not in summary(demo("quillet-e1")["0002"]).split("\n")[0]
