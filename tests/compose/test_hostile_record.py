"""Text of a record stays text: a project full of tricks gives the same elements as one with plain words."""

from __future__ import annotations

import shutil
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import pytest
import yaml
from packet_reading import PROJECTS, Reading, read

from dossier import pipeline
from dossier.compose.packet import Packet
from dossier.compose.pages import packet
from dossier.web.inspection import inspect

PROJECT, SERIAL = "quillet-e1", "0004"
OWN_PAGES = {
    "index.md",
    "declaration.md",
    "conformity.md",
    "claims.md",
    "weight-and-balance.md",
    "battery.md",
    "energy.md",
    "gauge-card.md",
    "wiring.md",
    "performance.md",
    "assembly.md",
    "maintenance.md",
    "trailer.md",
    "records.md",
}
TEXTS = {
    "address",
    "agreed_by",
    "because",
    "built_at",
    "by",
    "certificate",
    "checked_by",
    "condition",
    "conditions",
    "configuration",
    "contact",
    "decided_by",
    "description",
    "design_revision",
    "do",
    "done_by",
    "expect",
    "function",
    "ground",
    "insulation",
    "level",
    "levelled",
    "levelling",
    "lot",
    "lots",
    "name",
    "no_fuse_because",
    "note",
    "number",
    "open_items",
    "place_of_weighing",
    "position_error",
    "reason",
    "responsible_person",
    "shows",
    "source",
    "specification",
    "what",
    "where",
}
"""Keys that hold free words in any of the files."""
TRICKS = (
    "<script>alert(1)</script>",
    "</p></td></tr></table></section></div><h1>Out</h1>",
    "<img src=x onerror=alert(1)>",
    '" onclick="alert(1)" x="',
    "**bold** _it_ `code` [a](https://evil.example) ![b](c)",
    "one\n\n## two\n\n- item\n\n    code",
    "{{ 7 * 7 }} {% raw %} {# gone #} {: .evil #evil }",
    "&lt;b&gt; &amp; &#60;i&#62; <!-- open",
    '<div markdown="1">[^1] [TOC] ]]> \\',
    "$x^2$ _ | a | b |",
    "\u6f22\u5b57 \u05d0\u05d1 \U0001f6e9 " + "very long " * 12,
)


SPOILED = (
    "aircraft.yaml",
    "assembly.yaml",
    "battery.yaml",
    "compliance.yaml",
    "maintenance.yaml",
    "trailer.yaml",
    f"serials/{SERIAL}/record.yaml",
)
"""The serial's record is the last."""
PLAIN = ("Plain words",)
ROUNDS = tuple(TRICKS[start:] + TRICKS[:start] for start in range(0, len(TRICKS), 3))
"""Each round deals the tricks out to the texts in turn, starting elsewhere."""
SHOWN = {
    "lot": "assembly.md",
    "checked_by": "assembly.md",
    "decided_by": "assembly.md",
    "place_of_weighing": "weight-and-balance.md",
    "condition": "weight-and-balance.md",
    "certificate": "index.md",
    "shows": "records.md",
    "what": "records.md",
}
"""Keys of the serial's record whose words stand on a page as they are."""


@dataclass
class Spoiler:
    """Puts tricks into every free text of a tree; each is numbered, because names must differ."""

    tricks: tuple[str, ...]
    put: list[tuple[str, str]] = field(default_factory=list)
    """Key and text, in the order of the files."""

    def tree(self, value: Any) -> Any:
        if isinstance(value, dict):
            return {key: self._at(key, item) for key, item in value.items()}
        if isinstance(value, list):
            return [self.tree(item) for item in value]
        return {"true": True, "false": False}.get(value, value)

    def _at(self, key: str, item: Any) -> Any:
        if key in TEXTS and isinstance(item, str):
            return self._text(key)
        if key in TEXTS and isinstance(item, list) and all(isinstance(one, str) for one in item):
            return [self._text(key) for _ in item]
        return self.tree(item)

    def _text(self, key: str) -> str:
        number = len(self.put)
        trick = self.tricks[number % len(self.tricks)]
        # braces in a description name a limit: any other are refused when the project is read
        text = f"{trick.replace('{', '(') if key == 'description' else trick} {number}"
        self.put.append((key, text))
        return text


@dataclass
class Spoiled:
    """A packet of a spoiled project, read."""

    packet: Packet
    readings: dict[str, Reading]
    put: list[tuple[str, str]]
    """What was put into the serial's record."""


def _without_rigging(value: Any) -> None:
    """Take out what names a connection, since rigging.yaml is left out too."""
    for item in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        _without_rigging(item)
    if isinstance(value, dict):
        for key in ("joins", "senses", "seen"):
            value.pop(key, None)


@cache
def spoiled(tricks: tuple[str, ...]) -> Spoiled:
    """Compose a demonstration serial after tricks were put into every free text of its files."""
    folder = Path(mkdtemp()) / PROJECT
    try:
        shutil.copytree(
            PROJECTS / PROJECT, folder, ignore=shutil.ignore_patterns("000[!4]", "procedures", "rigging.yaml")
        )
        spoiler = Spoiler(tricks)
        for name in SPOILED:
            before = len(spoiler.put)
            tree = spoiler.tree(yaml.load((folder / name).read_text("utf-8"), yaml.BaseLoader))
            for task in tree.get("tasks", {}).values():
                task.pop("procedure", None)  # the procedures are left out
            _without_rigging(tree)
            (folder / name).write_text(yaml.safe_dump(tree, sort_keys=False, allow_unicode=True), "utf-8")
        made = packet(pipeline.run(folder, SERIAL))
    finally:
        shutil.rmtree(folder.parent)
    own = [page for page in made.pages if page.path in OWN_PAGES or page.path.startswith("working/")]
    return Spoiled(made, {page.path: read(page) for page in own}, spoiler.put[before:])


rounds = pytest.mark.parametrize("tricks", ROUNDS, ids=range(len(ROUNDS)))


@rounds
def test_every_page_has_the_elements_that_it_has_with_plain_words(tricks: tuple[str, ...]) -> None:
    plain, found = spoiled(PLAIN).readings, spoiled(tricks).readings
    differing = [path for path in plain if found[path].tags != plain[path].tags]
    assert (differing, found.keys()) == ([], plain.keys())


@rounds
def test_no_page_loads_anything_or_holds_a_script(tricks: tuple[str, ...]) -> None:
    assert [
        complaint for page in spoiled(tricks).packet.pages for complaint in inspect(page.text).refused
    ] == []


@rounds
def test_no_element_runs_anything(tricks: tuple[str, ...]) -> None:
    assert [handler for reading in spoiled(tricks).readings.values() for handler in reading.handlers] == []


@rounds
def test_no_anchor_is_lost(tricks: tuple[str, ...]) -> None:
    plain, found = spoiled(PLAIN).readings, spoiled(tricks).readings
    assert [path for path in OWN_PAGES if found[path].outside != plain[path].outside] == []


@rounds
def test_the_words_are_shown_as_they_were_written(tricks: tuple[str, ...]) -> None:
    found = spoiled(tricks)
    looked_for = [(SHOWN[key], " ".join(text.split())) for key, text in found.put if key in SHOWN]
    assert len(looked_for) > len(TRICKS)
    assert [(path, text) for path, text in looked_for if text not in found.readings[path].text] == []
