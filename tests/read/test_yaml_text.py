"""The reader keeps the author's text, and never ends in anything but data or findings."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.findings import Rejected
from dossier.located import LocatedMapping, LocatedText, place_of
from dossier.read.yaml_text import read_yaml


def read(tmp_path: Path, text: str) -> LocatedMapping:
    path = tmp_path / "record.yaml"
    path.write_text(text, encoding="utf-8")
    return read_yaml(path, "record.yaml")


@pytest.mark.parametrize(
    "text",
    [
        "0012",
        "012",
        "1:30",
        "12:30:00",
        "no",
        "on",
        "yes",
        "1e3",
        "1_000",
        "0x1F",
        "2026-05-14",
        ".inf",
        "1.10",
        "=",
        "08",
    ],
)
def test_a_plain_scalar_stays_the_text_that_the_author_wrote(tmp_path: Path, text: str) -> None:
    # PyYAML 6.0.3's safe_load was measured to turn 0012 into 10, 12:30 into 750 and no into False
    assert read(tmp_path, f"key: {text}\n")["key"] == text


@pytest.mark.parametrize("text", ["", "~", "null", "Null", "NULL"])
def test_an_empty_value_is_null_as_in_the_core_schema(tmp_path: Path, text: str) -> None:
    # YAML 1.2.2, 10.3.2: the plain scalars of tag null
    assert read(tmp_path, f"key: {text}\n")["key"] is None


def test_a_quoted_null_is_text(tmp_path: Path) -> None:
    assert read(tmp_path, 'key: "null"\n')["key"] == "null"


def test_every_value_knows_its_line_column_and_path(tmp_path: Path) -> None:
    data = read(
        tmp_path, "events:\n  - event: weighing\n    supports:\n      - {name: nose, reading: 42 lb}\n"
    )
    place = place_of(data["events"][0]["supports"][0]["reading"])
    assert place is not None
    assert (place.line, place.column, place.path) == (4, 31, "events[0].supports[0].reading")


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(tmp_path: Path) -> None:
    path = tmp_path / "record.yaml"
    path.write_bytes(b"\xef\xbb\xbfa: 1\r\nb: 2\r\n")
    data = read_yaml(path, "record.yaml")
    assert dict(data) == {"a": "1", "b": "2"}
    assert place_of(data["b"]).line == 2  # type: ignore[union-attr]


def test_problems_of_one_file_come_together(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        read(tmp_path, "a: 1\na: 2\nb:\n  c: 1\n  c: 2\n? [x]\n: 3\n")
    assert [(finding.code, finding.place.line) for finding in refused.value.findings if finding.place] == [
        ("R012", 2),
        ("R012", 5),
        ("R011", 6),
    ]


def test_a_thousand_nested_anchors_are_refused_before_they_are_expanded(tmp_path: Path) -> None:
    bomb = "a0: &a0 [x, x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]\n" for n in range(1, 60))
    with pytest.raises(Rejected) as refused:
        read(tmp_path, bomb)
    assert {finding.code for finding in refused.value.findings} == {"R009"}


YAML_PIECES = st.lists(
    st.sampled_from(
        [
            "a",
            "b: ",
            "- ",
            "\n",
            "  ",
            "{",
            "}",
            "[",
            "]",
            '"',
            "'",
            ":",
            "#",
            "&x ",
            "*x",
            "!t ",
            "|",
            ">",
            "?",
            ",",
            "---",
            "%",
            "\t",
            "é",
            "1",
            "~",
        ]
    ),
    max_size=30,
).map("".join)


def read_or_refused(path: Path) -> LocatedMapping | Rejected:
    try:
        return read_yaml(path, "any.yaml")
    except Rejected as rejected:
        return rejected


@given(text=st.one_of(st.text(max_size=60), YAML_PIECES))
def test_any_text_gives_data_or_findings_with_a_place(
    text: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    found = read_or_refused(path)
    if isinstance(found, Rejected):
        assert found.findings
        assert all(finding.place and finding.place.line >= 1 and finding.help for finding in found.findings)
    else:
        assert all(isinstance(key, LocatedText) for key in found)
