"""Cards on paper: printed by a real browser, measured in it, and read by poppler."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from demos import demo
from field_list import PAGE, write_project
from measures import number_of_pages, overflow, paper_size, printed_sides

from dossier.compose.operating.cards import layout
from dossier.compose.operating.lists import lists
from dossier.compose.pages import packet
from dossier.dossier import Dossier
from dossier.pipeline import run
from dossier.web.build import build_site

pytestmark = pytest.mark.browser

# ISO 216: A4 on its side is 297 mm by 210 mm, 841.9 by 595.3 points; letter on its side is 11 in by 8.5 in
PAPERS = {"a4": (841.9, 595.3), "letter": (792.0, 612.0)}
STEPS = 40
STEP = """      - do: Look at joint {number} from above and say what you see, aloud, to the person who reads.
        expect: Joint {number} has no gap and its pin is home in both ears.
        hazards: [joint-not-locked]
        second_check: The second person pulls at joint {number}.
        if_not: Take joint {number} apart.
        critical: true
"""


def write_long_list(folder: Path, paper: str) -> Path:
    write_project(folder, "".join(STEP.format(number=number) for number in range(101, 101 + STEPS)))
    aircraft = folder / "aircraft.yaml"
    aircraft.write_text(
        aircraft.read_text(encoding="utf-8").replace("paper: a4 ", f"paper: {paper} "), encoding="utf-8"
    )
    return folder


@pytest.fixture(scope="module", params=list(PAPERS))
def card(request, tmp_path_factory):
    """The file of a card that goes on several sheets, and the size of its paper in points."""
    folder = tmp_path_factory.mktemp("cards")
    build_site(
        packet(run(write_long_list(folder / "project", request.param), "0001")), folder / "site", epoch=0
    )
    return folder / "site/cards" / PAGE, PAPERS[request.param]


def on_paper(dossier: Dossier, paper: str) -> Dossier:
    aircraft = dossier.project.aircraft
    shown = aircraft.model_copy(
        update={"presentation": aircraft.presentation.model_copy(update={"paper": paper})}
    )
    return replace(dossier, project=replace(dossier.project, aircraft=shown))


DEMONSTRATIONS = [("quillet-e1", "0003", paper) for paper in PAPERS] + [("barrow-t2", "T2-009", "letter")]


@pytest.fixture(scope="module", params=DEMONSTRATIONS, ids="-".join)
def demonstration(request, tmp_path_factory) -> tuple[Dossier, Path, str]:
    """A demonstration serial on its own paper or on the other: its dossier, its site, the paper."""
    project, number, paper = request.param
    shown, site = on_paper(demo(project)[number], paper), tmp_path_factory.mktemp("demonstration") / "site"
    build_site(packet(shown), site, epoch=0)
    return shown, site, paper


def test_each_demonstration_list_is_printed_on_the_sheets_that_were_reckoned_and_each_side_holds_its_words(
    demonstration, reader, tmp_path
):
    dossier, site, paper = demonstration
    page = reader.open(site / "index.html")
    page.emulate_media(media="print")
    for one in lists(dossier):
        laid = layout(dossier, one)
        page.goto((site / "cards" / one.path.replace(".md", ".html")).as_uri())
        page.pdf(path=tmp_path / "card.pdf", prefer_css_page_size=True)
        assert paper_size(tmp_path / "card.pdf") == pytest.approx(PAPERS[paper], abs=1.5)
        assert number_of_pages(tmp_path / "card.pdf") == sum(
            math.ceil(len(sheet) / 2) for sheet in laid.sheets
        ), one.name
        assert [free for free in room_left(page) if free < 0] == [], one.name


def room_left(page: Any) -> list[float]:
    """Points that each side has left below its last word, and the letters' own width beside it."""
    return page.eval_on_selector_all(
        ".card__side",
        "sides => sides.map(side => {"
        "const body = side.querySelector('.card__body'), blocks = [...body.children];"
        "const used = blocks.reduce((sum, block) => sum + block.getBoundingClientRect().height, 0);"
        "const wide = [...body.querySelectorAll('p')].some(one => one.scrollWidth > one.clientWidth + 1);"
        "return wide ? -1 : 0.75 * (body.getBoundingClientRect().height - used)})",
    )


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("project", ["quillet-e1", "barrow-t2"])
def test_every_list_of_every_demonstration_serial_fits_one_sheet_of_either_paper(project, paper):
    too_long = {
        (number, one.name)
        for number, dossier in demo(project).items()
        for one in lists(dossier)
        if len(layout(on_paper(dossier, paper), one).sheets) > 1
    }
    assert too_long == set()


def test_a_long_card_has_whole_steps_on_numbered_sides_of_numbered_sheets(card, reader, tmp_path):
    page = reader.open(card[0])
    printed_sides(page, tmp_path / "card.pdf")
    assert paper_size(tmp_path / "card.pdf") == pytest.approx(card[1], abs=1.5)
    sides = [
        " ".join(text.split()) for text in page.locator(".card__side:has(.card__block)").all_inner_texts()
    ]
    sheets = page.locator(".card__sheet").count()
    assert sheets > 1
    for side in sides:
        assert side.startswith("Field list Sheet ")
        assert "serial 0001, Draft" in side
    assert sum("Sheet 1 of" in side for side in sides) == 4
    for number in range(101, 101 + STEPS):
        (together,) = [side for side in sides if f"Critical. Look at joint {number} from" in side]
        before, after = together.split(f"Critical. Look at joint {number} from")
        assert "Danger." in before
        assert f"Joint {number} has no gap" in after
        assert f"econd check: The second person pulls at joint {number}." in after
    assert ["Person in charge" in side for side in sides] == [False] * (len(sides) - 1) + [True]
    assert "Person in charge Date, time Second person Date, time" in sides[-1]
    assert sides[-1].endswith("End of the card")


def test_sides_lie_so_that_a_folded_sheet_reads_in_order(card, reader):
    """Folded once, the outside shows side 4 left of side 1, and the inside sides 2 and 3."""
    page = reader.open(card[0])
    page.emulate_media(media="print")
    places = page.eval_on_selector_all(
        ".card__sheet:first-child .card__side",
        "sides => sides.map(getComputedStyle).map(style => [style.gridRowStart, style.gridColumnStart])",
    )
    assert places == [["1", "2"], ["2", "1"], ["2", "2"], ["1", "1"]]


def test_an_emergency_shows_all_its_sides_at_one_glance(demonstration, reader):
    dossier, site, _ = demonstration
    page = reader.open(site / "index.html")
    page.emulate_media(media="print")
    for one in (
        one for one in lists(dossier) if one.is_emergency and len(layout(dossier, one).sheets[0]) <= 2
    ):
        page.goto((site / "cards" / one.path.replace(".md", ".html")).as_uri())
        corners = page.eval_on_selector_all(
            ".card__side",
            "sides => sides.map(side => side.getBoundingClientRect()).map(box => [box.top, box.left])",
        )
        assert len({top for top, _ in corners}) == 1, one.name
        assert corners == sorted(corners)


def test_the_page_of_an_emergency_shows_its_first_step_on_the_first_screen_of_a_phone(demonstration, reader):
    dossier, site, _ = demonstration
    page = reader.open(site / "index.html", size="phone")
    for one in (one for one in lists(dossier) if one.is_emergency):
        page.goto((site / one.path.replace(".md", ".html")).as_uri())
        first = page.locator("#step-1 .step__do").bounding_box()
        assert first["y"] + first["height"] <= 844, one.name
        assert page.locator(".progress, .desk, input.step__tick").count() == 0


def test_nothing_on_a_card_is_set_in_less_than_10_points_in_italics_or_in_capitals(card, reader):
    page = reader.open(card[0])
    page.emulate_media(media="print")
    styles = page.eval_on_selector_all(
        ".card *",
        "all => all.filter(one => one.innerText).map(getComputedStyle)"
        ".map(style => [parseFloat(style.fontSize), style.fontStyle, style.textTransform])",
    )
    assert min(size for size, _, _ in styles) * 0.75 == pytest.approx(10, abs=0.01)  # CSS: 1 px is 1/96 in
    assert {(style, case) for _, style, case in styles} == {("normal", "none")}


def test_a_card_keeps_wcag_2_2_aa_fits_a_phone_and_stands_apart_from_the_contents(card, reader, violations):
    page = reader.open(card[0], size="phone")
    assert violations(page) == []
    assert overflow(page) <= 0
    assert page.locator(".contents a[href*='cards/']").count() == 0
    page.get_by_role("link", name="read the whole list").click()
    page.get_by_role("link", name="Print card").click()
    assert page.url.endswith(f"cards/{PAGE}")
