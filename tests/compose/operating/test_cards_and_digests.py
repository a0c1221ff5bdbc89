"""Print cards, and the digest that binds ticks to the words of a list."""

from __future__ import annotations

import hashlib
import json
import re
from dataclasses import asdict, replace

import pytest
from demonstration import SERIALS, demonstration, quillet, with_limit, without
from page_reading import plain, read

from dossier.compose.edition import edition_words
from dossier.compose.limit_text import LimitText
from dossier.compose.operating import cards, pages
from dossier.compose.operating.cards import findings, layout
from dossier.compose.operating.list_text import list_text
from dossier.compose.operating.lists import List, lists
from dossier.dossier import Dossier
from dossier.findings import Severity

everyone = pytest.mark.parametrize("serial", SERIALS)


def digest(dossier: Dossier, name: str) -> str:
    (one,) = [one for one in lists(dossier) if one.name == name]
    return list_text(dossier, one).digest


@everyone
def test_every_list_has_a_card_that_only_its_page_leads_to(serial):
    dossier = demonstration(*serial)
    made = cards(dossier)
    assert [card.path for card in made] == [f"cards/{one.path}" for one in lists(dossier)]
    assert not any(card.in_contents for card in made)
    texts = {page.path: page.text for page in pages(dossier)}
    assert all(f'href="cards/{one.path}"' in texts[one.path] for one in lists(dossier))


def words_for_card(dossier: Dossier, one: List, name: str) -> list[str]:
    """What a card in short words says of each step: those given for it, else the whole ones."""
    fill = LimitText.of(dossier).fill
    told = [getattr(n.step.on_card, name, None) or getattr(n.step, name) or "" for n in one.steps]
    return [plain(fill(text)) for text in told]


@everyone
def test_a_card_says_every_action_state_and_second_check_in_order(serial):
    dossier = demonstration(*serial)
    short = 0
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        steps = [step for section in list_text(dossier, one).sections for step in section.steps]
        whole = [(plain(step.do), plain(step.expect), plain(step.second_check)) for step in steps]
        few = list(
            zip(
                *(words_for_card(dossier, one, name) for name in ("do", "expect", "second_check")),
                strict=True,
            )
        )
        is_short = layout(dossier, one).short
        short += is_short
        said, at = read(card).text, 0
        for words in (words for step in (few if is_short else whole) for words in step):
            at = said.index(words, at)
    assert short


@everyone
def test_a_card_marks_every_critical_step_in_words_and_gives_every_torque(serial):
    dossier = demonstration(*serial)
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        steps = [step for section in list_text(dossier, one).sections for step in section.steps]
        shown = [
            row.one("div").text
            for row in read(card).all(".card__step--step")
            if row.one(".card__number").text
        ]
        assert [text.startswith("Critical. ") for text in shown] == [step.critical for step in steps]
        for text, step in zip(shown, steps, strict=True):
            assert not step.torque or f"Torque: {plain(step.torque)}." in text


@everyone
def test_a_card_in_whole_words_says_what_to_do_if_a_step_fails_and_a_short_one_says_to_stop(serial):
    dossier = demonstration(*serial)
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        said, is_short = read(card).text, layout(dossier, one).short
        sections = list_text(dossier, one).sections
        of_sections = [f"If not: {plain(section.if_not)}" for section in sections if section.if_not]
        assert all(words in said for words in of_sections)
        of_steps = [
            f"If not: {plain(step.if_not)}" for section in sections for step in section.steps if step.if_not
        ]
        own = [words for words in of_steps if not any(other.startswith(words) for other in of_sections)]
        assert [words in said for words in own] == [not is_short] * len(own)
        assert ("if a step is not as it says, stop and read it in the whole list" in said) == is_short


@everyone
def test_a_card_has_signal_word_and_avoidance_before_each_step_that_has_a_hazard(serial):
    dossier = demonstration(*serial)
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        said, seen = list_text(dossier, one), set()
        steps = [step for section in said.sections for step in section.steps]
        shown = [hazard.text for hazard in read(card).all(".card__hazard")]
        boxes = [*said.boxes, *(box for step in steps for box in step.boxes)]
        assert len(shown) == len(boxes)
        for text, box in zip(shown, boxes, strict=True):
            assert text.startswith(f"{box.word}. ")
            assert text.endswith(plain(box.avoidance))
            is_told = one.is_emergency or (layout(dossier, one).short and box.name in seen)
            assert (plain(box.hazard) in text) is not is_told
            seen.add(box.name)


@everyone
def test_every_side_of_a_card_has_title_serial_edition_and_its_number(serial):
    dossier = demonstration(*serial)
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        made = read(card)
        for sheet in made.all(".card__sheet"):
            sides = [side for side in sheet.all(".card__side") if side.all(".card__block")]
            for number, side in enumerate(sides, start=1):
                head = side.one(".card__head").text
                assert plain(one.procedure.title) in head
                assert f"serial {serial[1]}, {edition_words(dossier)}, as of " in head
                assert f"ide {number} of {len(sides)}" in head


@everyone
def test_each_list_that_needs_a_second_sheet_is_told_to_the_builder_with_how_much_it_is_too_long(serial):
    dossier = demonstration(*serial)
    wanted = [one.name for one in lists(dossier) if len(layout(dossier, one).sheets) > 1]
    told = findings([dossier])
    assert [finding.message.split("'")[1] for finding in told] == sorted(wanted)
    assert all(
        finding.code == "T020" and finding.severity is Severity.NOTE and finding.place for finding in told
    )
    assert all(int(re.findall(r"(\d+) lines", finding.message)[0]) > 0 for finding in told)


@everyone
def test_a_card_of_an_emergency_has_no_box_and_no_signature_and_its_page_no_ticks(serial):
    dossier = demonstration(*serial)
    emergencies = [one for one in lists(dossier) if one.is_emergency]
    assert emergencies
    made = {card.path: read(card) for card in cards(dossier)}
    by_path = {page.path: read(page) for page in pages(dossier)}
    for one in emergencies:
        card = made[f"cards/{one.path}"]
        assert card.all(".card__box") + card.all(".card__signature") == []
        assert by_path[one.path].all(".desk") == []


def without_nothing(told: object) -> object:
    if isinstance(told, dict):
        return {name: without_nothing(value) for name, value in told.items() if value is not None}
    return [without_nothing(value) for value in told] if isinstance(told, list | tuple) else told


def test_the_digest_is_the_sha_256_of_all_words_in_canonical_json():
    (one,) = [one for one in lists(quillet()) if one.name == "charging"]
    said = list_text(quillet(), one)
    text = json.dumps(
        without_nothing(asdict(said)), sort_keys=True, ensure_ascii=False, separators=(",", ":")
    )
    assert said.digest == hashlib.sha256(text.encode("utf-8")).hexdigest()


rigging = pytest.mark.parametrize("name", ["rigging-1-wings", "rigging-2-tail", "rigging-3-battery"])


@rigging
def test_the_page_carries_the_digest(name):
    (page,) = [page for page in pages(quillet()) if page.path == f"{name}.md"]
    assert read(page).one(".desk").attributes["data-digest"] == digest(quillet(), name)


@rigging
def test_another_day_of_the_same_configuration_has_the_same_digest(name):
    later = replace(quillet(), state=replace(quillet().state, as_of=quillet().state.as_of.replace(year=2031)))
    assert digest(later, name) == digest(quillet(), name)


def test_equipment_a_limit_and_a_caution_change_the_digest():
    dossier = quillet()
    project = dossier.project
    name = str(project.procedures["rigging-1-wings"].hazards[0])
    hazard = project.hazards.hazards[name].model_copy(update={"avoidance": "Look twice."})
    hazards = project.hazards.model_copy(update={"hazards": {**project.hazards.hazards, name: hazard}})
    changed = [
        without(dossier, "parachute"),
        with_limit(dossier, "maximum_rigging_wind", "11 kt", "speed"),
        replace(dossier, project=replace(project, hazards=hazards)),
    ]
    assert len({digest(one, "rigging-1-wings") for one in [dossier, *changed]}) == 4


@everyone
def test_a_card_says_behind_which_sections_the_crew_may_stop_and_in_whole_words_how_it_leaves_it(serial):
    dossier = demonstration(*serial)
    stops = 0
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        wanted = [section for section in list_text(dossier, one).sections if section.stop is not None]
        shown = [
            note.text for note in read(card).all(".card__note") if note.text.startswith("You may stop here")
        ]
        short = layout(dossier, one).short
        assert shown == [
            f"You may stop here: {plain(section.stop)}"
            if section.stop and not short
            else "You may stop here."
            for section in wanted
        ]
        stops += len(shown)
    assert stops
