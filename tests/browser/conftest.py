"""A browser for tests that open built pages from disk, as a reader with a memory stick does.

One browser a test worker, one context a test. A test asks for ``reader``, calls ``reader.open(file)`` and
gets a Playwright page; whatever the page said to the console or asked for outside fails the test at its end.
``built_site`` builds the sample packet once a worker; tests over other packets may use ``reader`` as it is.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
REQUIRED = "DOSSIER_BROWSER_REQUIRED"
"""Set in the environment: no browser is a failure."""
INSIDE = ("file:", "data:", "blob:", "about:")
WCAG_22_AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
SIZES = {"desktop": {"width": 1280, "height": 900}, "phone": {"width": 390, "height": 844}}


@dataclass
class Reader:
    """Opens pages and remembers everything that a page should not have done."""

    new_context: Callable[..., Any]
    complaints: list[str] = field(default_factory=list)

    def open(self, file: Path, *, size: str = "desktop", scheme: str = "light") -> Any:
        """Open a built page from disk, on a screen of the named size, with the named taste for colours."""
        context = self.new_context(viewport=SIZES[size], color_scheme=scheme, reduced_motion="reduce")
        page = context.new_page()
        page.on("console", lambda said: self.complaints.append(f"console {said.type}: {said.text}"))
        page.on("pageerror", lambda error: self.complaints.append(f"script error: {error}"))
        page.on("requestfailed", self._failed)
        page.on("request", self._request)
        page.goto(file.as_uri())
        return page

    def _failed(self, request: Any) -> None:
        if (
            request.failure != "net::ERR_ABORTED"
        ):  # the test went on to the next page before this one had its icon
            self.complaints.append(f"not found: {request.url} {request.failure}")

    def _request(self, request: Any) -> None:
        if not request.url.startswith(INSIDE):
            self.complaints.append(f"request to the outside: {request.url}")


def chromium_program() -> str:
    """Name the browser; a test that finds none is skipped, or fails where one is required."""
    program = os.environ.get("DOSSIER_CHROMIUM") or shutil.which("chromium")
    if not program:
        missing = pytest.fail if os.environ.get(REQUIRED) else pytest.skip
        missing("no Chromium on PATH and none named in DOSSIER_CHROMIUM")
    return str(program)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """One browser for all tests of this worker."""
    sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    program = chromium_program()
    with sync_api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=list(FLAGS))
        yield browser
        browser.close()


@pytest.fixture
def reader(chromium: Any) -> Iterator[Reader]:
    """A reader whose pages must have been silent and self-contained when the test ends."""
    contexts = []

    def new_context(**options: Any) -> Any:
        contexts.append(chromium.new_context(**options))
        return contexts[-1]

    reader = Reader(new_context)
    yield reader
    for context in contexts:
        context.close()
    assert reader.complaints == []


@pytest.fixture(scope="session")
def violations() -> Callable[[Any], list[str]]:
    """Run axe-core on a page for the rules of WCAG 2.2 level AA; each breach as a line."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe is not installed").Axe()

    def breaches(page: Any) -> list[str]:
        # preload would fetch the stylesheets anew, which a browser forbids to a page on disk
        options = {"runOnly": {"type": "tag", "values": WCAG_22_AA}, "preload": False}
        answer = axe.run(page, options=options).response
        assert answer["passes"], "axe looked at nothing"
        return [
            f"{breach['id']}: {node['target']} {node['failureSummary']}"
            for breach in answer["violations"]
            for node in breach["nodes"]
        ]

    return breaches


@pytest.fixture(scope="session")
def built_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample packet, built."""
    from sample_packet import sample_packet

    from dossier.web.build import build_site

    destination = tmp_path_factory.mktemp("site") / "0012"
    build_site(sample_packet(), destination, epoch=0)
    return destination
