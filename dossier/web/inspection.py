"""A reading of a page's HTML: what it points at, what can be pointed at, and what may not stand there.

Text from a record is escaped where a page is written. This is the second lock: a page that would run a
script, load something from outside, or frame another document is refused, whoever let it through.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import urlsplit

_ACTIVE = frozenset(
    ("applet", "base", "embed", "form", "frame", "frameset", "iframe", "link", "meta", "object", "script")
)
_LOADING = frozenset(("action", "background", "data", "formaction", "poster", "src", "srcset", "xlink:href"))
_LINK_SCHEMES = frozenset(("", "http", "https", "mailto"))
_OUTSIDE_IN_STYLE = re.compile(r"@import|url\(\s*['\"]?(?!#|data:)", re.IGNORECASE)


@dataclass
class Inspection(HTMLParser):
    """What one page holds. Feed it HTML once."""

    anchors: set[str] = field(default_factory=set)
    references: list[str] = field(default_factory=list)
    """Every address that the page points at or loads, as written, without those of other sites."""
    refused: list[str] = field(default_factory=list)
    """What may not stand on a page, each as a phrase with its line in the page."""

    def __post_init__(self) -> None:
        """Make the parser ready."""
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at one element."""
        if tag in _ACTIVE:
            self._refuse(f"the element <{tag}>")
        for name, value in attrs:
            self._attribute(tag, name, value or "")

    def handle_data(self, data: str) -> None:
        """Look at the text of a style element; other text cannot do anything."""
        if self.lasttag == "style" and _OUTSIDE_IN_STYLE.search(data):
            self._refuse("a style that loads something")

    def _attribute(self, tag: str, name: str, value: str) -> None:
        if name == "id" or (name == "name" and tag == "a"):
            self.anchors.add(value)
        elif name.startswith("on"):
            self._refuse(f"the attribute {name}")
        elif name == "style" and _OUTSIDE_IN_STYLE.search(value):
            self._refuse("a style that loads something")
        elif name in _LOADING or (name == "href" and tag != "a"):
            self._loads(name, value)
        elif name == "href":
            self._links(value)

    def _loads(self, name: str, value: str) -> None:
        address = urlsplit(value.strip())
        inline_picture = name == "src" and value.strip().startswith("data:image/")
        if inline_picture:
            return
        if address.scheme or address.netloc:
            self._refuse(f"{name}={value!r}, which is not a file of the packet")
        else:
            self.references.append(value)

    def _links(self, value: str) -> None:
        address = urlsplit(value.strip())
        if address.scheme not in _LINK_SCHEMES:
            self._refuse(f"a link to {value!r}")
        elif not address.scheme and not address.netloc:
            self.references.append(value)

    def _refuse(self, what: str) -> None:
        self.refused.append(f"line {self.getpos()[0]} of the page holds {what}")


def inspect(html: str) -> Inspection:
    """Read a page once."""
    inspection = Inspection()
    inspection.feed(html)
    inspection.close()
    return inspection
