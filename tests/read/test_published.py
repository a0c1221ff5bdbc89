"""Names under which evidence and lists are published: nothing that runs, and no two under one name."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path, PurePosixPath

import pytest

from dossier.findings import Finding, Place
from dossier.read.evidence import EvidenceFile, same_names
from dossier.read.published import list_name, published_path

PAGES = ("html", "htm", "xhtml", "shtml", "mht", "svg", "xml", "md", "php")
RUN_OR_LOADED = (*PAGES, "xsl", "js", "mjs", "css", "wasm", "hta")
"""Endings by which a browser or a web server runs, styles or loads a file: common practice, no source."""


def evidence(path: str, line: int) -> EvidenceFile:
    return EvidenceFile(
        path, "what it shows", 1, "0" * 64, Place("serials/0001/record.yaml", line, 7), Path(path)
    )


def clashes(*paths: str) -> list[Finding]:
    return list(same_names(evidence(path, line) for line, path in enumerate(paths, 1)))


@pytest.mark.parametrize("ending", RUN_OR_LOADED)
@pytest.mark.parametrize("capitals", [str.lower, str.upper, str.title])
def test_what_a_browser_would_run_gets_an_ending_that_does_not_run(
    ending: str, capitals: Callable[[str], str]
) -> None:
    shown = published_path(f"evidence/a.{capitals(ending)}")
    assert PurePosixPath(shown).suffix in {".txt", ".bin"}


@pytest.mark.parametrize("ending", ["csv", "txt", "json", "pdf", "png", "jpg", "JPG", "mp4", "zip"])
def test_a_passive_file_keeps_its_name(ending: str) -> None:
    assert published_path(f"evidence/a.{ending}") == f"evidence/a.{ending}"


@pytest.mark.parametrize("ending", [".yaml", ".py", ".sh", ".md", ".html", ".svg", ".xml", ".js", ".css"])
def test_text_that_would_be_more_than_text_is_published_as_text(ending: str) -> None:
    assert published_path(f"evidence/a{ending}") == f"evidence/a{ending}.txt"


@pytest.mark.parametrize("name", ["a", "a.exe", "a.", ".htaccess", "a.csv.exe", "a.b/c"])
def test_a_file_of_unknown_kind_is_handed_over_as_bytes(name: str) -> None:
    assert published_path(f"evidence/{name}") == f"evidence/{name}.bin"


def test_a_file_from_outside_the_evidence_cannot_stand_where_a_page_stands() -> None:
    assert published_path("index.csv") == "evidence-elsewhere/index.csv"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("evidence/notes.md", "evidence/notes.md.txt"),
        ("evidence/log", "evidence/log.bin"),
        ("evidence/Photo.jpg", "evidence/photo.JPG"),
    ],
)
def test_the_second_of_two_files_under_one_name_is_told_where_it_is_cited(first: str, second: str) -> None:
    (finding,) = clashes(first, second)
    assert (finding.code, finding.place and finding.place.line) == ("R024", 2)


def test_a_file_from_outside_and_one_inside_of_the_same_name_are_kept_apart() -> None:
    assert clashes("notes.txt", "evidence/notes.txt") == []


def test_files_of_other_names_are_not_told() -> None:
    assert clashes("evidence/a.csv", "evidence/b.csv", "evidence/a.txt", "evidence/sub/a.csv") == []


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("rigging", "rigging"),
        ("Rig 1_left wing", "rig-1-left-wing"),
        ("--preflight.v2-", "preflight-v2"),
        ("Prüfung", "pr-fung"),
    ],
)
def test_the_name_of_a_list_has_plain_letters_digits_and_single_hyphens(file: str, name: str) -> None:
    assert list_name(file) == name
