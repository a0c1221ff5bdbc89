"""The gauge card as it stands on its page."""

from __future__ import annotations

from dataclasses import replace

from demos import PROJECTS, demo

from dossier.compose.gauge_card import pages
from dossier.pipeline import run
from dossier.results_file import as_json


def card(project: str, serial: str) -> str:
    (page,) = pages(demo(project)[serial])
    return page.text


def test_each_battery_with_an_answer_has_its_card() -> None:
    dossier = demo("quillet-e1")["0002"]
    assert card("quillet-e1", "0002").count('class="gauge-card"') == len(dossier.modelled.gauges) == 2


def test_minutes_are_rounded_down() -> None:
    full = demo("quillet-e1")["0002"].modelled.gauges[0].lines[0]
    text = card("quillet-e1", "0002")
    assert f"<td>{int(full.time_to_reserve // 60)}</td><td>{int(full.time_left // 60)}</td>" in text


def test_a_card_that_a_heavier_pilot_must_not_use_says_so() -> None:
    dossier = demo("quillet-e1")["0002"]
    assert "Not for a heavier pilot" not in card("quillet-e1", "0002")
    lighter = tuple(replace(one, pilot=one.pilot - 10) for one in dossier.modelled.gauges)
    (page,) = pages(replace(dossier, modelled=replace(dossier.modelled, gauges=lighter)))
    assert page.text.count("Not for a heavier pilot") == len(lighter)


def test_card_and_figures_are_the_same_when_they_are_made_again() -> None:
    first, second = (run(PROJECTS / "barrow-t2", "T2-009") for _ in range(2))
    assert [page.text for page in pages(first)] == [page.text for page in pages(second)]
    assert as_json(first) == as_json(second)
