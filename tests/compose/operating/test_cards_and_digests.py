"""Print cards, and the digest that binds ticks to the words of a list."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, replace

import pytest
from demonstration import SERIALS, demonstration, quillet, with_limit, without
from page_reading import plain, read

from dossier.compose.operating import cards, pages
from dossier.compose.operating.list_text import list_text
from dossier.compose.operating.lists import lists
from dossier.dossier import Dossier

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


@everyone
def test_a_card_says_every_action_state_and_second_check_in_order(serial):
    dossier = demonstration(*serial)
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        steps = [step for section in list_text(dossier, one).sections for step in section.steps]
        said = read(card).text
        at = 0
        for words in (words for step in steps for words in (step.do, step.expect, step.second_check)):
            at = said.index(plain(words), at)


@everyone
def test_a_card_has_signal_word_and_hazard_before_each_step_that_has_one(serial):
    dossier = demonstration(*serial)
    for one, card in zip(lists(dossier), cards(dossier), strict=True):
        shown = [hazard.text for hazard in read(card).all(".card__hazard")]
        said = list_text(dossier, one)
        steps = [step for section in said.sections for step in section.steps]
        boxes = [*said.boxes, *(box for step in steps for box in step.boxes)]
        assert shown == [f"{box.word}. {plain(box.hazard)}" for box in boxes]


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


def test_the_digest_is_the_sha_256_of_all_words_in_canonical_json():
    (one,) = [one for one in lists(quillet()) if one.name == "charging"]
    said = list_text(quillet(), one)
    text = json.dumps(asdict(said), sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    assert said.digest == hashlib.sha256(text.encode("utf-8")).hexdigest()


def test_the_page_carries_the_digest():
    (page,) = [page for page in pages(quillet()) if page.path == "rigging.md"]
    assert read(page).one(".desk").attributes["data-digest"] == digest(quillet(), "rigging")


def test_another_day_of_the_same_configuration_has_the_same_digest():
    later = replace(quillet(), state=replace(quillet().state, as_of=quillet().state.as_of.replace(year=2031)))
    assert digest(later, "rigging") == digest(quillet(), "rigging")


def test_equipment_a_limit_and_a_caution_change_the_digest():
    dossier = quillet()
    project = dossier.project
    name = str(project.procedures["rigging"].hazards[0])
    hazard = project.hazards.hazards[name].model_copy(update={"avoidance": "Look twice."})
    hazards = project.hazards.model_copy(update={"hazards": {**project.hazards.hazards, name: hazard}})
    changed = [
        without(dossier, "parachute"),
        with_limit(dossier, "maximum_rigging_wind", "11 kt", "speed"),
        replace(dossier, project=replace(project, hazards=hazards)),
    ]
    assert len({digest(one, "rigging") for one in [dossier, *changed]}) == 4
