"""The packet of every demonstration serial as a whole."""

from __future__ import annotations

import hashlib
from collections import Counter

import pytest
from packet_reading import PROJECTS, SERIALS, composed, dead_ends, made, read

from dossier import pipeline
from dossier.compose.pages import packet
from dossier.web.addresses import faults
from dossier.web.inspection import inspect

everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])
PAGES = {
    "declaration.md",
    "conformity.md",
    "claims.md",
    "weight-and-balance.md",
    "battery.md",
    "energy.md",
    "limits.md",
    "assembly.md",
    "records.md",
    "working/index.md",
    "working/weighing.md",
    "working/empty-aircraft.md",
    "working/loading.md",
}


@everyone
def test_a_packet_has_every_page(project: str, number: str) -> None:
    assert {page.path for page in composed(project, number).pages} >= PAGES


@everyone
def test_the_cover_comes_first(project: str, number: str) -> None:
    assert composed(project, number).pages[0].path == "index.md"


@everyone
def test_the_addresses_make_a_site(project: str, number: str) -> None:
    assert faults(composed(project, number)) == []


@everyone
def test_every_link_and_anchor_leads_somewhere(project: str, number: str) -> None:
    assert dead_ends(composed(project, number)) == []


@everyone
def test_no_anchor_stands_twice_on_a_page(project: str, number: str) -> None:
    for page in composed(project, number).pages:
        twice = [anchor for anchor, count in Counter(read(page).ids).items() if count > 1]
        assert (page.path, twice) == (page.path, [])


@everyone
def test_a_group_of_the_navigation_stands_together(project: str, number: str) -> None:
    groups = [page.group for page in composed(project, number).pages]
    turns = [group for group, before in zip(groups, ["", *groups], strict=False) if group != before]
    assert len(turns) == len(set(turns))


@everyone
def test_no_page_shows_where_the_project_lay(project: str, number: str) -> None:
    assert [page.path for page in composed(project, number).pages if str(PROJECTS.parent) in page.text] == []


@everyone
def test_no_page_loads_or_runs_anything(project: str, number: str) -> None:
    refused = [
        complaint for page in composed(project, number).pages for complaint in inspect(page.text).refused
    ]
    assert refused == []


@everyone
def test_every_evidence_file_is_handed_over_byte_for_byte(project: str, number: str) -> None:
    assert handed_over("evidence/", project, number) == [
        file.sha256 for file in made(project, number).evidence
    ]


@everyone
def test_every_picture_of_a_step_is_handed_over_byte_for_byte(project: str, number: str) -> None:
    digests = handed_over("pictures/", project, number)
    assert digests
    assert set(digests) <= {file.sha256 for file in made(project, number).project.pictures.values()}


@everyone
def test_nothing_else_is_handed_over_beside_the_pages(project: str, number: str) -> None:
    assert {asset.path.partition("/")[0] for asset in composed(project, number).assets} <= {
        "evidence",
        "pictures",
    }


def handed_over(folder: str, project: str, number: str) -> list[str]:
    """Return the digests of what is handed over in ``folder``, in its order."""
    assets = composed(project, number).assets
    return [hashlib.sha256(one.content).hexdigest() for one in assets if one.path.startswith(folder)]


@pytest.mark.parametrize(("project", "number"), [("quillet-e1", "0004"), ("barrow-t2", "T2-009")])
def test_the_same_record_gives_the_same_bytes(project: str, number: str) -> None:
    assert packet(pipeline.run(PROJECTS / project, number)) == composed(project, number)
