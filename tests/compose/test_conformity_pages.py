"""Conformity, declaration and claims: every verdict in words, nothing declared that was not shown."""

from __future__ import annotations

import re

import pytest
from packet_reading import SERIALS, composed, html, made, page_of, read, text_of

from dossier.compose import links
from dossier.compose.declaration import of
from dossier.compose.edition import document_number, edition_words
from dossier.judge.verdict import State

everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])


def plain(text: str) -> str:
    return " ".join(text.split())


@everyone
def test_every_verdict_stands_with_its_reason(project: str, number: str) -> None:
    text = text_of(project, number, "conformity.md")
    assert [
        one.requirement for one in made(project, number).verdicts if plain(one.reason).rstrip(".") not in text
    ] == []


@everyone
def test_every_requirement_has_an_anchor(project: str, number: str) -> None:
    ids = read(page_of(composed(project, number), "conformity.md")).ids
    assert [
        one.requirement for one in made(project, number).verdicts if links.anchor(one.requirement) not in ids
    ] == []


@everyone
def test_every_unsettled_point_is_printed(project: str, number: str) -> None:
    text = text_of(project, number, "conformity.md")
    assert [
        point for one in made(project, number).verdicts for point in one.unsettled if plain(point) not in text
    ] == []


@everyone
def test_every_source_is_printed_with_how_far_it_was_read(project: str, number: str) -> None:
    text = text_of(project, number, "conformity.md")
    assert [
        one.source for one in made(project, number).verdicts if f"Source: {plain(one.source)} (" not in text
    ] == []


def test_both_battery_bases_stand_side_by_side() -> None:
    text = text_of("quillet-e1", "0004", "conformity.md")
    assert "Battery counted (relied on) Battery not counted" in text


def test_an_inconclusive_weight_says_what_these_scales_can_prove() -> None:
    verdict = next(
        one for one in made("quillet-e1", "0004").verdicts if one.requirement == "us-14-cfr-103/e-1"
    )
    assert verdict.verdict is State.INCONCLUSIVE
    assert "The largest value that this measuring can prove is" in text_of(
        "quillet-e1", "0004", "conformity.md"
    )


@everyone
def test_only_what_conforms_stands_under_declared_as_met(project: str, number: str) -> None:
    page = html(page_of(composed(project, number), "declaration.md"))
    tables = re.findall(r"<table><caption>Declared: met</caption>.*?</table>", page, re.DOTALL)
    assert "".join(tables).count("verdict--conforms") == sum(
        one.verdict is State.CONFORMS for one in made(project, number).verdicts
    )
    assert re.findall(r"verdict--(?!conforms)\w+", "".join(tables)) == []


@everyone
def test_what_is_not_declared_is_listed_as_plainly(project: str, number: str) -> None:
    page = html(page_of(composed(project, number), "declaration.md"))
    tables = "".join(re.findall(r"<table><caption>Not declared: .*?</table>", page, re.DOTALL))
    left = [
        one
        for one in made(project, number).verdicts
        if one.verdict in (State.DOES_NOT_CONFORM, State.INCONCLUSIVE, State.NOT_SHOWN)
    ]
    assert len(re.findall(r"<tr><th scope=\"row\"", tables)) == len(left)


@everyone
def test_a_declaration_names_issuer_object_and_number(project: str, number: str) -> None:
    declared, text = of(made(project, number)), text_of(project, number, "declaration.md")
    wanted = [
        declared.number,
        declared.issuer,
        *declared.address,
        declared.type_name,
        declared.serial_number,
        declared.signatory,
        declared.function,
    ]
    assert [word for word in wanted if plain(word) not in text] == []


def test_signature_place_and_date_are_left_for_people() -> None:
    page = html(page_of(composed("quillet-e1", "0003"), "declaration.md"))
    assert re.findall(r"<dt>(?:Signature|Place and date)</dt><dd>(.*?)</dd>", page) == ["", "", "", ""]


def test_a_declaration_says_when_it_lapses() -> None:
    assert "lapses when a weighing, a change of equipment or battery" in text_of(
        "quillet-e1", "0003", "declaration.md"
    )


def test_a_draft_is_not_to_be_signed() -> None:
    assert edition_words(made("quillet-e1", "0004")) == "Draft, not issued"
    assert "This is a draft. It belongs to no issued edition and is not to be signed." in text_of(
        "quillet-e1", "0004", "declaration.md"
    )


def test_an_issued_edition_is_no_draft() -> None:
    assert edition_words(made("quillet-e1", "0002")) == "Edition B, 2026-06-12"
    assert "This is a draft" not in text_of("quillet-e1", "0002", "declaration.md")


def test_no_two_serials_share_a_number() -> None:
    numbers = [document_number(made(project, number)) for project, number in SERIALS]
    assert len(set(numbers)) == len(SERIALS)


@everyone
def test_every_claim_stands_with_its_result(project: str, number: str) -> None:
    text = text_of(project, number, "claims.md")
    left = [
        one.claim
        for one in made(project, number).claims
        if f"\u201c{plain(one.text)}\u201d {str(one.result).capitalize()}" not in text
    ]
    assert left == []
