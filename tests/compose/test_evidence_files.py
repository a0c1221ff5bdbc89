"""Evidence files in the packet: nothing that a record brings along can run when a reader opens it."""

from __future__ import annotations

import pytest
from packet_reading import composed, made, page_of, read

from dossier.compose.evidence_files import address, published_path
from dossier.compose.printer import Printer


@pytest.mark.parametrize(
    ("cited", "published"),
    [
        ("evidence/readings.csv", "evidence/readings.csv"),
        ("evidence/photo.JPG", "evidence/photo.JPG"),
        ("evidence/card.md", "evidence/card.md.txt"),
        ("evidence/skid.svg", "evidence/skid.svg.txt"),
        ("evidence/page.HTML", "evidence/page.HTML.txt"),
        ("evidence/page.xhtml", "evidence/page.xhtml.txt"),
        ("evidence/script.js", "evidence/script.js.txt"),
        ("evidence/log.unknown", "evidence/log.unknown.bin"),
        ("evidence/no-ending", "evidence/no-ending.bin"),
        ("index.html", "evidence-elsewhere/index.html.txt"),
        ("photos/tail.png", "evidence-elsewhere/photos/tail.png"),
    ],
)
def test_a_file_that_a_browser_might_run_is_published_as_text(cited: str, published: str) -> None:
    assert published_path(cited) == published


def test_a_name_with_strange_signs_makes_a_whole_link() -> None:
    at = Printer(made("quillet-e1", "0003"), "records.md")
    assert address(at, 'evidence/50 % "x"#1?.csv') == "evidence/50%20%25%20%22x%22%231%3F.csv"


def test_a_link_from_a_folder_climbs_out_of_it() -> None:
    at = Printer(made("quillet-e1", "0003"), "working/weighing.md")
    assert address(at, "evidence/a.csv") == "../evidence/a.csv"


@pytest.mark.parametrize(("project", "number"), [("quillet-e1", "0002"), ("barrow-t2", "T2-007")])
def test_every_file_stands_in_the_list_with_its_digest(project: str, number: str) -> None:
    text = read(page_of(composed(project, number), "records.md")).text
    assert [file.path for file in made(project, number).evidence if file.sha256 not in text] == []
