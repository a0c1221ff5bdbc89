"""The commands: exit codes, what they print, and that nothing is written when something is wrong."""

from __future__ import annotations

import io
import json
import os
import re
import subprocess
import sys
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


def run_in_terminal(*words: str, **environment: str) -> tuple[int, str, str]:
    """Run the command in a process of its own, as a terminal does; return exit code, output and errors."""
    call = [sys.executable, "-m", "dossier.cli", *words]
    of_text = ("LC_", "LANG", "PYTHONIO", "PYTHONUTF8")
    plain = {key: value for key, value in os.environ.items() if not key.startswith(of_text)}
    ended = subprocess.run(call, env=plain | environment, capture_output=True, check=False, timeout=60)
    return ended.returncode, ended.stdout.decode("utf-8"), ended.stderr.decode("utf-8")


@pytest.mark.parametrize(
    "environment",
    [
        {"PYTHONIOENCODING": "ascii"},
        {"LC_ALL": "C"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    ],
    ids=lambda environment: " ".join(f"{key}={value}" for key, value in environment.items()),
)
def test_check_prints_on_a_terminal_that_knows_ascii_alone(
    environment: dict[str, str], starter: Path
) -> None:
    code, said, told = run_in_terminal("check", str(starter), **environment)
    assert code == 1
    assert re.search(r"empty 116.60 kg (\+/-|±) 0.36 kg \(k = 2\)", said)
    assert "Traceback" not in told


class Terminal(io.TextIOWrapper):
    """What is printed on a terminal of another encoding."""

    def __init__(self, encoding: str) -> None:
        self.bytes = io.BytesIO()
        super().__init__(self.bytes, encoding=encoding)

    def shown(self) -> str:
        self.flush()
        return self.bytes.getvalue().decode(self.encoding)


def explained(figure: str, project: Path, encoding: str, monkeypatch: pytest.MonkeyPatch) -> str:
    terminal = Terminal(encoding)
    monkeypatch.setattr(sys, "stdout", terminal)
    assert main(["explain", str(project), figure]) == 0
    return terminal.shown()


def test_a_sign_that_the_terminal_has_is_printed_as_it_is(
    starter: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "116.60 kg (257.06 lb) ± 0.36 kg (k = 2)" in explained(
        "empty_mass", starter, "cp1252", monkeypatch
    )


@pytest.mark.parametrize("figure", ["empty_mass", "empty_cg", "endurance.standard-pack", "drive_efficiency"])
def test_a_working_is_printed_in_words_where_the_terminal_lacks_its_signs(
    figure: str, starter: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = explained(figure, starter, "ascii", monkeypatch)
    assert "+/-" in said
    assert "\\" not in said


def test_a_sign_without_words_is_printed_as_its_number(
    starter: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    change(starter, "hazards.yaml", "word: danger", "word: опасно")
    terminal = Terminal("ascii")
    monkeypatch.setattr(sys, "stderr", terminal)
    assert main(["check", str(starter)]) == 2
    assert r"M012 '\u043e\u043f\u0430\u0441\u043d\u043e' is not known here" in terminal.shown()


def test_a_reader_who_has_seen_enough_ends_the_command_without_a_word(starter: Path) -> None:
    call = [sys.executable, "-m", "dossier.cli", "explain", str(starter)]
    with subprocess.Popen(call, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as started:
        assert started.stdout
        assert started.stderr
        started.stdout.close()
        told = started.stderr.read().decode()
    assert (started.returncode, told) == (2, "")


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (["serve", "nosuch"], "P001 'nosuch' holds no aircraft.yaml"),
        (["serve", "{project}", "--serial", "0009"], "serials here: 0001"),
        (["explain", "nosuch", "empty_mass"], "P001 'nosuch' holds no aircraft.yaml"),
        (["explain", "{project}", "--serial", "0009"], "serials here: 0001"),
        (["explain", "{project}", "no_such_figure"], "P010 there is no figure 'no_such_figure'"),
        (["check", "."], "P001 '.' holds no aircraft.yaml"),
        (["build", "{project}", "--out", "{project}"], "P060"),
        (["add-record", "{project}", "0009", "list.json"], "serials here: 0001"),
        (["add-record", "{project}", "0001", "list.json"], "list.json"),
        (["schema", "--out", "{project}/aircraft.yaml"], "aircraft.yaml: File exists"),
        (["start", "{project}"], "P005"),
    ],
    ids=" ".join,
)
def test_a_call_that_cannot_be_done_is_told_and_exits_with_2(
    call: list[str], told: str, starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([word.format(project=starter) for word in call]) == 2
    said = capsys.readouterr()
    assert told in said.err
    assert said.out == ""


@pytest.mark.parametrize(
    "address", ["", "8000", "here:8000", "127.0.0.1:", "127.0.0.1:99999", "127.0.0.1:-1", "127.0.0.1:http"]
)
def test_an_address_where_nobody_can_listen_is_a_wrong_call(
    address: str, starter: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["serve", str(starter), "--address", address])
    assert ended.value.code == 2
    assert "write address and port, such as 127.0.0.1:8000" in capsys.readouterr().err


@pytest.mark.parametrize("address", ["127.0.0.1:8000", "localhost:1", "0.0.0.0:65535", "[::1]:8000"])
def test_an_address_where_one_can_listen_is_handed_on(
    address: str, starter: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    handed = []
    monkeypatch.setattr("dossier.web.serve.serve", lambda *words: handed.append(words))
    assert main(["serve", str(starter), "--address", address]) == 0
    assert handed == [(starter, None, None, address)]


def test_serve_shows_a_wrong_record_as_a_page_and_does_not_refuse_it(
    starter: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    handed = []
    monkeypatch.setattr("dossier.web.serve.serve", lambda *words: handed.append(words))
    change(starter, "aircraft.yaml", '"225 kg"', "225")
    assert main(["serve", str(starter)]) == 0
    assert len(handed) == 1


def test_the_package_is_the_command_as_well() -> None:
    call = [sys.executable, "-m", "dossier", "--version"]
    ended = subprocess.run(call, capture_output=True, check=False, timeout=60, text=True)
    assert (ended.returncode, ended.stdout.split()[0]) == (0, "dossier")


def test_the_help_names_the_exit_codes(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert (
        "0, done; 1, check found what keeps a serial from delivery; 2, the record or the call is wrong"
        in said
    )


@pytest.mark.parametrize("call", [["--help"], ["--version"], ["build", "--help"], ["check", "--help"]])
def test_help_and_version_exit_with_0(call: list[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(call)
    assert ended.value.code == 0


@pytest.mark.parametrize("call", [[], ["nosuch"], ["check"], ["build", "--odd"]])
def test_a_call_that_is_none_exits_with_2(call: list[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(call)
    assert ended.value.code == 2
