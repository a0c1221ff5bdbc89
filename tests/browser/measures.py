"""What a browser says of an open page; any test over built pages may use these."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest


def overflow(page: Any) -> int:
    """By how many CSS pixels the page is wider than its screen; nought or less if it fits."""
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def cut_words(page: Any) -> list[str]:
    """Words of drawings that run over the edge of their drawing, and are cut off there."""
    return page.eval_on_selector_all(
        "figure svg, .plot svg",
        """drawings => drawings.flatMap(drawing => {
            const edge = drawing.getBoundingClientRect()
            return [...drawing.querySelectorAll("text")].filter(text => {
                const box = text.getBoundingClientRect()
                return box.left < edge.left - 1 || box.right > edge.right + 1
            }).map(text => text.textContent)
        })""",
    )


def dead_links(page: Any) -> list[str]:
    """Links of an open page, resolved by the browser, that lead to no file or to no anchor in it."""
    links = page.eval_on_selector_all("a[href]", "links => links.map(link => link.href)")
    assert links, "the page has no link, not even to its contents"
    return [link for link in dict.fromkeys(links) if link.startswith("file:") and not _leads_somewhere(link)]


def _leads_somewhere(link: str) -> bool:
    path, _, anchor = link.removeprefix("file://").partition("#")
    file = Path(unquote(path))
    return file.is_file() and (not anchor or f'id="{unquote(anchor)}"' in file.read_text(encoding="utf-8"))


def printed_sides(page: Any, file: Path) -> list[str]:
    """Print a page to a PDF file and give back the text of each side of paper, read by poppler."""
    page.pdf(path=file, prefer_css_page_size=True)
    return _poppler("pdftotext", "-layout", file, "-").split("\f")[:-1]


def paper_size(file: Path) -> tuple[float, float]:
    """Width and height of a PDF file's paper in points, read by poppler."""
    found = re.search(r"Page size:\s+([\d.]+) x ([\d.]+) pts", _poppler("pdfinfo", file))
    assert found
    return float(found[1]), float(found[2])


def number_of_pages(file: Path) -> int:
    """How many pages a PDF file has, read by poppler."""
    found = re.search(r"Pages:\s+(\d+)", _poppler("pdfinfo", file))
    assert found
    return int(found[1])


def _poppler(name: str, *arguments: str | Path) -> str:
    program = shutil.which(name)
    if program is None:
        pytest.skip(f"{name} is not on PATH")
    return subprocess.run([program, *arguments], capture_output=True, check=True, text=True).stdout
