"""Text of a record stays text: a page with hostile words has the same elements as one with plain words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest
from demonstration import barrow
from page_reading import Element, read

from dossier.compose.operating import pages
from dossier.dossier import Dossier
from dossier.model.base import Part
from dossier.model.procedure import Procedure

WORDS = {
    "title", "purpose", "closing", "tools", "loose_items", "note", "do", "expect", "by", "second_check",
    "if_not", "tool", "fastener", "source", "hazard", "consequence", "avoidance", "name", "reason",
    "basis", "meaning", "where", "text", "does", "detents", "marking", "description",
}  # fmt: skip
FILLED = {
    "do",
    "expect",
    "second_check",
    "if_not",
    "hazard",
    "consequence",
    "avoidance",
    "text",
    "description",
    "purpose",
    "closing",
    "note",
    "by",
}
"""Texts with placeholders; braces in them that name no limit are refused when the project is read."""

SHOWN = ("charging", "emergency")

HOSTILE = (
    "<script>alert(1)</script>",
    "</p></div></li></ol></td></tr></table><h1>Broken out</h1>",
    "<img src=x onerror=alert(1)>",
    '" onclick="alert(1)" x="',
    "**bold** _it_ `code` [link](https://evil.example) ![x](y)",
    "# heading",
    "one\n\n## two\n\n- item\n\n    code",
    "a | b | c",
    "&lt;b&gt; &amp; &#60;i&#62;",
    "<!-- open",
    '<div markdown="1">',
    "[^1] [x]: https://evil.example",
    "<https://evil.example> ]]> \\",
    "===",
)
IN_BRACES = ("{: .evil #evil onclick=alert(1) }", "{#evil}", "{{ 7 * 7 }}", "{% raw %}", "{{ '<b>' | safe }}")


def spoiled(value: Any, plain: str, braced: str) -> Any:
    """The same record with every text replaced."""
    if isinstance(value, Part):
        names = type(value).model_fields
        return value.model_copy(
            update={name: _spoiled_field(name, getattr(value, name), plain, braced) for name in names}
        )
    if isinstance(value, list):
        return [spoiled(item, plain, braced) for item in value]
    if isinstance(value, dict):
        return {name: spoiled(item, plain, braced) for name, item in value.items()}
    return value


def _spoiled_field(name: str, value: Any, plain: str, braced: str) -> Any:
    if name not in WORDS or value is None or isinstance(value, Part):
        return spoiled(value, plain, braced)
    text = plain if name in FILLED else braced
    return [text for _ in value] if isinstance(value, list) else text


def some_of_each(procedures: Mapping[str, Procedure]) -> dict[str, Procedure]:
    """One procedure of each kind of page, so that a run over all hostile texts stays short."""
    return {procedure.kind: procedure for procedure in procedures.values() if procedure.kind in SHOWN}


def dossier_with(plain: str, braced: str) -> Dossier:
    dossier = barrow()
    project = dossier.project
    return replace(dossier, project=replace(
        project,
        aircraft=spoiled(project.aircraft, plain, braced),
        hazards=spoiled(project.hazards, plain, braced),
        procedures=spoiled(some_of_each(project.procedures), plain, braced),
    ))  # fmt: skip


def read_all(dossier: Dossier) -> dict[str, Element]:
    return {page.path: read(page) for page in pages(dossier)}


@pytest.fixture(scope="module")
def harmless() -> dict[str, Element]:
    return read_all(dossier_with("words", "words"))


@pytest.mark.parametrize(
    ("plain", "braced"), [*((text, text) for text in HOSTILE), *(("words", text) for text in IN_BRACES)]
)
def test_hostile_words_add_no_element_and_no_attribute(harmless, plain, braced):
    for path, root in read_all(dossier_with(plain, braced)).items():
        assert root.skeleton() == harmless[path].skeleton(), path


@pytest.mark.parametrize("text", [*HOSTILE, *IN_BRACES])
def test_hostile_words_are_shown_as_they_are_written(text):
    shown = " ".join(text.split())
    for path, root in read_all(dossier_with("words", text)).items():
        assert root.text.count(shown) > 1, path
