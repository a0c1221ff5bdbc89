"""The aircraft from above on the preflight page, with its numbered places."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from demonstration import SERIALS, demonstration, quillet, with_type
from page_reading import Element, read

from dossier.compose.operating import procedure_pages
from dossier.compose.operating.lists import List, lists
from dossier.compose.operating.plan_view import WIDTH, Plan, plan
from dossier.dossier import Dossier

both = pytest.mark.parametrize(("project", "serial"), SERIALS)


def preflight(dossier: Dossier) -> List:
    return next(
        one for one in lists(dossier) if one.procedure.kind == "preflight" and "preflight" in one.name
    )


def drawn(dossier: Dossier) -> Plan:
    made = plan(dossier, preflight(dossier))
    assert made is not None
    return made


def points(path: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path)]


@both
def test_every_number_is_that_of_its_section(project: str, serial: str) -> None:
    dossier = demonstration(project, serial)
    sections = preflight(dossier).sections
    assert [place.number for place in drawn(dossier).places] == [
        number for number, section in enumerate(sections, start=1) if section.station
    ]


@both
def test_the_list_beside_the_drawing_names_every_section(project: str, serial: str) -> None:
    dossier = demonstration(project, serial)
    assert [one.title for one in drawn(dossier).sections] == [
        str(one.title) for one in preflight(dossier).sections
    ]


@both
def test_the_list_leads_to_sections_that_are_there(project: str, serial: str) -> None:
    dossier = demonstration(project, serial)
    page: Element = read(procedure_pages.page(dossier, preflight(dossier)))
    ids = {element.attributes.get("id") for element in page.walk()}
    wanted = {
        link.attributes["href"].removeprefix("#")
        for link in page.one(".plan-view__list").all("a")
        if link.attributes["href"]
    }
    assert wanted <= ids


@both
def test_both_halves_of_the_wing_are_the_same(project: str, serial: str) -> None:
    wing = next(shape for shape in drawn(demonstration(project, serial)).shapes if shape.kind == "wing")
    corners = points(wing.path)
    assert sorted(corners) == sorted((round(WIDTH - x, 1), y) for x, y in corners)


@both
def test_everything_is_inside_the_drawing(project: str, serial: str) -> None:
    made = drawn(demonstration(project, serial))
    found = [point for shape in made.shapes if shape.kind != "wheel" for point in points(shape.path)]
    found += [(float(place.x), float(place.y)) for place in made.places]
    assert all(0 <= x <= WIDTH and 0 <= y <= float(made.height) for x, y in found)


@both
def test_no_two_numbers_cover_each_other(project: str, serial: str) -> None:
    places = [(float(place.x), float(place.y)) for place in drawn(demonstration(project, serial)).places]
    apart = [abs(a[0] - b[0]) + abs(a[1] - b[1]) for index, a in enumerate(places) for b in places[:index]]
    assert min(apart) >= 26  # two circles of radius 13


def test_right_is_right_and_the_nose_is_at_the_top() -> None:
    made = drawn(quillet())
    at = {one.title: place for one in made.sections for place in made.places if place.number == one.number}
    assert float(at["Nose and left wing"].x) < WIDTH / 2 < float(at["Propeller and right wing"].x)
    assert float(at["Cockpit"].y) < float(at["Tail"].y)


def test_an_aircraft_without_outline_has_no_drawing() -> None:
    dossier = with_type(quillet(), plan_view=None)
    assert plan(dossier, preflight(dossier)) is None


def test_a_list_that_names_no_place_has_no_drawing() -> None:
    one = preflight(quillet())
    nowhere = replace(one, sections=tuple(replace(section, station=None) for section in one.sections))
    assert plan(quillet(), nowhere) is None


def test_a_hostile_title_stays_text() -> None:
    one = preflight(quillet())
    sections = (replace(one.sections[0], title="</a><script>alert(1)</script>"), *one.sections[1:])
    page = read(procedure_pages.page(quillet(), replace(one, sections=sections)))
    assert page.all("script") == []
    assert "</a><script>alert(1)</script>" in page.one(".plan-view__list").text
