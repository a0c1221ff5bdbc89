"""A log of a battery as a file: headings of the open format or named ones, units, and every fault with its
line."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.battery_log import BatteryLog, LogColumns
from dossier.findings import Place, Rejected
from dossier.read import log as room
from dossier.read.log import MOST_TOLD, read_log

HEAD = "Test Time / s,Voltage / V,Current / A\n"
ROWS = "0,58.6,0\n10,58.1,-15\n20,58.0,-15\n"


def read(folder: Path, text: str | bytes, columns: LogColumns | None = None) -> BatteryLog:
    path = folder / "log.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_log(path, "evidence/log.csv", columns)


def refused(folder: Path, text: str | bytes, columns: LogColumns | None = None) -> list[tuple[str, int, str]]:
    with pytest.raises(Rejected) as found:
        read(folder, text, columns)
    return [(one.code, one.place.line if one.place else 0, one.message) for one in found.value.findings]


def test_the_labels_of_the_open_format_are_taken(tmp_path: Path) -> None:
    log = read(tmp_path, HEAD + ROWS)
    assert (list(log.time), list(log.voltage), list(log.current)) == (
        [0, 10, 20],
        [58.6, 58.1, 58.0],
        [0, -15, -15],
    )
    assert (log.charge, log.temperature, dict(log.cells)) == (None, None, {})


def test_its_machine_names_are_taken(tmp_path: Path) -> None:
    log = read(tmp_path, "voltage_volt,current_ampere,test_time_second\n58.6,0,0\n58.1,-15,10\n")
    assert list(log.voltage) == [58.6, 58.1]


def test_other_units_in_the_heading_are_converted(tmp_path: Path) -> None:
    head = (
        "Test Time / min,Voltage / mV,Current / mA,Surface Temperature T1 / degC,Discharged Capacity / mAh\n"
    )
    log = read(tmp_path, head + "0,58600,0,20,0\n1,58100,-15000,21.5,250\n")
    assert list(log.time) == [0, 60]
    assert list(log.voltage) == pytest.approx([58.6, 58.1])
    assert list(log.current) == pytest.approx([0, -15])
    assert log.temperature is not None
    assert list(log.temperature) == pytest.approx([293.15, 294.65])
    assert log.charge is not None
    assert list(log.charge) == pytest.approx([0, 900])


def test_columns_may_be_named_and_cells_too(tmp_path: Path) -> None:
    columns = LogColumns(time="t / s", voltage="U / V", current="I / A", cells=("g1 / V", "g2 / mV"))
    log = read(tmp_path, "t / s,U / V,I / A,g1 / V,g2 / mV\n0,8.2,0,4.1,4100\n1,8.1,5,4.05,4050\n", columns)
    assert list(log.cells) == ["g1 / V", "g2 / mV"]
    assert list(log.cells["g2 / mV"]) == pytest.approx([4.1, 4.05])


def test_a_row_knows_its_line_also_behind_empty_ones(tmp_path: Path) -> None:
    log = read(tmp_path, HEAD + "0,58.6,0\n\n,,\n10,58.1,-15\n")
    assert log.place(1) == Place("evidence/log.csv", 5, 1)
    assert len(log) == 2


def test_a_mark_of_order_and_windows_line_ends_do_not_disturb(tmp_path: Path) -> None:
    assert len(read(tmp_path, "\ufeff" + (HEAD + ROWS).replace("\n", "\r\n"))) == 3


def test_other_columns_are_left_alone(tmp_path: Path) -> None:
    assert len(read(tmp_path, "remark," + HEAD + '"begin, warm",0,58.6,0\n,10,58.1,-15\n')) == 2


@pytest.mark.parametrize(
    ("text", "code", "line", "message"),
    [
        ("", "R020", 1, "the log has fewer than two rows of values"),
        (HEAD + "0,58.6,0\n", "R020", 1, "the log has fewer than two rows of values"),
        ("Voltage / V,Current / A\n1,2\n1,2\n", "R021", 1, "there is no column 'Test Time / s'"),
        (HEAD.replace("/ V", "/ kp") + ROWS, "R021", 1,
         "'kp' is no unit of voltage in the heading 'Voltage / kp'"),
        (HEAD.replace("Current", "Voltage") + ROWS, "R021", 1, "2 columns are headed as voltage"),
        (HEAD + ROWS + "30,57.9\n", "R020", 5, "the row has 2 fields, and the head has 3"),
        (HEAD + ROWS + "30,57.9,-15,1\n", "R020", 5, "the row has 4 fields, and the head has 3"),
        (HEAD + ROWS + "30,low,-15\n", "R022", 5, "'low' in the column 'Voltage / V' is no number"),
        (HEAD + ROWS + "30,nan,-15\n", "R022", 5, "'nan' in the column 'Voltage / V' is no number"),
        (HEAD + ROWS + "30,1_0,-15\n", "R022", 5, "'1_0' in the column 'Voltage / V' is no number"),
        (HEAD + ROWS + "30,,-15\n", "R022", 5, "the column 'Voltage / V' is empty"),
        (HEAD + ROWS + '30,"57.9,-15\n', "R020", 5, "the table breaks off: unexpected end of data"),
    ],
)  # fmt: skip
def test_each_fault_has_its_line(tmp_path: Path, text: str, code: str, line: int, message: str) -> None:
    assert (code, line, message) in refused(tmp_path, text)


def test_semicolons_are_recognised(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as found:
        read(tmp_path, "Test Time / s;Voltage / V;Current / A\n0;58,6;0\n1;58,1;15\n")
    assert [one.code for one in found.value.findings] == ["R020"]
    assert found.value.findings[0].help == "part columns by commas and decimals by points"


def test_a_misspelt_column_is_guessed(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as found:
        read(tmp_path, HEAD + ROWS, LogColumns(voltage="Voltag / V"))
    assert "did you mean 'Voltage / V'?" in found.value.findings[0].help


def test_a_named_cell_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert ("R021", 1, "there is no column 'g1 / V'") in refused(
        tmp_path, HEAD + ROWS, LogColumns(cells=("g1 / V",))
    )


def test_all_faults_are_told_at_once_in_order(tmp_path: Path) -> None:
    found = refused(tmp_path, HEAD + "0,a,b\n1,c,0\n2,58,0\n")
    assert [(code, line) for code, line, _ in found] == [("R022", 2), ("R022", 2), ("R022", 3)]


def test_a_flood_of_faults_is_cut_off_and_counted(tmp_path: Path) -> None:
    found = refused(tmp_path, HEAD + "0,x,0\n" * (MOST_TOLD + 7))
    assert len(found) == MOST_TOLD + 1
    assert found[-1][2] == "7 more faults like these follow"


def test_bytes_that_are_no_text_are_refused(tmp_path: Path) -> None:
    assert refused(tmp_path, b"Test Time / s\n\xff\n")[0][:2] == ("R002", 2)


def test_a_file_that_is_too_large_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "LARGEST_LOG", 10)
    assert refused(tmp_path, HEAD + ROWS)[0][0] == "R001"
