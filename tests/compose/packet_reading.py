"""Packets of the demonstration projects, read as a browser would read them."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

import markdown

from dossier import pipeline
from dossier.compose.packet import Packet, Page
from dossier.compose.pages import packet
from dossier.dossier import Dossier
from dossier.project import serial_numbers

PROJECTS = Path(__file__).parents[2] / "projects"
SERIALS = tuple(
    (project, number)
    for project in ("quillet-e1", "barrow-t2")
    for number in serial_numbers(PROJECTS / project)
)
EXTENSIONS = ["attr_list", "def_list", "footnotes", "md_in_html", "tables", "toc"]
"""As in mkdocs.yml."""


@cache
def made(project: str, number: str) -> Dossier:
    """Make the dossier of a demonstration serial, once."""
    return pipeline.run(PROJECTS / project, number)


@cache
def composed(project: str, number: str) -> Packet:
    """Compose its packet, once."""
    return packet(made(project, number))


@dataclass
class Reading(HTMLParser):
    """What stands on one page."""

    tags: list[str] = field(default_factory=list)
    """Each tag with its class and style, in order; a drawing counts as one."""
    ids: list[str] = field(default_factory=list)
    references: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    handlers: list[str] = field(default_factory=list)
    """Attributes that would run something."""
    in_drawing: bool = False
    outside: list[str] = field(default_factory=list)
    """The ids that are not in a drawing."""

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    @property
    def text(self) -> str:
        """All text, blanks collapsed; a space that does not break counts as one."""
        return " ".join("".join(self.words).split())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = {name: value or "" for name, value in attrs}
        if not self.in_drawing:
            self.outside += [attributes["id"]] if "id" in attributes else []
            self.tags.append(f"{tag}.{attributes.get('class', '')}.{attributes.get('style', '')}")
        self.in_drawing = self.in_drawing or tag == "svg"
        self.ids += [attributes["id"]] if "id" in attributes else []
        self.references += [attributes[name] for name in ("href", "xlink:href", "src") if name in attributes]
        self.handlers += [name for name in attributes if name.startswith("on")]
        if tag in ("td", "th", "p", "li", "div", "tr", "h1", "h2", "h3"):
            self.words.append(" ")

    def handle_endtag(self, tag: str) -> None:
        self.in_drawing = self.in_drawing and tag != "svg"

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def html(page: Page) -> str:
    """Convert a page as the site does."""
    return markdown.markdown(page.text, extensions=EXTENSIONS)


def read(page: Page) -> Reading:
    """Read a page."""
    reading = Reading()
    reading.feed(html(page))
    reading.close()
    return reading


def page_of(packet: Packet, path: str) -> Page:
    """Find a page by its path."""
    return next(page for page in packet.pages if page.path == path)


def text_of(project: str, number: str, path: str) -> str:
    """Read the words of a page of a demonstration serial."""
    return read(page_of(composed(project, number), path)).text


def dead_ends(packet: Packet) -> list[str]:
    """Name every link inside the packet that leads nowhere."""
    readings = {page.path: read(page) for page in packet.pages}
    assets = {asset.path for asset in packet.assets}
    return [
        f"{path}: {reference}"
        for path, reading in readings.items()
        for reference in reading.references
        if not _resolves(path, reference, readings, assets)
    ]


def _resolves(path: str, reference: str, readings: dict[str, Reading], assets: set[str]) -> bool:
    parts = urlsplit(reference)
    target = normpath(join(dirname(path), unquote(parts.path))) if parts.path else path
    if target in readings:
        return not parts.fragment or unquote(parts.fragment) in readings[target].ids
    return not parts.scheme and target in assets
