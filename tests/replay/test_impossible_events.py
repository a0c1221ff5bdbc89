"""Events that cannot have happened so: each has its code and stands at the line that is to be corrected."""

from __future__ import annotations

from pathlib import Path

import pytest
from sample_project import Draft, Tree, event, pack_fitted, pack_removed

from dossier.findings import Finding, Rejected


def refused(folder: Path, *events: Tree) -> list[Finding]:
    draft = Draft()
    draft.events.extend(events)
    with pytest.raises(Rejected) as rejected:
        draft.make(folder)
    return list(rejected.value.findings)


def edition(letter: str, on: str) -> Tree:
    return event("edition", on, letter=letter, reason="issue")


def inspection(on: str) -> Tree:
    return event("inspection", on, what="all", result="good")


FITTED = pack_fitted("P-1", "18 kg", "2026-02-01")
RETIRED = pack_removed("P-1", "2026-02-02", retired=True)

CASES = {
    "an event before the one above it": (
        "E001",
        "date: '2026-02-01'",
        [inspection("2026-02-02"), inspection("2026-02-01")],
    ),
    "an event before the build": ("E001", "date: '2026-01-11'", [inspection("2026-01-11")]),
    "an option that the type does not have": (
        "E002",
        "option: big-pack",
        [pack_fitted("P-1", "18 kg", option="big-pack")],
    ),
    "a battery that is in already": (
        "E003",
        "pack: P-1",
        [FITTED, pack_fitted("P-1", "18 kg", "2026-02-03")],
    ),
    "a retired battery": ("E004", "pack: P-1", [FITTED, RETIRED, pack_fitted("P-1", "18 kg", "2026-02-03")]),
    "a second battery in the bay": ("E005", "pack: P-2", [FITTED, pack_fitted("P-2", "18 kg", "2026-02-03")]),
    "a battery that is not in": ("E006", "pack: P-2", [FITTED, pack_removed("P-2", "2026-02-03")]),
    "a letter that was used": ("E007", "letter: A", [edition("A", "2026-02-01"), edition("A", "2026-02-02")]),
    "a letter that goes back": (
        "E007",
        "letter: B",
        [edition("C", "2026-02-01"), edition("B", "2026-02-02")],
    ),
    "one letter after two": ("E007", "letter: B", [edition("AA", "2026-02-01"), edition("B", "2026-02-02")]),
}


@pytest.mark.parametrize("case", CASES)
def test_an_impossible_event_has_its_code(case: str, tmp_path: Path) -> None:
    code, _, events = CASES[case]
    assert [finding.code for finding in refused(tmp_path, *events)] == [code]


@pytest.mark.parametrize("case", CASES)
def test_an_impossible_event_shows_the_line_to_correct(case: str, tmp_path: Path) -> None:
    _, line, events = CASES[case]
    place = refused(tmp_path, *events)[0].place
    assert place is not None
    assert place.text.strip() == line
    written = (tmp_path / "project" / place.file).read_text("utf-8").split("\n")
    assert written[place.line - 1] == place.text


def test_the_last_of_two_equal_lines_is_the_one_to_correct(tmp_path: Path) -> None:
    _, line, events = CASES["a battery that is in already"]
    place = refused(tmp_path, *events)[0].place
    assert place is not None
    written = (tmp_path / "project" / place.file).read_text("utf-8").split("\n")
    assert place.line == max(number for number, text in enumerate(written, 1) if text.strip() == line)


def test_all_impossible_events_are_told_at_once(tmp_path: Path) -> None:
    found = refused(
        tmp_path, pack_removed("P-9", "2026-02-01"), edition("B", "2026-02-02"), edition("A", "2026-02-03")
    )
    assert [finding.code for finding in found] == ["E006", "E007"]


def test_every_code_of_this_room_has_a_case() -> None:
    assert {code for code, _, _ in CASES.values()} == {f"E00{number}" for number in range(1, 8)}
