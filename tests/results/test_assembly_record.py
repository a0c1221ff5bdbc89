"""The assembly record: what was signed, what keeps a serial from delivery. Edits of the starter project."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from dossier.project import load
from dossier.replay import replay
from dossier.results.assembly import AssemblyRecord
from dossier.results.assembly_checks import assembly_record
from dossier.starter import write_starter

RECORD, ASSEMBLY = "serials/0001/record.yaml", "assembly.yaml"
BUILT = (RECORD, '"1"}', '"1", completed: 2026-04-30}')
PINS = (
    "  - {step: main-pins, date: 2026-02-20, by: A. Builder, checked_by: C. Colleague, "
    'measured: "0.05 mm", result: done}\n'
)
TOO_WIDE = (RECORD, 'measured: "0.05 mm", result: done', 'measured: "0.09 mm", result: out of tolerance')
FLIGHT = """  - event: flight-test
    date: 2026-06-01
    by: A. Pilot
    results:
      - {quantity: stall_speed, value: "22 kt", configuration: power off}
"""
FLOWN = (RECORD, "", FLIGHT)
INSPECTED = (
    "  - {event: inspection, date: 2026-06-02, by: A. Builder, what: All, result: Seen, open_items: [one]}\n"
)
FOUND = """nonconformities:
  - number: NC-1
    step: main-pins
    found: 2026-02-20
    description: Left pin too loose.
"""
DECIDED = """    disposition: accepted
    reason: Calculation 7.
    decided_by: A. Builder
    closed: 2026-03-01
"""

Edit = tuple[str, str, str]


def made(folder: Path, *edits: Edit, as_of: str = "2026-12-31") -> AssemblyRecord:
    """Replace texts of the starter project; an edit of nothing stands at the end of its file."""
    write_starter(folder / "p")
    for file, old, new in edits:
        path = folder / "p" / file
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1) if old else text + new, "utf-8")
    project = load(folder / "p")
    record = project.serials["0001"]
    state = replay(record, project.battery.options, date.fromisoformat(as_of))
    return assembly_record(project.assembly, record, state)


def codes(record: AssemblyRecord) -> list[str]:
    return [finding.code for finding in record.findings]


def states(record: AssemblyRecord) -> list[tuple[str, str]]:
    return [(block.subject, block.state) for block in record.blocks]


def test_a_complete_record_keeps_nothing_from_delivery(tmp_path: Path) -> None:
    record = made(tmp_path, BUILT, FLOWN)
    assert (record.blocks, record.findings) == ((), ())


def test_a_build_without_a_day_of_completion_is_not_ready(tmp_path: Path) -> None:
    assert states(made(tmp_path, FLOWN)) == [("The build", "not completed")]


def test_a_build_completed_later_was_not_completed_then(tmp_path: Path) -> None:
    assert ("The build", "not completed") in states(made(tmp_path, BUILT, as_of="2026-04-29"))


def test_a_step_without_an_entry_is_open(tmp_path: Path) -> None:
    record = made(tmp_path, BUILT, FLOWN, (RECORD, PINS, ""))
    assert states(record) == [("Clearance of the main pins", "open")]


def test_an_entry_of_a_later_day_does_not_count_yet(tmp_path: Path) -> None:
    assert ("Clearance of the main pins", "open") in states(made(tmp_path, BUILT, as_of="2026-02-19"))


def test_a_step_that_an_event_shows_is_open_until_the_event(tmp_path: Path) -> None:
    assert states(made(tmp_path, BUILT)) == [("Fly the acceptance flights", "open")]


@pytest.mark.parametrize(("left", "told"), [("[one]", ["open"]), ("[]", [])])
def test_an_inspection_shows_its_step_only_if_it_leaves_nothing_open(
    tmp_path: Path, left: str, told: list[str]
) -> None:
    asked = (ASSEMBLY, "shown_by: flight-test", "shown_by: inspection")
    record = made(tmp_path, BUILT, asked, (RECORD, "", INSPECTED.replace("[one]", left)))
    assert [state for _, state in states(record)] == told


@pytest.mark.parametrize(("measured", "told"), [
    ("0.02 mm", []), ("0.08 mm", []), ("0.019 mm", ["A006"]), ("0.081 mm", ["A006"]), ("0.003 in", []),
])  # fmt: skip
def test_both_ends_of_a_tolerance_pass(tmp_path: Path, measured: str, told: list[str]) -> None:
    assert codes(made(tmp_path, BUILT, FLOWN, (RECORD, "0.05 mm", measured))) == told


@pytest.mark.parametrize("log", ['time: "15 h"', 'lowest: "17 °C"', 'highest: "31 °C"'])
def test_a_cure_outside_its_sheet_is_out_of_tolerance(tmp_path: Path, log: str) -> None:
    key = log.split(":")[0]
    right = {"time": 'time: "20 h"', "lowest": 'lowest: "19 °C"', "highest": 'highest: "23 °C"'}[key]
    record = made(tmp_path, BUILT, FLOWN, (RECORD, right, log))
    assert codes(record) == ["A006"]
    assert log.split('"')[1] in record.findings[0].message


def test_what_is_out_of_tolerance_is_called_wrong_and_not_only_open(tmp_path: Path) -> None:
    record = made(tmp_path, BUILT, FLOWN, TOO_WIDE)
    assert [(block.state, block.fails) for block in record.blocks] == [("out of tolerance", True)]


def test_an_open_nonconformity_stands_in_place_of_the_missing_decision(tmp_path: Path) -> None:
    record = made(tmp_path, BUILT, FLOWN, TOO_WIDE, (RECORD, "events:\n", FOUND + "events:\n"))
    assert codes(record) == ["A007"]
    assert ("Nonconformity NC-1", "open") in states(record)


def test_what_was_accepted_with_a_reason_no_longer_keeps_from_delivery(tmp_path: Path) -> None:
    record = made(
        tmp_path,
        BUILT,
        FLOWN,
        (RECORD, "0.05 mm", "0.09 mm"),
        (RECORD, "events:\n", FOUND + DECIDED + "events:\n"),
    )
    assert (record.blocks, record.findings) == ((), ())


def test_rework_that_is_closed_without_a_new_entry_is_not_enough(tmp_path: Path) -> None:
    rework = (RECORD, "events:\n", FOUND + DECIDED.replace("accepted", "rework") + "events:\n")
    assert codes(made(tmp_path, BUILT, FLOWN, TOO_WIDE, rework)) == ["A006"]


def test_the_last_entry_of_a_step_counts(tmp_path: Path) -> None:
    again = PINS.replace("2026-02-20", "2026-03-01")
    record = made(tmp_path, BUILT, FLOWN, TOO_WIDE, (RECORD, "events:\n", again + "events:\n"))
    assert (record.blocks, record.findings) == ((), ())
    assert [len(step.entries) for step in record.steps if step.name == "main-pins"] == [2]


def test_a_nonconformity_that_was_closed_later_was_open_then(tmp_path: Path) -> None:
    decided = (RECORD, "events:\n", FOUND + DECIDED + "events:\n")
    assert codes(made(tmp_path / "then", decided, as_of="2026-02-28")) == ["A007"]
    assert codes(made(tmp_path / "later", decided, as_of="2026-03-01")) == []


def test_the_shelf_life_ends_on_its_last_day(tmp_path: Path) -> None:
    """Twelve months from 2025-02-03 end on 2026-02-03, the day of use (Regulation 1182/71, Article 3)."""
    assert codes(made(tmp_path / "a", BUILT, FLOWN, (RECORD, "2025-11-20", "2025-02-03"))) == []
    assert codes(made(tmp_path / "b", BUILT, FLOWN, (RECORD, "2025-11-20", "2025-02-02"))) == ["A004"]


def test_the_day_on_the_label_comes_before_the_shelf_life(tmp_path: Path) -> None:
    label = (RECORD, "made: 2025-11-20", "made: 2025-11-20, expires: 2026-01-31")
    assert codes(made(tmp_path, BUILT, FLOWN, label)) == ["A004"]


def test_a_lot_that_ages_needs_a_date(tmp_path: Path) -> None:
    assert codes(made(tmp_path, BUILT, FLOWN, (RECORD, ", made: 2025-11-20", ""))) == ["A005"]


def test_nobody_checks_his_own_work(tmp_path: Path) -> None:
    assert codes(
        made(tmp_path, BUILT, FLOWN, (RECORD, "    checked_by: C. Colleague", "    checked_by: A. Builder"))
    ) == ["A010"]


def test_an_unsigned_hold_of_another_stage_binds_the_acceptance(tmp_path: Path) -> None:
    unsigned = (RECORD, "    checked_by: C. Colleague\n    checked: 2026-02-04\n", "")
    later = (RECORD, PINS, "")
    record = made(tmp_path, BUILT, FLOWN, unsigned, later)
    assert "A002" in codes(record)
    assert any("'weighed' was begun on 2026-05-02" in finding.message for finding in record.findings)


def test_a_hold_signed_on_the_day_of_the_next_step_was_not_passed(tmp_path: Path) -> None:
    assert codes(made(tmp_path, BUILT, FLOWN, (RECORD, "checked: 2026-02-04", "checked: 2026-02-20"))) == []


def test_a_step_for_an_optional_item_is_not_asked_of_a_serial_without_it(tmp_path: Path) -> None:
    optional = (
        ASSEMBLY,
        "        do: Clearance of the main pins\n",
        "        do: Clearance of the main pins\n        option: parachute\n",
    )
    without = (RECORD, "assembly:\n", "items_left_out: [parachute]\nassembly:\n")
    assert states(made(tmp_path / "with", BUILT, FLOWN, optional, (RECORD, PINS, ""))) == [
        ("Clearance of the main pins", "open")
    ]
    assert states(made(tmp_path / "without", BUILT, FLOWN, optional, without, (RECORD, PINS, ""))) == []


def test_without_an_assembly_file_the_words_of_an_entry_are_its_step(tmp_path: Path) -> None:
    write_starter(tmp_path / "p")
    (tmp_path / "p" / ASSEMBLY).unlink()
    text = (tmp_path / "p" / RECORD).read_text("utf-8").replace(BUILT[1], BUILT[2])
    start, end = text.index("assembly:"), text.index("events:")
    entries = (
        "assembly:\n  - {step: Wing closed, date: 2026-02-03, by: A. Builder, lots: [AD-7], result: done}\n"
        "  - {step: Weighed, result: open}\n"
    )
    (tmp_path / "p" / RECORD).write_text(text[:start] + entries + text[end:], "utf-8")
    project = load(tmp_path / "p")
    record = project.serials["0001"]
    found = assembly_record(None, record, replay(record, project.battery.options, date(2026, 12, 31)))
    assert [step.title for step in found.steps] == ["Wing closed", "Weighed"]
    assert states(found) == [("Weighed", "open")]


POT_LIFE = (ASSEMBLY, "shelf_life: 12}", 'shelf_life: 12, pot_life: "60 min"}')


@pytest.mark.parametrize(("worked", "told"), [("60 min", []), ("61 min", ["A021"]), ("", ["A005"])])
def test_what_was_mixed_is_in_its_place_within_its_pot_life(
    worked: str, told: list[str], tmp_path: Path
) -> None:
    text = (write_starter(tmp_path / "q"), (tmp_path / "q" / RECORD).read_text("utf-8"))[1]
    lot = text[text.index("{material: adhesive") : text.index("}", text.index("{material: adhesive"))]
    said = (RECORD, lot, f'{lot}, worked: "{worked}"' if worked else lot)
    before = codes(made(tmp_path / "without", BUILT))
    assert sorted(codes(made(tmp_path / "with", BUILT, POT_LIFE, said))) == sorted([*before, *told])
