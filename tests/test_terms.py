"""Words that pages use: each is told once, and names a source that is on the list."""

from __future__ import annotations

import re

from dossier.sources import cite
from dossier.terms import TERMS


def test_no_word_is_told_twice() -> None:
    assert len({term.key for term in TERMS}) == len({term.name for term in TERMS}) == len(TERMS)


def test_every_anchor_can_stand_in_an_address() -> None:
    assert [term.key for term in TERMS if not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", term.key)] == []


def test_every_source_is_on_the_list() -> None:
    assert all(cite(term.source).source.title for term in TERMS)


def test_every_meaning_is_a_sentence() -> None:
    assert [term.key for term in TERMS if not term.meaning.endswith(".") or term.meaning[0].islower()] == []


def test_the_words_that_a_buyer_asks_about_are_told() -> None:
    asked = ["k = 2", "expanded", "standard uncertainty", "guard band", "CAS", "IAS", "datum", "arm", "polar"]
    asked += ["Oswald", "nameplate", "taper", "pressure height"]
    names = " | ".join(term.name for term in TERMS)
    assert [word for word in asked if word not in names] == []
