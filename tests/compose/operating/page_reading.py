"""Read a composed page as a browser does: Markdown to HTML with the site's own extensions, then a tree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

import markdown

from dossier.compose.packet import Page

EXTENSIONS = ["attr_list", "def_list", "footnotes", "md_in_html", "tables", "toc"]
"""As in mkdocs.yml."""
VOID = {"input", "br", "img", "hr"}


@dataclass
class Element:
    """An element with its children in order; text stands between them as plain strings."""

    tag: str
    attributes: dict[str, str | None] = field(default_factory=dict)
    children: list[Element | str] = field(default_factory=list)

    @property
    def classes(self) -> set[str]:
        return set((self.attributes.get("class") or "").split())

    @property
    def text(self) -> str:
        """All text inside, blanks collapsed (a space that does not break counts as one)."""
        return " ".join("".join(self._texts()).split())

    def _texts(self) -> Iterator[str]:
        for child in self.children:
            yield from ([child] if isinstance(child, str) else child._texts())

    def walk(self) -> Iterator[Element]:
        """All elements inside, in the order of the page."""
        for child in self.children:
            if isinstance(child, Element):
                yield child
                yield from child.walk()

    def all(self, name: str) -> list[Element]:
        """All elements of a class (``.step``) or of a tag (``table``)."""
        if name.startswith("."):
            return [element for element in self.walk() if name[1:] in element.classes]
        return [element for element in self.walk() if element.tag == name]

    def one(self, name: str) -> Element:
        found = self.all(name)
        assert len(found) == 1, f"{len(found)} elements {name}"
        return found[0]

    def skeleton(self) -> list[tuple[str, tuple[tuple[str, str | None], ...]]]:
        """Every tag with its attributes, without those that hold words of the record."""
        spoken = {"aria-label", "id", "href", "data-title", "data-type", "data-digest"}
        return [
            (
                element.tag,
                tuple((name, value) for name, value in element.attributes.items() if name not in spoken),
            )
            for element in self.walk()
        ]


class _Builder(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Element("page")
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, dict(attrs))
        self.open[-1].children.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].children.append(Element(tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, f"</{tag}> closes <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)

    def handle_comment(self, data: str) -> None:
        raise AssertionError(f"a comment hides {data!r}")


def read(page: Page) -> Element:
    """Convert a page and read it; an element that is not closed, or in the wrong order, fails the test."""
    builder = _Builder()
    builder.feed(markdown.markdown(page.text, extensions=EXTENSIONS))
    builder.close()
    assert builder.open == [builder.root], f"<{builder.open[-1].tag}> is not closed"
    return builder.root


def plain(text: str) -> str:
    """A text of the record as :attr:`Element.text` gives it back."""
    return " ".join(text.split())
