"""The order of sheets, as MkDocs wants to be told it."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Any

from dossier.compose import links
from dossier.compose.packet import Page


def navigation(pages: Iterable[Page]) -> list[dict[str, Any]]:
    """Order the pages that stand in the contents as they come; a group stands where its first page stands.

    Titles are escaped here, once: the theme and its search index take every title as ready HTML.
    """
    groups: dict[str, list[dict[str, Any]]] = {}
    contents: list[dict[str, Any]] = []
    for page in (page for page in pages if page.in_contents):
        entry = {escape(page.title): page.path}
        if not page.group:
            contents.append(entry)
            continue
        if page.group not in groups:
            groups[page.group] = []
            contents.append({escape(page.group): groups[page.group]})
        groups[page.group].append(entry)
    return contents


def words_page(pages: Iterable[Page]) -> str:
    """Return the address of the page that explains the words, for the foot of every sheet; else nothing."""
    return next((page.path.removesuffix(".md") + ".html" for page in pages if page.path == links.WORDS), "")
