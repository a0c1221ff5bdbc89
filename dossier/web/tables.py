"""Every table may be wider than a phone: it scrolls in a region that a keyboard can reach."""

from __future__ import annotations

import re
from html import escape, unescape

_PIECE = re.compile(
    r"<h[1-6][^>]*>(?P<heading>.*?)</h[1-6]>|(?P<table><table\b.*?</table>)", re.DOTALL | re.IGNORECASE
)
_CAPTION = re.compile(r"<caption[^>]*>(.*?)</caption>", re.DOTALL | re.IGNORECASE)
_TAG = re.compile(r"<[^>]+>")


def _plain(html: str) -> str:
    return " ".join(unescape(_TAG.sub(" ", html)).split())


def with_table_regions(html: str) -> str:
    """Put each table into a focusable region that is named by its caption, or by the heading above it."""
    heading = ""
    number = 0

    def replaced(found: re.Match[str]) -> str:
        nonlocal heading, number
        table = found["table"]
        if table is None:
            heading = _plain(found["heading"])
            return found[0]
        number += 1
        caption = _CAPTION.search(table)
        subject = _plain(caption[1]) if caption else heading
        name = escape(f"Table {number}: {subject}" if subject else f"Table {number}")
        return f'<div class="table-region" role="region" tabindex="0" aria-label="{name}">{table}</div>'

    return _PIECE.sub(replaced, html)
