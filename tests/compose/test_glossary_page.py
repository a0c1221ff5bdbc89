"""Words and signs: every word, every sign of a sheet, and ways that lead there."""

from __future__ import annotations

import pytest
from packet_reading import SERIALS, composed, html, made, page_of, read, text_of

from dossier.glossary import SYMBOLS
from dossier.terms import TERMS

everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])


@everyone
def test_every_word_stands_under_its_anchor(project: str, number: str) -> None:
    page = read(page_of(composed(project, number), "words.md"))
    assert [term.key for term in TERMS if term.key not in page.ids] == []
    assert [term.key for term in TERMS if " ".join(term.meaning.split()) not in page.text] == []


@everyone
def test_every_sign_of_every_sheet_is_told(project: str, number: str) -> None:
    shown = text_of(project, number, "words.md")
    formulas = [figure.working.formula for figure in made(project, number).figures.values()]
    keys = {key for formula in formulas for key in (formula.result, *formula.parameters)}
    assert [key for key in sorted(keys) if " ".join(SYMBOLS[key].meaning.split()) not in shown] == []


def test_the_first_k_2_of_the_cover_leads_to_its_meaning() -> None:
    page = html(page_of(composed("quillet-e1", "0003"), "index.md")).replace("\u00a0", " ")
    first = page.index("k = 2")
    assert page[:first].endswith('<a href="words.md#k-2">')


@pytest.mark.parametrize("path", ["conformity.md", "working/weighing.md"])
def test_where_k_2_is_said_of_a_whole_page_it_leads_to_its_meaning(path: str) -> None:
    assert 'words.md#k-2">k = 2</a>' in html(page_of(composed("quillet-e1", "0003"), path))
