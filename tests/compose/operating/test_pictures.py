"""The picture of a step: beside its words on the page of the list, small in print, not on the card."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from demos import demo

from dossier.compose.operating.cards import page as card
from dossier.compose.operating.list_text import list_text
from dossier.compose.operating.lists import List, lists
from dossier.compose.operating.procedure_pages import page
from dossier.compose.pages import packet
from dossier.compose.pictures import assets
from dossier.dossier import Dossier

IMAGE = re.compile(r'<img src="(?P<src>[^"]+)" alt="(?P<alt>[^"]+)" width="\d+" height="\d+" loading="lazy"')


@pytest.fixture
def serial() -> Dossier:
    return demo("quillet-e1")["0003"]


def rigging(dossier: Dossier, name: str = "rigging-1-wings") -> List:
    return next(one for one in lists(dossier) if one.name == name)


shown = pytest.mark.parametrize("name", ["rigging-1-wings", "rigging-2-tail"])


def test_a_picture_stands_in_its_step_with_words_for_it(serial: Dossier) -> None:
    text = page(serial, rigging(serial)).text
    start = text.index("Look at the left main pin from above")
    step = text[start : text.index('<li class="step-group"', start)]
    found = IMAGE.search(step)
    assert found is not None
    assert found["alt"].startswith("The line on the pin head meets the line on the fitting")
    assert found.start() < step.index("step__tick")


@shown
def test_every_picture_of_a_page_is_in_the_packet_once(serial: Dossier, name: str) -> None:
    sources = set(IMAGE.findall(page(serial, rigging(serial, name)).text))
    assert sources
    paths = [asset.path for asset in packet(serial).assets]
    assert {source for source, _ in sources} <= set(paths)
    assert len(paths) == len(set(paths))


def test_the_bytes_in_the_packet_are_those_of_the_project(serial: Dossier) -> None:
    for asset in assets(serial):
        digest = asset.path.rsplit("-", 1)[1].split(".")[0]
        file = next(one for one in serial.project.pictures.values() if one.sha256.startswith(digest))
        assert asset.content == file.located.read_bytes()


def test_a_picture_of_a_step_that_the_serial_does_not_have_is_left_out(serial: Dossier) -> None:
    procedures = dict(serial.project.procedures)
    wings = procedures["rigging-1-wings"]
    first = wings.sections[0]
    shown = next(step.picture for section in wings.sections for step in section.steps if step.picture)
    only = first.steps[0].model_copy(update={"picture": shown, "option": "parachute"})
    bare = wings.model_copy(update={"sections": [first.model_copy(update={"steps": [only]})]})
    project = replace(serial.project, procedures={"rigging-1-wings": bare}, assembly=None)
    record = replace(serial.assembly, stages=())
    with_it = replace(serial, project=project, assembly=record)
    without = replace(with_it, state=replace(serial.state, left_out=frozenset({"parachute"})))
    assert (len(assets(with_it)), len(assets(without))) == (1, 0)


@shown
def test_the_page_tells_the_digest_of_each_picture(serial: Dossier, name: str) -> None:
    one = rigging(serial, name)
    text = page(serial, one).text
    files = {str(step.step.picture.file) for step in one.steps if step.step.picture}
    assert files
    assert all(text.count(serial.project.pictures[path].sha256) == 1 for path in files)


@shown
def test_the_card_shows_no_picture(serial: Dossier, name: str) -> None:
    assert "<img" not in card(serial, rigging(serial, name)).text


@shown
def test_another_picture_is_another_edition_of_the_list(serial: Dossier, name: str) -> None:
    before = list_text(serial, rigging(serial, name)).digest
    pictures = {
        path: replace(file, sha256=file.sha256[::-1]) for path, file in serial.project.pictures.items()
    }
    changed = replace(serial, project=replace(serial.project, pictures=pictures))
    assert list_text(changed, rigging(changed, name)).digest != before


def test_a_list_without_pictures_keeps_its_digest_when_pictures_change(serial: Dossier) -> None:
    charging = next(one for one in lists(serial) if one.name == "charging")
    bare = replace(serial, project=replace(serial.project, pictures={}))
    assert list_text(bare, charging).digest == list_text(serial, charging).digest


def test_what_a_picture_shows_stays_text(serial: Dossier) -> None:
    one = rigging(serial)
    at, section = next(
        (at, section)
        for at, section in enumerate(one.sections)
        if any(step.step.picture for step in section.steps)
    )
    shown = next(step.step.picture for step in section.steps if step.step.picture)
    picture = shown.model_copy(update={"shows": "<b>bold</b> {{ 7 * 7 }}"})
    steps = tuple(
        replace(step, step=step.step.model_copy(update={"picture": picture})) for step in section.steps
    )
    changed = replace(section, steps=steps)
    text = page(serial, replace(one, sections=(*one.sections[:at], changed, *one.sections[at + 1 :]))).text
    assert "<b>bold" not in text
    assert "&lt;b&gt;bold&lt;/b&gt; {{ 7 * 7 }}" in text
