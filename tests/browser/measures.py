"""What a browser says of an open page; any test over built pages may use these."""

from __future__ import annotations

from pathlib import Path
from typing import Any
from urllib.parse import unquote


def overflow(page: Any) -> int:
    """By how many CSS pixels the page is wider than its screen; nought or less if it fits."""
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def dead_links(page: Any) -> list[str]:
    """Links of an open page, resolved by the browser, that lead to no file or to no anchor in it."""
    links = page.eval_on_selector_all("a[href]", "links => links.map(link => link.href)")
    assert links, "the page has no link, not even to its contents"
    return [link for link in dict.fromkeys(links) if link.startswith("file:") and not _leads_somewhere(link)]


def _leads_somewhere(link: str) -> bool:
    path, _, anchor = link.removeprefix("file://").partition("#")
    file = Path(unquote(path))
    return file.is_file() and (not anchor or f'id="{unquote(anchor)}"' in file.read_text(encoding="utf-8"))
