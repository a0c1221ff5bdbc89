"""A record file goes into the record whole and checked, or not at all."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from field_list import NAME, write_project
from record_file import DAY, SECOND, Tree, completed, leave_open, saved, tick

from dossier.cli import main
from dossier.completed_lists.add import add_record
from dossier.compose import records
from dossier.findings import Finding, Rejected
from dossier.model.events import ListCompleted
from dossier.pipeline import run
from dossier.project import load

EVENT = f"serials/0001/events/{DAY}-{NAME}-1.yaml"
EVIDENCE = f"serials/0001/evidence/lists/{DAY}-{NAME}-1.json"


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return write_project(tmp_path / "project")


def files_of(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def refused(project: Path, file: Path, serial: str = "0001") -> tuple[Finding, ...]:
    """Add, and see that it is refused and that the project is as before, to the byte and to the folder."""
    before, folders = files_of(project), sorted(path for path in project.rglob("*") if path.is_dir())
    with pytest.raises(Rejected) as told:
        add_record(project, serial, file)
    assert files_of(project) == before
    assert sorted(path for path in project.rglob("*") if path.is_dir()) == folders
    return told.value.findings


def codes(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings]


def the_list(project: Path) -> ListCompleted:
    (event,) = [event for event in load(project).serials["0001"].events if isinstance(event, ListCompleted)]
    return event


def test_two_files_are_new_and_no_other_changes(project: Path, tmp_path: Path) -> None:
    before, file = files_of(project), saved(tmp_path, completed())
    add_record(project, "0001", file)
    after = files_of(project)
    assert sorted(after.keys() - before.keys()) == sorted([EVENT, EVIDENCE])
    assert {name: after[name] for name in before} == before
    assert after[EVIDENCE] == file.read_bytes()


def test_the_event_tells_who_did_how_much(project: Path, tmp_path: Path) -> None:
    add_record(project, "0001", saved(tmp_path, completed()))
    event = the_list(project)
    assert (event.steps_done, event.second_checks_done, event.steps_open, event.people) == (
        3,
        1,
        [],
        ["A. Builder", SECOND],
    )


def test_the_event_is_one_of_the_serial_and_cites_the_file(project: Path, tmp_path: Path) -> None:
    add_record(project, "0001", saved(tmp_path, completed()))
    dossier = run(project, "0001")
    assert isinstance(dossier.state.events[-1], ListCompleted)
    assert dossier.evidence[-1].path == EVIDENCE.removeprefix("serials/0001/")
    assert dossier.state.events[-1].place is not None
    assert dossier.state.events[-1].place.file == EVENT


def test_an_event_in_its_own_file_stands_behind_those_of_its_day_and_before_later_ones(project: Path) -> None:
    record = load(project).serials["0001"]
    day = record.events[0].date
    folder = project / "serials/0001/events"
    folder.mkdir()
    for name in ("b", "a"):
        text = f"event: inspection\ndate: {day}\nby: {name}\nwhat: looked\nresult: seen\n"
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    later = "  - event: inspection\n    date: 2026-07-01\n    by: last\n    what: looked\n    result: seen\n"
    file = project / "serials/0001/record.yaml"
    file.write_text(file.read_text(encoding="utf-8") + later, encoding="utf-8")
    of_day = [str(event.by) for event in record.events if event.date == day]
    assert [str(event.by) for event in load(project).serials["0001"].events][-len(of_day) - 3 :] == [
        *of_day,
        "a",
        "b",
        "last",
    ]


def test_faults_of_all_event_files_and_of_the_record_are_told_at_once(project: Path) -> None:
    folder = project / "serials/0001/events"
    folder.mkdir()
    for name in ("a", "b"):
        (folder / f"{name}.yaml").write_text(
            "event: inspection\ndate: 2026-06-01\nby: x\nwhat: y\n", encoding="utf-8"
        )
    with pytest.raises(Rejected) as told:
        load(project)
    places = [finding.place.file for finding in told.value.findings if finding.place]
    assert places == ["serials/0001/events/a.yaml", "serials/0001/events/b.yaml"]


def test_open_steps_and_reasons_are_told_in_words(project: Path, tmp_path: Path) -> None:
    made = completed()
    leave_open(made, "step-2")
    tick(made, "step-3")["override"] = {
        "reason": "The pin was in",
        "missing": ["step-2"],
        "same_person": False,
    }
    add_record(project, "0001", saved(tmp_path, made))
    event = the_list(project)
    assert list(event.steps_open) == ["step 2"]
    assert [(str(one.tick), str(one.reason)) for one in event.overrides] == [("step 3", "The pin was in")]


def test_a_second_check_of_ones_own_step_is_not_counted_as_one_by_another_person(
    project: Path, tmp_path: Path
) -> None:
    made = completed()
    check = tick(made, "step-3-second")
    check["by"] = made["people"][0]
    check["override"] = {"reason": "Alone on the field", "missing": [], "same_person": True}
    add_record(project, "0001", saved(tmp_path, made))
    assert the_list(project).second_checks_done == 0


def test_the_same_list_is_not_taken_twice_even_if_it_was_saved_again(project: Path, tmp_path: Path) -> None:
    add_record(project, "0001", saved(tmp_path, completed()))
    assert codes(refused(project, saved(tmp_path, completed()))) == ["T008"]
    again = completed() | {"saved": f"{DAY}T11:00:00+02:00"}
    assert codes(refused(project, saved(tmp_path, again))) == ["T008"]


def test_a_second_list_of_a_day_gets_the_next_number(project: Path, tmp_path: Path) -> None:
    add_record(project, "0001", saved(tmp_path, completed()))
    event, _ = add_record(
        project, "0001", saved(tmp_path, completed() | {"started": f"{DAY}T08:00:00+02:00"})
    )
    assert event.name == f"{DAY}-{NAME}-2.yaml"


def test_a_list_made_for_another_edition_of_the_procedure_is_refused_in_words(
    project: Path, tmp_path: Path
) -> None:
    file = project / f"procedures/{NAME}.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("hangs free", "lies free"), encoding="utf-8")
    (finding,) = refused(project, saved(tmp_path, completed()))
    assert finding.code == "T003"
    assert finding.message == (
        "the list was made for another edition of 'inspection-field': "
        "the words beside its steps have changed (an expected state, a caution, a note)"
    )


RED = "Pull the red plug of the battery."
BLACK = "Pull the black plug of the battery."


@pytest.mark.parametrize(("old", "new", "said"), [
    ("Pull the red plug", "Pull the black plug", f"step-1 was '{RED}', and now step 1 is '{BLACK}'"),
    ("[2 main pins, ", "[3 main pins, ",
     "start-1 was '2 main pins', and now count at the start, 3 main pins is '3 main pins'"),
    ("loose_items: [2 main pins, 2 safety pins]\n", "",
     f"start-1 was '2 main pins', and now step 1 is '{RED}'"),
])  # fmt: skip
def test_the_first_tick_whose_words_have_changed_is_shown(
    project: Path, tmp_path: Path, old: str, new: str, said: str
) -> None:
    file = project / f"procedures/{NAME}.yaml"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")
    (finding,) = refused(project, saved(tmp_path, completed()))
    assert finding.message == f"the list was made for another edition of 'inspection-field': {said}"


def test_a_list_of_another_serial_and_type_is_refused_with_both(project: Path, tmp_path: Path) -> None:
    made = completed() | {"serial_number": "0002", "type": "Other"}
    assert codes(refused(project, saved(tmp_path, made))) == ["T001", "T001"]


def _edit(change: Callable[[Tree], object]) -> Tree:
    made = completed()
    change(made)
    return made


@pytest.mark.parametrize(("code", "change"), [
    ("T002", lambda made: made.update(procedure="derigging")),
    ("T004", lambda made: made["ticks"].pop()),
    ("T004", lambda made: tick(made, "step-1").update(text="Leave the red plug in.")),
    ("T004", lambda made: made.update(open=["step-1"])),
    ("T005", lambda made: tick(made, "step-3-second").update(by=made["people"][0])),
    ("T006", lambda made: leave_open(made, "step-1")),
    ("T006", lambda made: leave_open(made, "start-1")),
    ("T007", lambda made: leave_open(made, *(one["tick"] for one in made["ticks"]))),
    ("T009", lambda made: [one.update(done="1970-01-01T00:00:00+00:00") for one in made["ticks"]]),
    ("T011", lambda made: tick(made, "step-3").update(done=f"{DAY}T08:00:00+02:00")),
    ("T011", lambda made: tick(made, "end-1").update(done=f"{DAY}T08:00:00+02:00")),
    ("T011", lambda made: made.update(saved=f"{DAY}T08:00:00+02:00")),
    ("T010", lambda made: made.update(people=["A. Builder", "a. builder"])),
    ("M001", lambda made: made.pop("digest")),
    ("M002", lambda made: made.update(run="rm")),
    ("M005", lambda made: tick(made, "step-1").update(tick="../step-1")),
    ("M004", lambda made: tick(made, "step-1").update(note="x" * 501)),
    ("M012", lambda made: made.update(format="dossier-list/2")),
    ("M016", lambda made: tick(made, "step-1").update(note="bell\u0007")),
    ("M017", lambda made: tick(made, "step-1").update(done="yesterday")),
])  # fmt: skip
def test_a_list_that_is_not_right_is_refused(
    project: Path, tmp_path: Path, code: str, change: Callable[[Tree], object]
) -> None:
    file = tmp_path / "list.json"
    file.write_text(json.dumps(_edit(change)), encoding="utf-8")  # escapes signs, as a hand-made file may
    assert code in codes(refused(project, file))


def test_a_clock_that_was_set_back_with_a_reason_is_followed_from_there(
    project: Path, tmp_path: Path
) -> None:
    made = completed()
    for name in ("step-2", "step-3", "step-3-second", "end-1", "end-2"):
        tick(made, name)["done"] = f"{DAY}T08:00:00+02:00"
    tick(made, "step-2")["override"] = {"reason": "The clock was ahead", "missing": [], "same_person": False}
    add_record(project, "0001", saved(tmp_path, made))
    assert [str(one.reason) for one in the_list(project).overrides] == ["The clock was ahead"]


def test_a_step_that_was_passed_over_and_made_up_for_later_is_in_order(project: Path, tmp_path: Path) -> None:
    made = completed()
    tick(made, "step-1")["done"] = f"{DAY}T09:30:00+02:00"
    tick(made, "step-2")["override"] = {
        "reason": "The plug was out",
        "missing": ["step-1"],
        "same_person": False,
    }
    add_record(project, "0001", saved(tmp_path, made))
    assert the_list(project).steps_done == 3


def test_times_with_other_offsets_are_compared_as_moments(project: Path, tmp_path: Path) -> None:
    made = completed()
    for name in ("step-2", "step-3", "step-3-second", "end-1", "end-2"):
        made_at = tick(made, name)["done"]
        tick(made, name)["done"] = made_at.replace("T09:", "T08:").replace("+02:00", "+01:00")
    add_record(project, "0001", saved(tmp_path, made))
    assert the_list(project).steps_done == 3


def test_notes_beside_ticks_are_told_by_the_event(project: Path, tmp_path: Path) -> None:
    made = completed()
    tick(made, "step-2")["note"] = 'Pin 2 "greased": #1 <b>'
    add_record(project, "0001", saved(tmp_path, made))
    assert [(str(one.tick), str(one.note)) for one in the_list(project).notes] == [
        ("step 2", 'Pin 2 "greased": #1 <b>')
    ]


def test_ticks_that_were_taken_back_are_told_by_the_event(project: Path, tmp_path: Path) -> None:
    made = completed()
    made["taken_back"] = [{"tick": "step-2", "at": f"{DAY}T09:31:00+02:00", "ticks": 2}]
    add_record(project, "0001", saved(tmp_path, made))
    assert [(str(one.tick), str(one.at), one.ticks) for one in the_list(project).taken_back] == [
        ("step 2", f"{DAY} 09:31:00+02:00", 2)
    ]


def test_the_records_page_tells_notes_and_ticks_taken_back(project: Path, tmp_path: Path) -> None:
    made = completed()
    tick(made, "step-2")["note"] = "Pin greased"
    made["taken_back"] = [{"tick": "step-2", "at": f"{DAY}T09:31:00+02:00", "ticks": 2}]
    add_record(project, "0001", saved(tmp_path, made))
    text = "".join(page.text for page in records.pages(run(project, "0001")))
    assert "step 2. Pin greased" in text
    assert f"step 2. At {DAY} 09:31:00+02:00; 2 ticks in all" in text


def test_a_tick_taken_back_that_the_list_has_not_is_refused(project: Path, tmp_path: Path) -> None:
    made = completed()
    made["taken_back"] = [{"tick": "step-9", "at": f"{DAY}T09:31:00+02:00", "ticks": 1}]
    assert codes(refused(project, saved(tmp_path, made))) == ["T004"]


def test_a_second_check_needs_its_own_step_whatever_reason_is_given(project: Path, tmp_path: Path) -> None:
    made = completed()
    leave_open(made, "step-3")
    tick(made, "step-3-second")["override"] = {
        "reason": "In a hurry",
        "missing": ["step-3"],
        "same_person": False,
    }
    assert "T006" in codes(refused(project, saved(tmp_path, made)))


DEEP = b'{"ticks": ' + b"[" * 100_000 + b"]" * 100_000 + b"}"


@pytest.mark.parametrize(("content", "code", "line"), [
    (b"format: dossier-list/1\n", "R015", 1),
    (b'{"format": "dossier-list/1",\n "ticks": NaN}', "R015", 1),
    (b'{"format": 1,\n "format": 2}', "R012", 2),
    (b'{"a": "\xff"}', "R002", 1),
    (b'{"a": "\xe2\x80\xae"}', "R005", 1),
    (DEEP, "R015", 1),
    (b'{"ticks": ' + b"[" * 60 + b"]" * 60 + b"}", "R007", 1),
    (b'{"a": ' + b"9" * 5000 + b"}", "R015", 1),
    (b"[]", "R003", 1),
    (b"", "R015", 1),
    (b" " * 500_001, "R001", 1),
    (b'{\n "format": "x",,\n}', "R015", 2),
])  # fmt: skip
def test_hostile_json_is_refused_with_its_place(
    project: Path, tmp_path: Path, content: bytes, code: str, line: int
) -> None:
    file = tmp_path / "list.json"
    file.write_bytes(content)
    findings = refused(project, file)
    assert code in codes(findings)
    assert all(finding.place and finding.place.file == "list.json" for finding in findings)
    assert findings[0].place
    assert findings[0].place.line == line


def test_words_of_people_stay_words_in_the_event(project: Path, tmp_path: Path) -> None:
    name, reason = 'O. "Quo: #te\\ {x}', "- not: a list # or\\n comment 'x' <b>"
    made = json.loads(json.dumps(completed()).replace(json.dumps(SECOND), json.dumps(name)))
    leave_open(made, "step-2")
    tick(made, "step-3")["override"] = {"reason": reason, "missing": ["step-2"], "same_person": False}
    add_record(project, "0001", saved(tmp_path, made))
    event = the_list(project)
    assert str(event.people[1]) == name
    assert str(event.overrides[0].reason) == reason


def test_a_folder_of_events_that_leads_out_of_the_serial_is_refused(project: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (project / "serials/0001/events").symlink_to(tmp_path / "elsewhere")
    assert codes(refused(project, saved(tmp_path, completed()))) == ["R013"]
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_list_from_before_the_build_is_refused(project: Path, tmp_path: Path) -> None:
    made = completed() | {"as_of": "1999-01-01"}
    for one in made["ticks"]:
        one["done"] = "1999-01-02T09:00:00+00:00"
    assert codes(refused(project, saved(tmp_path, made))) == ["E001"]


def test_the_command_names_both_files(
    project: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["add-record", str(project), "0001", str(saved(tmp_path, completed()))]) == 0
    assert capsys.readouterr().out.split() == [str(project / EVENT), str(project / EVIDENCE)]


def test_the_command_says_what_is_wrong(
    project: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["add-record", str(project), "0002", str(tmp_path / "none.json")]) == 2
    assert "serials here: 0001" in capsys.readouterr().err
