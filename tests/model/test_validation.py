"""What the model accepts, and that it never takes one thing for another."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.findings import Finding, Rejected
from dossier.model.aircraft import Limit
from dossier.model.record import SerialRecord
from dossier.model.validation import validate
from dossier.read.yaml_text import read_yaml

BUILD = "build: {started: 2026-01-05, built_at: here, design_revision: 3}\n"


def record(tmp_path: Path, text: str) -> SerialRecord:
    path = tmp_path / "record.yaml"
    path.write_text(text, encoding="utf-8")
    return validate(SerialRecord, read_yaml(path, "record.yaml"))


@pytest.mark.parametrize("number", ["0012", '"0012"', "T2-007", "1e3", "no"])
def test_a_serial_number_keeps_its_letters(tmp_path: Path, number: str) -> None:
    assert record(tmp_path, f"serial_number: {number}\n{BUILD}").serial_number == number.strip('"')


def test_a_part_and_its_keys_know_their_places(tmp_path: Path) -> None:
    read = record(tmp_path, f"serial_number: A1\n{BUILD}")
    assert read.build.place is not None
    assert read.build.place.line == 2
    place = read.build.place_of_key("built_at")
    assert place is not None
    assert place.path == "build.built_at"


def test_a_record_cannot_be_changed_after_it_was_read(tmp_path: Path) -> None:
    read = record(tmp_path, f"serial_number: A1\n{BUILD}")
    with pytest.raises(ValueError, match="frozen"):
        read.serial_number = "A2"  # type: ignore[assignment, misc]


@pytest.mark.parametrize(
    ("value", "kind"),
    [
        ("254 lb", "mass"),
        ("24 kt", "speed"),
        ("0.03 V", "voltage"),
        ("85 %", "ratio"),
        ("1.3", "ratio"),
        ("25 °C", "temperature"),
    ],
)
def test_a_limit_takes_its_kind_from_its_unit(tmp_path: Path, value: str, kind: str) -> None:
    path = tmp_path / "limit.yaml"
    path.write_text(f"name: a\nvalue: {value}\nreason: b\n", encoding="utf-8")
    assert validate(Limit, read_yaml(path, "limit.yaml")).value.kind == kind


LEAVES = st.one_of(
    st.none(), st.sampled_from(["1", "x", "2026-05-14", "3 kg", "true", "weighing", "pack-fitted"])
)
TREES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(
            st.sampled_from(
                [
                    "event",
                    "date",
                    "by",
                    "serial_number",
                    "build",
                    "events",
                    "assembly",
                    "fitted",
                    "scales",
                    "supports",
                    "evidence",
                ]
            ),
            inner,
            max_size=5,
        ),
    ),
    max_leaves=12,
)


def written(tree: object) -> str:
    if tree is None:
        return "~"
    if isinstance(tree, list):
        return "[" + ", ".join(map(written, tree)) + "]"
    if isinstance(tree, dict):
        return "{" + ", ".join(f"{key}: {written(value)}" for key, value in tree.items()) + "}"
    return f'"{tree}"'


def refusal_of(path: Path) -> tuple[Finding, ...] | None:
    """What is told of a record; None where it is taken."""
    try:
        validate(SerialRecord, read_yaml(path, "tree.yaml"))
    except Rejected as rejected:
        return rejected.findings
    return None


@given(
    tree=st.dictionaries(
        st.sampled_from(["serial_number", "build", "events", "assembly", "fitted", "items_left_out"]),
        TREES,
        max_size=6,
    )
)
def test_any_tree_is_a_record_or_gives_findings_with_place_and_help(
    tree: dict[str, object], tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.getbasetemp() / "tree.yaml"
    path.write_text(written(tree) + "\n", encoding="utf-8")
    told = refusal_of(path)
    assert told is None or told
    assert all(finding.place and finding.message and finding.help for finding in told or ())


def findings_of(tmp_path: Path, text: str) -> list[tuple[str, str]]:
    with pytest.raises(Rejected) as refused:
        record(tmp_path, text)
    return [(finding.code, finding.message) for finding in refused.value.findings]


def test_a_misspelt_key_that_is_due_is_told_once_with_both_halves(tmp_path: Path) -> None:
    found = findings_of(tmp_path, f"serail_number: A1\n{BUILD}")
    assert found == [
        ("M002", "the key 'serail_number' is not known here, and the key 'serial_number' is missing")
    ]


def test_an_unknown_key_that_resembles_nothing_missing_leaves_both_findings(tmp_path: Path) -> None:
    found = findings_of(tmp_path, f"colour: red\n{BUILD}")
    assert sorted(code for code, _ in found) == ["M001", "M002"]


def test_a_missing_key_in_one_place_is_not_met_by_a_misspelt_one_in_another(tmp_path: Path) -> None:
    found = findings_of(
        tmp_path, f"serial_number: A1\nbuilt_at: there\n{BUILD.replace(', built_at: here', '')}"
    )
    assert sorted(code for code, _ in found) == ["M001", "M002"]


def test_of_two_misspellings_of_one_missing_key_the_nearer_one_is_joined(tmp_path: Path) -> None:
    found = findings_of(tmp_path, f"serial_no: A1\nserial_numbr: A1\n{BUILD}")
    assert sorted(code for code, _ in found) == ["M002", "M002"]
    assert [message for _, message in found if "is missing" in message] == [
        "the key 'serial_numbr' is not known here, and the key 'serial_number' is missing"
    ]


def test_a_misspelling_of_the_key_that_says_which_event_it_is_is_told_once(tmp_path: Path) -> None:
    found = findings_of(
        tmp_path, f"serial_number: A1\n{BUILD}events:\n  - {{evnt: edition, date: 2026-01-06}}\n"
    )
    assert found == [("M002", "the key 'evnt' is not known here, and the key 'event' is missing")]
