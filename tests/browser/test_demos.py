"""Every page of every demonstration serial, opened from disk in a browser as its reader would."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urljoin

import pytest
from conftest import Reader
from demos import SERIALS, demo
from measures import cut_words, overflow

from dossier.compose.pages import packet
from dossier.web.build import build_site

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module", params=SERIALS, ids=lambda serial: "-".join(serial))
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of one serial, built."""
    project, number = request.param
    destination = tmp_path_factory.mktemp(project) / number
    build_site(packet(demo(project)[number]), destination, epoch=0)
    return destination


def pages(site: Path) -> list[Path]:
    found = sorted(site.rglob("*.html"))
    assert len(found) > 20
    return found


class _Anchors(HTMLParser):
    """Collects the ids and the links of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.ids: set[str] = set()
        self.links: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.ids.add(found.get("id") or "")
        if tag == "a" and found.get("href"):
            self.links.append(str(found["href"]))


@cache
def anchors(page: Path) -> _Anchors:
    parser = _Anchors()
    parser.feed(page.read_text(encoding="utf-8"))
    return parser


def dead(page: Path) -> Iterator[str]:
    for link in anchors(page).links:
        address, _, anchor = urljoin(page.as_uri(), link).partition("#")
        file = Path(unquote(address.removeprefix("file://")))
        if not file.is_file() or (
            anchor and file.suffix == ".html" and unquote(anchor) not in anchors(file).ids
        ):
            yield f"{page.name}: {link}"


def test_every_link_of_every_page_leads_somewhere(site: Path) -> None:
    assert [link for page in pages(site) for link in dead(page)] == []


def test_every_page_opens_in_silence_fits_its_screen_and_asks_for_nothing_outside(
    site: Path, reader: Reader
) -> None:
    for size in ("desktop", "phone"):
        tab = reader.open(site / "index.html", size=size)
        wide = []
        for page in pages(site):
            tab.goto(page.as_uri())
            if overflow(tab) > 0:
                wide.append(f"{page.name} on a {size}")
            wide += [f"{page.name} on a {size}: {words!r} is cut off" for words in cut_words(tab)]
        assert wide == []


def structure(page: Path) -> set[str]:
    """Each element of a page within its parent: tags, classes, roles and labels, without words. That is what
    most rules of accessibility look at."""
    parser = _Structure()
    parser.feed(page.read_text(encoding="utf-8"))
    return parser.within


VOID = frozenset({"br", "col", "hr", "img", "input", "link", "meta", "path", "use", "wbr"})


class _Structure(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.within: set[str] = set()
        self.open: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        kept = [
            f"{name}={value if name in ('class', 'role', 'type', 'scope') else bool(value)}"
            for name, value in attrs
        ]
        part = f"<{tag} {' '.join(kept)}>"
        self.within.add(f"{self.open[-1][1] if self.open else ''}{part}")
        if tag not in VOID:
            self.open.append((tag, part))

    def handle_endtag(self, tag: str) -> None:
        if tag in (name for name, _ in self.open):
            while self.open.pop()[0] != tag:
                pass


@pytest.mark.parametrize("project", sorted({project for project, _ in SERIALS}))
def test_every_page_keeps_wcag_2_2_aa(
    project: str, tmp_path: Path, reader: Reader, violations: Callable[[Any], list[str]]
) -> None:
    """Every page of the first serial but its working sheets, which run to 20,000 elements of one template; of
    the sheets, and of the other serials, the pages with an element that no page before them holds."""
    found: list[str] = []
    seen: set[str] = set()
    tab, first = None, next(iter(demo(project)))
    for number, made in demo(project).items():
        build_site(packet(made), tmp_path / number, epoch=0)
        tab = tab or reader.open(tmp_path / number / "index.html", size="phone")
        for page in pages(tmp_path / number):
            known = (shape := structure(page)) <= seen
            seen |= shape
            if not known or (number == first and page.parent.name != "working"):
                tab.goto(page.as_uri())
                found += [f"{number}/{page.name}: {breach}" for breach in violations(tab)]
    assert found == []
