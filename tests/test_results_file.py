"""``results.json``: plain, stable, without a path of this machine, and true to the lines that it names."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from demos import PROJECTS, SERIALS, demo
from sample_project import Draft, event, starter_file

from dossier import __version__
from dossier.fleet import make_all
from dossier.pipeline import load_checked, make
from dossier.results_file import FORMAT, as_data, as_json
from dossier.units import KINDS

EVERY_SERIAL = pytest.mark.parametrize(("project", "serial"), SERIALS)
KEYS = [
    "format",
    "tool_version",
    "type",
    "design_revision",
    "serial_number",
    "as_of",
    "edition",
    "invented",
    "figures",
    "verdicts",
    "not_ready_for_delivery",
    "claims",
    "claim_identities",
    "maintenance",
    "trailer",
    "tables",
    "procedures",
    "findings",
    "evidence",
]
FIGURE_KEYS = ["label", "value", "unit", "standard_uncertainty", "contributions", "sampled", "working"]
WORKING_KEYS = ["formula", "title", "valid", "source", "inputs", "steps", "note"]
INPUT_KEYS = ["symbol", "meaning", "label", "value", "unit", "standard_uncertainty", "as_written", "from"]


def text_of(project: str, serial: str) -> str:
    return as_json(demo(project)[serial])


def data_of(project: str, serial: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(text_of(project, serial))
    return found


def leaves(value: Any) -> Iterator[Any]:
    if isinstance(value, dict):
        for item in value.values():
            yield from leaves(item)
    elif isinstance(value, list):
        for item in value:
            yield from leaves(item)
    else:
        yield value


def inputs(data: dict[str, Any]) -> list[dict[str, Any]]:
    return [one for figure in data["figures"].values() for one in figure["working"]["inputs"]]


# --- form


@EVERY_SERIAL
def test_the_text_is_json_by_the_standard(project: str, serial: str) -> None:
    def refuse(word: str) -> float:
        raise AssertionError(f"{word} is not a number of RFC 8259")

    assert json.loads(text_of(project, serial), parse_constant=refuse)


@EVERY_SERIAL
def test_the_keys_are_the_documented_ones_in_their_order(project: str, serial: str) -> None:
    assert list(data_of(project, serial)) == KEYS


@EVERY_SERIAL
def test_every_figure_has_its_keys_and_its_working(project: str, serial: str) -> None:
    figures = data_of(project, serial)["figures"]
    assert figures
    assert {tuple(figure) for figure in figures.values()} == {tuple(FIGURE_KEYS)}
    assert {tuple(figure["working"]) for figure in figures.values()} == {tuple(WORKING_KEYS)}


@EVERY_SERIAL
def test_every_input_of_a_figure_has_its_keys(project: str, serial: str) -> None:
    assert {tuple(one) for one in inputs(data_of(project, serial))} == {tuple(INPUT_KEYS)}


@EVERY_SERIAL
def test_every_unit_is_an_si_unit_of_a_known_kind(project: str, serial: str) -> None:
    data = data_of(project, serial)
    known = {kind.si for kind in KINDS.values()}
    assert {figure["unit"] for figure in data["figures"].values()} <= known
    assert {one["unit"] for one in inputs(data)} <= known


@EVERY_SERIAL
def test_no_uncertainty_is_negative(project: str, serial: str) -> None:
    figures = data_of(project, serial)["figures"].values()
    assert all(figure["standard_uncertainty"] >= 0 for figure in figures)


@EVERY_SERIAL
def test_contributions_add_up_to_the_uncertainty_of_their_figure(project: str, serial: str) -> None:
    figures = data_of(project, serial)["figures"].values()
    sums = [sum(part["amount"] ** 2 for part in figure["contributions"]) ** 0.5 for figure in figures]
    assert sums == pytest.approx([figure["standard_uncertainty"] for figure in figures])


def test_the_format_has_a_number_and_the_tool_its_version() -> None:
    data = data_of(*SERIALS[0])
    assert re.fullmatch(r"dossier-results/\d+", FORMAT)
    assert (data["format"], data["tool_version"]) == (FORMAT, __version__)


# --- the same record, the same bytes


@EVERY_SERIAL
def test_made_alone_the_bytes_are_those_of_a_serial_made_with_its_sisters(project: str, serial: str) -> None:
    again = make_all(PROJECTS / project, [serial], None)[0]
    assert as_json(again) == text_of(project, serial)


@EVERY_SERIAL
def test_the_date_that_is_asked_for_leaves_no_trace_in_a_later_dossier(project: str, serial: str) -> None:
    loaded = load_checked(PROJECTS / project, [serial])
    make(loaded, serial, loaded.serials[serial].build.started)
    assert as_json(make(loaded, serial)) == text_of(project, serial)


def test_two_places_on_the_disk_give_the_same_bytes(tmp_path: Path) -> None:
    def made(folder: Path) -> str:
        draft = Draft(record=starter_file("serials/0001/record.yaml"))
        draft.events[1].pop("evidence")
        return as_json(draft.make(folder))

    assert made(tmp_path / "here") == made(tmp_path / "elsewhere" / "deeper")


@EVERY_SERIAL
def test_no_path_of_this_machine_is_in_the_text(project: str, serial: str) -> None:
    text = text_of(project, serial)
    assert str(PROJECTS) not in text
    assert str(Path.home()) not in text
    assert not [
        leaf
        for leaf in leaves(json.loads(text))
        if isinstance(leaf, str) and re.match(r"/|~|[A-Za-z]:\\", leaf)
    ]


@EVERY_SERIAL
def test_no_object_of_the_program_leaks_into_the_text(project: str, serial: str) -> None:
    assert not re.search(r"<[\w.]+ (object )?at 0x|Quantity\(|Place\(|\bNone\)", text_of(project, serial))


# --- true to the record


def source_lines(project: str, file: str) -> list[str]:
    """Lines of a file of the project, or of a rule set that the tool brings along."""
    root = PROJECTS.parent if file.startswith("dossier/") else PROJECTS / project
    return (root / file).read_text("utf-8").split("\n")


@EVERY_SERIAL
def test_every_input_from_the_record_stands_in_the_line_that_is_named(project: str, serial: str) -> None:
    checked = 0
    for one in inputs(data_of(project, serial)):
        if "file" not in one["from"] or not one["as_written"]:
            continue
        line = source_lines(project, one["from"]["file"])[one["from"]["line"] - 1]
        # in a table the unit stands in the heading of the column
        in_table = one["from"]["file"].endswith(".csv")
        for written in one["as_written"].split(", "):
            text = written.split(" ")[0] if in_table else written
            assert text in line, f"{one['label']}: {text!r} is not in {one['from']}: {line!r}"
        checked += 1
    assert checked > 100


@EVERY_SERIAL
def test_every_input_from_another_figure_names_one_that_is_there_with_its_value(
    project: str, serial: str
) -> None:
    figures = data_of(project, serial)["figures"]
    taken = [one for one in inputs({"figures": figures}) if "figure" in one["from"]]
    assert taken
    for one in taken:
        assert abs(one["value"]) == pytest.approx(abs(figures[one["from"]["figure"]]["value"]), rel=1e-12)


@EVERY_SERIAL
def test_every_input_comes_from_somewhere(project: str, serial: str) -> None:
    for one in inputs(data_of(project, serial)):
        assert set(one["from"]) in ({"file", "line", "path"}, {"source"}, {"figure"})
        assert "not in a file" not in one["from"].values()


@EVERY_SERIAL
def test_every_place_of_a_finding_is_a_line_of_the_record(project: str, serial: str) -> None:
    for finding in data_of(project, serial)["findings"]:
        place = finding["place"]
        assert place is None or 1 <= place["line"] <= len(source_lines(project, place["file"]))


@EVERY_SERIAL
def test_every_evidence_file_has_the_digest_of_its_bytes(project: str, serial: str) -> None:
    for file in data_of(project, serial)["evidence"]:
        content = (PROJECTS / project / "serials" / serial / file["file"]).read_bytes()
        assert (file["size"], file["sha256"]) == (len(content), sha256(content).hexdigest())


@EVERY_SERIAL
def test_every_verdict_on_a_figure_names_one_that_is_there(project: str, serial: str) -> None:
    data = data_of(project, serial)
    decided = [
        verdict for verdict in data["verdicts"] if verdict["value"] is not None and verdict["fact"] is None
    ]
    assert decided
    assert {verdict["figure"] for verdict in decided} <= set(data["figures"])


def test_a_serial_number_with_noughts_stays_text() -> None:
    assert data_of("quillet-e1", "0002")["serial_number"] == "0002"


def test_the_edition_is_its_letter_and_date(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(event("edition", "2026-03-01", letter="A", reason="first"))
    data = as_data(draft.make(tmp_path))
    assert data["edition"] == {"letter": "A", "date": "2026-03-01"}
    assert data["as_of"] == date(2026, 3, 1).isoformat()


def test_without_an_edition_there_is_none(tmp_path: Path) -> None:
    assert as_data(Draft().make(tmp_path))["edition"] is None
