"""Weight and balance: the readings, the loadings and the limits, also for a type without an envelope."""

from __future__ import annotations

from datetime import date

import pytest
from packet_reading import PROJECTS, SERIALS, composed, html, made, page_of, read, text_of

from dossier import pipeline
from dossier.compose import balance

everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])
PATH = "weight-and-balance.md"


@everyone
def test_every_reading_stands_as_it_was_taken(project: str, number: str) -> None:
    weighing = made(project, number).weighing
    assert weighing is not None
    text = text_of(project, number, PATH)
    assert [row.name for row in weighing.rows if ", ".join(row.readings) not in text] == []


@everyone
def test_every_scale_stands_with_its_certificate(project: str, number: str) -> None:
    weighing = made(project, number).weighing
    assert weighing is not None
    text = text_of(project, number, PATH)
    wanted = [
        f"{scale.serial_number} {scale.certificate}, {scale.calibrated.isoformat()}"
        for scale in weighing.event.scales.values()
    ]
    assert [words for words in wanted if words not in text] == []


@everyone
def test_every_loading_has_a_line(project: str, number: str) -> None:
    loads = made(project, number).loadings
    assert loads is not None
    page = html(page_of(composed(project, number), PATH))
    tables = page.split("<caption>Loadings with the ")[1:]
    lines = sum(table.partition("</table>")[0].count('<tr><th scope="row"') for table in tables)
    assert lines == len(loads.rows)


@everyone
def test_a_loading_outside_the_limits_is_called_outside(project: str, number: str) -> None:
    loads = made(project, number).loadings
    assert loads is not None
    page = html(page_of(composed(project, number), PATH))
    tables = "".join(
        table.partition("</table>")[0] for table in page.split("<caption>Loadings with the ")[1:]
    )
    assert tables.count('verdict--fails">Outside') == sum(not row.inside for row in loads.rows)


def test_a_loading_over_the_weight_limit_has_no_margin_of_arm() -> None:
    assert "over weight over weight Outside" in text_of("quillet-e1", "0004", PATH)


def test_an_envelope_is_drawn() -> None:
    assert "Loaded centre of gravity inside its limits" in text_of("quillet-e1", "0003", PATH)


def test_a_type_without_limits_of_the_centre_of_gravity_says_so_and_draws_none() -> None:
    text = text_of("barrow-t2", "T2-007", PATH)
    assert "No limits of the centre of gravity are laid down for this type" in text
    assert "<svg" not in html(page_of(composed("barrow-t2", "T2-007"), PATH))


def test_a_superseded_weighing_stays_in_the_list() -> None:
    text = text_of("quillet-e1", "0002", PATH)
    assert "superseded on 2026-06-06" in text
    assert "235.1 lb, 235.2 lb, 235.0 lb" in text


def test_what_was_designed_stands_beside_what_was_weighed() -> None:
    # by hand, in the project's aircraft.yaml: 200.0 lb without and 222.0 lb with the parachute
    assert "Sum of the type's list for this aircraft 222.0 lb (100.7 kg)" in text_of(
        "quillet-e1", "0004", PATH
    )


def test_without_a_weighing_the_page_says_what_is_missing() -> None:
    dossier = pipeline.run(PROJECTS / "quillet-e1", "0002", date(2025, 3, 22))
    text = read(balance.pages(dossier)[0]).text
    assert "Weighing: not done. Nothing that needs the mass of the aircraft can be shown." in text
