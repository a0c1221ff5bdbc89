"""Conformity, declaration and claims: every verdict in words, nothing declared that was not shown."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest
from packet_reading import PROJECTS, SERIALS, composed, html, made, page_of, read, text_of

from dossier import pipeline
from dossier.compose import declaration, left_out, links, measured_by
from dossier.compose.changes import since_weighing
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
def test_a_method_that_was_not_read_is_shown_as_a_slot_that_estimates_nothing(
    project: str, number: str
) -> None:
    text, dossier = text_of(project, number, "conformity.md"), made(project, number)
    for one in dossier.verdicts:
        rule_set = dossier.rule_sets[one.rule_set]
        for method in rule_set.requirements[one.requirement.partition("/")[2]].unread_methods:
            assert f"For {method.estimates}: {rule_set.sources[method.source].title}" in text
            assert "Not read: nothing is estimated by it." in text


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
    captions = r"<table><caption>Declared: (?:met|conditions of .*?)</caption>.*?</table>"
    tables = re.findall(captions, page, re.DOTALL)
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
    page = html(page_of(composed("quillet-e1", "0002"), "declaration.md"))
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


def test_a_draft_has_no_place_to_sign_and_says_draft_at_its_head_and_its_foot() -> None:
    page = html(page_of(composed("quillet-e1", "0003"), "declaration.md"))
    assert "signature" not in page.replace("no place for signatures", "").replace("Signatures", "").replace(
        'id="signatures"', ""
    )
    assert page.count('<p class="draft__word">Draft</p>') == 2
    assert "draft__across" in page


def test_an_issued_edition_is_no_draft() -> None:
    assert edition_words(made("quillet-e1", "0002")) == "Edition B, 2026-06-12"
    assert "draft" not in html(page_of(composed("quillet-e1", "0002"), "declaration.md")).lower()


@pytest.mark.parametrize(
    ("project", "number", "days"),
    [
        ("barrow-t2", "T2-007", (date(2026, 5, 8), date(2026, 5, 9))),
        ("quillet-e1", "0007", (date(2026, 3, 27), date(2026, 4, 2))),
        ("quillet-e1", "0003", (date(2025, 5, 12), date(2025, 5, 16), date(2025, 10, 4))),
    ],
)
def test_no_number_stands_on_two_states(project: str, number: str, days: tuple[date, ...]) -> None:
    # one identification for one declaration: ISO/IEC 17050-1:2004, clause 6 (memory)
    found = [of(pipeline.run(PROJECTS / project, number, day)) for day in days]
    assert len({one.number for one in found}) == len(days)
    assert [one.state_of for one in found] == list(days)


def test_an_edition_on_its_own_day_needs_no_day_in_its_number() -> None:
    issued = pipeline.run(PROJECTS / "barrow-t2", "T2-007", date(2026, 5, 8))
    assert document_number(issued) == "T2-007-A"
    assert document_number(made("barrow-t2", "T2-007")) == "T2-007-A-2026-05-09"


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


def test_the_other_battery_of_the_type_is_answered_as_a_forecast() -> None:
    text = text_of("quillet-e1", "0003", "conformity.md")
    assert "103.1(e)(1) with each battery that the type may carry" in text
    assert "Would conform" in text
    assert "not fitted: mass of the design" in text


def test_the_declaration_says_what_it_does_not_declare_of_another_battery() -> None:
    text = text_of("quillet-e1", "0003", "declaration.md")
    assert "Not declared, for another battery that the type may carry" in text
    assert "103.1(e)(1): With Short pack: would conform" in text


def test_the_cover_tells_the_margin_with_another_battery() -> None:
    assert "With Short pack: would conform" in text_of("quillet-e1", "0003", "index.md")


def test_the_masses_with_each_battery_have_sheets() -> None:
    page = next(page for page in composed("quillet-e1", "0003").pages if page.path == "conformity.md")
    for option in ("long-pack", "short-pack"):
        assert f'href="working/requirements.md#counted_mass.us-14-cfr-103.e-1.with.{option}"' in page.text


E_1 = "us-14-cfr-103/e-1"


@pytest.mark.parametrize("page", ["index.md", "conformity.md", "declaration.md"])
def test_wherever_the_mass_that_counts_stands_it_is_told_what_was_left_out(page: str) -> None:
    # 271.20 lb less the parachute as weighed, 21.8 lb, no more than the 24 lb of AC 103-7: 249.40 lb
    shown = text_of("quillet-e1", "0003", page)
    assert "249.40 lb" in shown or "249.4 lb" in shown
    assert "airframe parachute 21.80 lb ± 0.10 lb (allowance 24 lb, AC 103-7, as reported" in shown


def test_a_parachute_that_nobody_weighed_is_told_in_the_verdict_and_as_a_note() -> None:
    shown = text_of("quillet-e1", "0002", "conformity.md")
    assert "(allowance 24 lb, AC 103-7, as reported; by the type's list, not weighed, without ±)" in shown
    assert "Note: The mass of 'Rocket-deployed airframe parachute', 22.0 lb, that 103.1(e)(1)" in shown
    assert [one.code for one in made("quillet-e1", "0003").findings if one.code == "J017"] == []


def test_of_an_item_beyond_its_allowance_the_part_that_is_left_out_is_named() -> None:
    one = next(one for one in made("quillet-e1", "0003").verdicts if one.requirement == E_1)
    heavy = replace(one, left_out=(replace(one.left_out[0], mass=26.0),))
    assert plain(left_out.sum_words(heavy)).startswith("271.20 lb less 24 lb of rocket-deployed")


@everyone
def test_every_rule_set_is_told_as_a_whole_on_both_pages(project: str, number: str) -> None:
    wholes = [one.whole.words for one in of(made(project, number)).rule_sets]
    for page in ("conformity.md", "declaration.md"):
        shown = text_of(project, number, page)
        assert [words for words in wholes if words not in shown] == []


def test_one_requirement_that_fails_keeps_the_whole_from_being_shown() -> None:
    assert (
        "As a whole it is not shown that the vehicle is an ultralight vehicle as section 103.1 describes it, "
        "because 103.1(e)(1) does not conform." in text_of("quillet-e1", "0005", "declaration.md")
    )


@everyone
def test_a_declaration_repeats_the_scope_of_each_rule_set_and_every_unsettled_point(
    project: str, number: str
) -> None:
    dossier, shown = made(project, number), text_of(project, number, "declaration.md")
    for one in of(dossier).rule_sets:
        points = [*one.unsettled, *(p for row in (*one.conforms, *one.not_declared) for p in row.unsettled)]
        assert [text for text in (one.scope, *points) if plain(text) not in shown] == []


def test_what_takes_an_aircraft_out_of_a_law_holds_and_is_counted_apart() -> None:
    shown = text_of("quillet-e1", "0003", "declaration.md")
    assert "meets the requirements listed here as met (6) and keeps the conditions of scope" in shown
    assert "Declared: conditions of scope that hold" in shown
    assert "the aircraft lies inside the description of Annex I, point (e), where national law" in shown


def test_what_was_changed_after_the_weighing_is_named_on_cover_and_declaration() -> None:
    changes = since_weighing(made("quillet-e1", "0005"))
    assert changes.out == ("Tail skid (2026-04-18)",)
    assert len(changes.into) == 3
    for page in ("index.md", "declaration.md"):
        assert plain(changes.words) in text_of("quillet-e1", "0005", page)


def test_a_part_of_every_aircraft_that_was_taken_out_is_no_optional_item() -> None:
    facts = dict(declaration._object(made("quillet-e1", "0005"), of(made("quillet-e1", "0005"))))
    assert facts["Optional items left out"] == "none"
    assert facts["Items of the type’s list taken out"] == "Tail skid"


def test_a_battery_that_is_put_back_is_no_change() -> None:
    assert since_weighing(made("quillet-e1", "0003")).words == ""
    assert "Carried on" not in text_of("quillet-e1", "0003", "index.md")


def test_beside_a_measured_speed_stands_its_test_and_that_nobody_compared_it() -> None:
    shown = text_of("quillet-e1", "0003", "conformity.md")
    assert (
        "Flight test of 2025-05-06: Motor off and folded, airbrakes closed, mean of four stalls, "
        "at 497.0 lb (225.4 kg), scaled to 500.0 lb (226.8 kg)." in shown
    )
    assert measured_by.NOT_COMPARED in shown


def test_a_speed_that_was_flown_at_the_mass_itself_is_not_called_scaled() -> None:
    # a sentence of one test that was flown at the maximum take-off mass
    shown = text_of("barrow-t2", "T2-007", "conformity.md")
    masses = re.findall(r"at (\d+\.\d kg \([^)]*\)), scaled to (\d+\.\d kg \([^)]*\))", shown)
    assert [pair for pair in masses if pair[0] == pair[1]] == []
    assert "at 275.0 kg" in shown


def test_what_is_only_recalled_of_a_method_is_told_as_such() -> None:
    shown = text_of("quillet-e1", "0003", "conformity.md")
    assert "the estimate that AC 103-7 is said to offer for this speed" in shown


def test_a_text_that_was_checked_after_the_state_says_so() -> None:
    assert "2026-11-25, after this state of 2026-05-09" in text_of("quillet-e1", "0003", "conformity.md")


def test_a_reprint_that_was_read_is_not_called_unread() -> None:
    shown = text_of("quillet-e1", "0003", "conformity.md")
    assert "read in a reprint, or as a third party quotes it" in shown
    assert "(not read;" not in shown


def test_no_dossier_calls_itself_the_evidence_that_an_authority_asks_for() -> None:
    shown = text_of("quillet-e1", "0003", "conformity.md")
    assert "this dossier is what the builder offers as evidence, and whether it satisfies is the" in shown


def test_a_claim_of_every_option_is_held_against_an_aircraft_with_every_option() -> None:
    # 144.50 kg with the standard battery; of the type's list a parachute of 8.8 kg, a fairing of 3.2 kg
    claim = next(one for one in made("barrow-t2", "T2-007").claims if one.claim == "empty-mass")
    assert claim.value == pytest.approx(156.5, abs=0.05)
    shown = text_of("barrow-t2", "T2-007", "claims.md")
    assert "with the mass of the type's list: Airframe parachute with rocket and bridle, Nose fair" in shown
