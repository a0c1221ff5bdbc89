"""Ordinary records that are hard on the way from the figures to the pages: none of them may end
in a traceback."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.findings import Rejected
from dossier.pipeline import run
from dossier.project import load
from dossier.references import rigging_open
from dossier.starter import write_starter
from dossier.web.record_packet import packet_for

POWERED = '  powered: {value: "yes", ground: electric motor}\n'


def edited(folder: Path, file: str, old: str, new: str) -> Path:
    write_starter(folder)
    text = (folder / file).read_text("utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new), "utf-8")
    return folder


@pytest.mark.parametrize("fact", ["", POWERED.replace("yes", "no"), POWERED.replace("yes", "Yes")])
def test_a_missing_or_odd_fact_still_gives_a_declaration(fact: str, tmp_path: Path) -> None:
    pages = packet_for(edited(tmp_path / "p", "compliance.yaml", POWERED, fact), "0001", None).pages
    (page,) = (page for page in pages if page.path == "declaration.md")
    assert "not declared" in page.text.lower() or "not shown" in page.text.lower()


@pytest.mark.parametrize("current", ["0.015 A", "0.3 A", "1 A", "3 A"])
def test_cells_that_cannot_carry_level_flight_get_words_and_no_card(current: str, tmp_path: Path) -> None:
    limit = 'maximum_discharge_current: "20 A"'
    made = run(edited(tmp_path / "p", "battery.yaml", limit, limit.replace("20 A", current)), "0001")
    assert made.modelled.gauges == ()
    told = {finding.code for finding in made.findings}
    assert {"D002", "D004"} <= told


@pytest.mark.parametrize(
    ("words", "spoiled"),
    [
        ("purpose: Brings", "purpose: Below {no_such_limit}, brings"),
        ("closing: All pins", "closing: Below {no_such_limit}, all pins"),
        ("        by: pilot", "        by: pilot {no_such_limit}"),
        ("  - title: Wings\n", "  - title: Wings\n    note: Below {no_such_limit}\n"),
    ],
)
def test_a_limit_in_braces_that_is_none_is_refused_wherever_a_list_speaks(
    words: str, spoiled: str, tmp_path: Path
) -> None:
    folder = edited(tmp_path / "p", "procedures/rigging.yaml", words, spoiled)
    with pytest.raises(Rejected) as refused:
        run(folder, "0001")
    assert ["no_such_limit" in finding.message for finding in refused.value.findings] == [True]


def test_what_is_dated_after_the_last_event_is_in_the_dossier(tmp_path: Path) -> None:
    record = "serials/0001/record.yaml"
    found = (
        "nonconformities:\n"
        "  - {number: NC-1, found: 2026-06-10, description: Crack in the pin fitting}\nevents:\n"
    )
    made = run(edited(tmp_path / "p", record, "events:\n", found), "0001")
    assert str(made.state.as_of) == "2026-06-10"
    assert any("NC-1" in one.subject for one in made.assembly.blocks)


def test_a_hanging_aircraft_may_be_weighed_on_one_point(tmp_path: Path) -> None:
    folder = edited(
        tmp_path / "p",
        "serials/0001/record.yaml",
        "    place_of_weighing: closed hangar\n",
        "    place_of_weighing: closed hangar\n    suspended: true\n",
    )
    path = folder / "serials/0001/record.yaml"
    lines = path.read_text("utf-8").splitlines()
    kept = [
        line
        for line in lines
        if not line.lstrip().startswith(("- {name: right", "- {name: tail", "right: {", "tail: {"))
    ]
    path.write_text("\n".join(kept) + "\n", "utf-8")
    made = run(folder, "0001")
    assert made.weighing is not None
    assert len(made.weighing.rows) == 1
    # one wheel is not the whole aircraft, and the list of masses says so
    assert "W008" in {finding.code for finding in made.findings}


def test_a_rigging_model_without_states_is_told_at_their_key(tmp_path: Path) -> None:
    write_starter(tmp_path / "p")
    path = tmp_path / "p/rigging.yaml"
    text, before = path.read_text("utf-8"), "states:\n"
    rest = text.partition(before)[2]
    path.write_text(text.partition(before)[0] + "states: {}\n" + rest[rest.index("people:") :], "utf-8")
    (told,) = (one for one in rigging_open.check(load(tmp_path / "p")) if "no state" in one.message)
    assert str(told.place) == "rigging.yaml:3:1"
