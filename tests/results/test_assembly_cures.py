"""Cures whose logs are files: the log decides, and what is stated must be borne out by it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from errors.cases import ASSEMBLY, CURED, LOGGED_CURE, RECORD

from dossier.compose.cures import cures
from dossier.compose.printer import Printer
from dossier.dossier import Dossier
from dossier.findings import Finding, Rejected
from dossier.pipeline import run
from dossier.starter import write_starter

HOURS = [float(one) for one in range(24)]


def rows(celsius: list[float]) -> str:
    return "".join(f"{hour:g},{value:g}\n" for hour, value in zip(HOURS, celsius, strict=False))


def steady(value: float, hours: int = 22) -> list[float]:
    return [value + 0.2 * (-1) ** one for one in range(hours)]


def made(folder: Path, celsius: list[float] | str, *edits: tuple[str, str, str]) -> Dossier:
    write_starter(folder / "p")
    for file, old, new in ((RECORD, CURED, LOGGED_CURE), *edits):
        path = folder / "p" / file
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), "utf-8")
    text = celsius if isinstance(celsius, str) else f"Time / h,Mould / °C\n{rows(celsius)}"
    (folder / "p/serials/0001/evidence/cure.csv").write_text(text, "utf-8")
    return run(folder / "p", "0001")


def told(dossier: Dossier) -> list[Finding]:
    return [one for one in dossier.findings if one.code[0] in "AL"]


def codes(dossier: Dossier) -> list[str]:
    return [one.code for one in told(dossier)]


def test_a_log_that_shows_the_cure_leaves_nothing_open(tmp_path: Path) -> None:
    assert codes(made(tmp_path, steady(21.0))) == []


@pytest.mark.parametrize(("celsius", "words"), [
    (steady(21.0, 19), "20 h stated, and 18 h at 18 °C or above"),
    ([*steady(21.0)[:10], 18.05, *steady(21.0)[:11]], "lowest 19 °C stated, and 18.05 °C"),
    ([*steady(21.0)[:10], 24.5, *steady(21.0)[:11]], "highest 23 °C stated, and 24.5 °C"),
])  # fmt: skip
def test_a_stated_value_that_the_log_does_not_bear_out_is_told(
    tmp_path: Path, celsius: list[float], words: str
) -> None:
    dossier = made(tmp_path, celsius)
    assert [(one.code, words in one.message) for one in told(dossier)] == [("A022", True)]


def test_what_is_stated_worse_than_it_was_is_borne_out(tmp_path: Path) -> None:
    assert codes(made(tmp_path, steady(21.0, 24))) == []


def test_half_the_last_digit_as_written_is_no_contradiction(tmp_path: Path) -> None:
    """23.2 °C is 23 °C as written; with a thermometer within 0.4 °C so is 23.8 °C, and 24.2 °C is not."""
    peak = lambda value: [*steady(21.0)[:10], value, *steady(21.0)[:11]]  # noqa: E731 - one line a case
    found = [codes(made(tmp_path / f"{value}", peak(value))) for value in (23.2, 23.8, 24.2)]
    assert found == [[], [], ["A022"]]


def test_a_log_decides_though_the_stated_values_would_do(tmp_path: Path) -> None:
    """15 h are logged where 16 h are due and 20 h were stated."""
    assert codes(made(tmp_path, steady(21.0, 16))) == ["A006", "A022"]


def test_a_serial_whose_log_falls_short_is_kept_from_delivery(tmp_path: Path) -> None:
    states = [block.state for block in made(tmp_path, steady(21.0, 16)).assembly.blocks]
    assert {"out of tolerance", "log does not bear out the cure"} <= set(states)


def test_a_cure_that_hangs_on_the_error_of_the_thermometer_is_unclear(tmp_path: Path) -> None:
    """18.1 °C within 0.4 °C against 18 °C: whether any of the time counts is not known."""
    found = codes(made(tmp_path, steady(18.1), (RECORD, 'lowest: "19 °C"', 'lowest: "18 °C"')))
    assert found == ["A015"]


HEATED = (ASSEMBLY, 'highest: "30 °C",', 'highest: "30 °C", heating: "2 °C/h",')


@pytest.mark.parametrize(("start", "told"), [(20.0, []), (16.0, ["A006"])])
def test_heating_faster_than_the_step_allows_is_out_of_tolerance(
    tmp_path: Path, start: float, told: list[str]
) -> None:
    assert codes(made(tmp_path, [start, *steady(21.0)], HEATED)) == told


def test_a_step_may_ask_for_the_log_as_a_file(tmp_path: Path) -> None:
    write_starter(tmp_path / "p")
    file = tmp_path / "p" / ASSEMBLY
    file.write_text(
        file.read_text("utf-8").replace('time: "16 h",', 'time: "16 h", log_asked: true,'), "utf-8"
    )
    found = [one for one in run(tmp_path / "p", "0001").findings if one.code == "A010"]
    assert ["the log of the cure as a file" in one.message for one in found] == [True]


@pytest.mark.parametrize(("text", "code", "line", "column"), [
    ("Time / h,Mould / °C\n0,21\n1,x\n2,21\n", "R022", 3, 3),
    ("Time / h,Mould / °C\n0,21\n1\n", "R020", 3, 1),
    ("Time / h,Oven / °C\n0,21\n1,21\n", "R021", 1, 1),
    ("Time / h,Mould\n0,21\n1,21\n", "R021", 1, 1),
    ("Time / h,Mould / °C\n0,21\n2,21\n1,21\n", "L003", 4, 1),
    ("Time / h,Mould / °C\n", "R020", 1, 1),
])  # fmt: skip
def test_a_log_that_cannot_be_read_is_refused_with_its_place(
    tmp_path: Path, text: str, code: str, line: int, column: int
) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, text)
    found = refused.value.findings[0]
    assert found.place is not None
    assert (found.code, found.place.file, found.place.line, found.place.column) == (
        code, "serials/0001/evidence/cure.csv", line, column)  # fmt: skip


def test_a_log_that_is_no_evidence_of_its_entry_is_refused(tmp_path: Path) -> None:
    uncited = (RECORD, "{file: evidence/cure.csv, shows", "{file: evidence/weighing.csv, shows")
    with pytest.raises(Rejected) as refused:
        made(tmp_path, steady(21.0), uncited)
    assert [one.code for one in refused.value.findings] == ["P024"]


def test_a_log_of_another_day_is_not_read_before_it(tmp_path: Path) -> None:
    """The entry of the spar bond is of 2026-02-03; its log, broken or not, is no matter before that day."""
    write_starter(tmp_path / "p")
    record = tmp_path / "p" / RECORD
    record.write_text(record.read_text("utf-8").replace(CURED, LOGGED_CURE), "utf-8")
    (tmp_path / "p/serials/0001/evidence/cure.csv").write_text("nonsense", "utf-8")
    assert run(tmp_path / "p", "0001", date(2026, 2, 1)).assembly.cures == {}


def printed(dossier: Dossier) -> list[tuple[str, ...]]:
    """Time, temperature and small print of each row of the printed log, the caption first."""
    part = cures(Printer(dossier, "assembly.md"))
    assert part is not None
    values = part.plots[0].values
    return [
        (values.caption,),
        *((one.cells[0].text, one.cells[1].text, one.cells[1].note) for one in values.rows),
    ]


def test_the_printed_rows_of_a_log_hold_its_extremes_and_say_which_they_are(tmp_path: Path) -> None:
    # warmed from 10 °C, below the limit; the lowest at work stands in a row that no equal step would meet
    values = [10.0, *steady(22.0, 20)]
    values[7] = 21.1
    values[len(values) - 4] = 22.9
    (caption,), *found = printed(made(tmp_path, values))
    assert caption.startswith("One row in ")
    assert caption.endswith(" of the log, its last, and its extremes")
    notes = {note: temperature for _, temperature, note in found if note}
    assert notes == {
        "lowest of the whole log": "10 °C",
        "lowest between first and last row at the limit": "21.1 °C",
        "highest": "22.9 °C",
    }


def test_the_lowest_of_a_cure_is_headed_by_what_it_is_the_lowest_of(tmp_path: Path) -> None:
    part = cures(Printer(made(tmp_path, steady(60.0)), "assembly.md"))
    assert part is not None
    assert [head.text for head in part.table.heads][2] == "Lowest between first and last row at the limit"
