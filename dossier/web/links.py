"""Links between the pages of a packet, also those in raw HTML that MkDocs does not look at."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Collection, Mapping
from urllib.parse import unquote, urlsplit

from dossier.web.inspection import Inspection

_RAW_LINK = re.compile(r'(<a\b[^>]*?\bhref=")([^":?#]+)\.md(?=["#])')


def to_built_pages(html: str) -> str:
    """Turn links in raw HTML to ``battery.md`` into links to ``battery.html``, as for Markdown."""
    return _RAW_LINK.sub(r"\1\2.html", html)


def dead_links(pages: Mapping[str, Inspection], files: Collection[str]) -> list[str]:
    """Name every link whose file or anchor is not in the site, in the order of the pages.

    ``pages`` maps a page's address in the site to its reading, ``files`` holds the addresses of all else.
    """
    return [
        f"{address}: the link {reference!r} leads nowhere"
        for address, page in pages.items()
        for reference in dict.fromkeys(page.references)
        if not _resolves(address, reference, pages, files)
    ]


def _resolves(address: str, reference: str, pages: Mapping[str, Inspection], files: Collection[str]) -> bool:
    parts = urlsplit(reference)
    target = posixpath.normpath(posixpath.join(posixpath.dirname(address), unquote(parts.path)))
    if not parts.path:
        target = address
    anchor = unquote(parts.fragment)
    if target in pages:
        return not anchor or anchor in pages[target].anchors
    return target in files
