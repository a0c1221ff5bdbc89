"""The commands: exit codes, what they print, and that nothing is written when something is wrong."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from field_list import write_project

from dossier.cli import main
from dossier.project import KINDS_OF_FILE
from dossier.starter import write_starter


@pytest.fixture
def starter(tmp_path: Path) -> Path:
    write_starter(tmp_path / "mine")
    return tmp_path / "mine"


def change(folder: Path, file: str, old: str, new: str) -> None:
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_build_writes_a_site_and_results_and_the_index_whatever_the_verdicts(
    starter: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["build", str(starter), "--out", str(out)]) == 0
    assert sorted(path.name for path in out.iterdir()) == ["0001", "index.html"]
    assert (out / "0001/site/index.html").is_file()
    assert json.loads((out / "0001/results.json").read_text(encoding="utf-8"))["serial_number"] == "0001"
    assert "not shown: us-14-cfr-103/e-4" in capsys.readouterr().out


def test_building_twice_gives_the_same_bytes(starter: Path, tmp_path: Path) -> None:
    for out in ("one", "two"):
        assert main(["build", str(starter), "--out", str(tmp_path / out)]) == 0
    one, two = (
        {
            path.relative_to(tmp_path / out): path.read_bytes()
            for path in sorted((tmp_path / out).rglob("*"))
            if path.is_file()
        }
        for out in ("one", "two")
    )
    assert one == two


def test_a_wrong_record_leaves_the_last_good_build_as_it_was(starter: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert main(["build", str(starter), "--out", str(out)]) == 0
    before = {path: path.read_bytes() for path in sorted(out.rglob("*")) if path.is_file()}
    change(starter, "aircraft.yaml", '"225 kg"', "225")
    assert main(["build", str(starter), "--out", str(out)]) == 2
    assert {path: path.read_bytes() for path in sorted(out.rglob("*")) if path.is_file()} == before


def test_a_wrong_record_writes_nothing(starter: Path, tmp_path: Path) -> None:
    change(starter, "aircraft.yaml", '"225 kg"', "225")
    assert main(["build", str(starter), "--out", str(tmp_path / "out")]) == 2
    assert not (tmp_path / "out").exists()


def test_check_exits_with_1_while_something_is_open(
    starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(starter)]) == 1
    assert (
        capsys.readouterr()
        .out.splitlines()[0]
        .startswith("0001 as of 2026-05-02: empty 116.60 kg ± 0.36 kg (k = 2); 2 not shown")
    )


def test_check_exits_with_0_when_all_is_shown(starter: Path) -> None:
    flight = """  - event: flight-test
    date: 2026-06-01
    by: A. Builder
    results:
      - {quantity: stall_speed, value: "21 kt ± 0.5 kt", basis: CAS, configuration: power off, \
at_mass: "225 kg"}
      - {quantity: maximum_level_speed, value: "50 kt ± 1 kt", basis: CAS, configuration: full power}
"""
    record = starter / "serials/0001/record.yaml"
    record.write_text(record.read_text(encoding="utf-8") + flight, encoding="utf-8")
    change(
        starter,
        "serials/0001/record.yaml",
        "started: 2026-01-12,",
        "started: 2026-01-12, completed: 2026-05-30,",
    )
    assert main(["check", str(starter)]) == 0


def test_check_exits_with_1_while_the_build_is_not_complete(
    starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(starter)]) == 1
    assert "not ready for delivery: The build: not completed" in capsys.readouterr().out


def test_as_of_leaves_later_events_out(starter: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(starter), "--as-of", "2026-05-01"]) == 1
    assert "0001 as of 2026-05-01: not weighed" in capsys.readouterr().out


def test_a_date_that_is_none_is_a_wrong_call(starter: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["check", str(starter), "--as-of", "1.5.2026"])
    assert stopped.value.code == 2
    assert "write year-month-day" in capsys.readouterr().err


def test_an_unknown_serial_is_named_with_those_that_are_there(
    starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(starter), "--serial", "0007"]) == 2
    assert "serials here: 0001" in capsys.readouterr().err


def test_a_folder_that_is_no_project_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", str(tmp_path)]) == 2
    assert "P001" in capsys.readouterr().err


def test_explain_prints_a_working_with_file_and_line(
    starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["explain", str(starter), "net_mass.tail-skid"]) == 0
    said = capsys.readouterr().out
    assert "11.10 kg, 11.15 kg" in said
    line = next(
        number
        for number, text in enumerate(
            (starter / "serials/0001/record.yaml").read_text(encoding="utf-8").splitlines(), 1
        )
        if "tail skid" in text
    )
    assert f"serials/0001/record.yaml:{line}" in said


@pytest.mark.parametrize(
    "order", [["net_mass.tail-skid", "--serial", "0001"], ["--serial", "0001", "net_mass.tail-skid"]]
)
def test_explain_takes_the_serial_before_or_behind_the_figure(
    order: list[str], starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["explain", str(starter), *order]) == 0
    assert "11.10 kg, 11.15 kg" in capsys.readouterr().out


@pytest.mark.parametrize(
    "call",
    [["check", "{project}", "more"], ["explain", "{project}", "a", "b"], ["explain", "{project}", "--odd"]],
)
def test_a_word_too_many_is_a_wrong_call(call: list[str], starter: Path) -> None:
    with pytest.raises(SystemExit) as ended:
        main([word.format(project=starter) for word in call])
    assert ended.value.code == 2


def test_explain_without_a_figure_lists_the_names(starter: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", str(starter)]) == 0
    assert "empty_mass " in capsys.readouterr().out


def test_explain_suggests_the_near_name(starter: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", str(starter), "emty_mass"]) == 2
    assert "did you mean 'empty_mass'?" in capsys.readouterr().err


def test_schema_writes_one_file_for_each_kind(tmp_path: Path) -> None:
    assert main(["schema", "--out", str(tmp_path / "schemas")]) == 0
    assert sorted(path.name for path in (tmp_path / "schemas").iterdir()) == [
        f"{kind}.schema.json" for kind in sorted(KINDS_OF_FILE)
    ]


def test_start_writes_a_project_that_can_be_checked(tmp_path: Path) -> None:
    assert main(["start", str(tmp_path / "new")]) == 0
    assert main(["check", str(tmp_path / "new")]) == 1


def test_one_serial_can_be_built_and_the_others_stay(starter: Path, tmp_path: Path) -> None:
    second = starter / "serials/0002"
    second.mkdir()
    (second / "record.yaml").write_text(
        'serial_number: "0002"\nbuild: {started: 2026-02-01, built_at: Sampletown, design_revision: "1"}\n',
        encoding="utf-8",
    )
    out = tmp_path / "out"
    assert main(["build", str(starter), "--out", str(out)]) == 0
    before = (out / "0001/results.json").stat().st_mtime_ns
    assert main(["build", str(starter), "--serial", "0002", "--out", str(out)]) == 0
    assert (out / "0001/results.json").stat().st_mtime_ns == before
    index = (out / "index.html").read_text(encoding="utf-8")
    assert "0001" in index
    assert "0002" in index


LONG_STEP = """      - do: Look at joint {number} from above and say aloud, to the person who reads, \
what you see of it.
        expect: Joint {number} has no gap, and its pin is home in both ears.
"""


def test_check_says_by_how_many_lines_a_list_is_too_long_for_one_sheet(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_project(
        tmp_path / "mine", "".join(LONG_STEP.format(number=number) for number in range(1, 121))
    )
    main(["check", str(folder)])
    said = capsys.readouterr().err
    assert (
        "note: procedures/inspection-field.yaml:1:1: T020 the card of the list 'inspection-field' goes "
        "on 2 sheets"
    ) in said
    assert re.search(r"for one it is \d+ lines of 10 pt too long", said)


def test_check_says_nothing_of_lists_that_fit_one_sheet(
    starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["check", str(starter)])
    assert "T020" not in capsys.readouterr().err
