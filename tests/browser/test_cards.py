"""Cards on paper: a long list of the starter, printed by a real browser and read by poppler."""

from __future__ import annotations

from pathlib import Path

import pytest
from field_list import PAGE, write_project
from measures import overflow, paper_size, printed_sides

from dossier.compose.pages import packet
from dossier.pipeline import run
from dossier.web.build import build_site

pytestmark = pytest.mark.browser

STEPS = 40
STEP = """      - do: Look at joint {number} from above and say what you see, aloud, to the person who reads.
        expect: Joint {number} has no gap and its pin is home in both ears.
        hazards: [joint-not-locked]
        second_check: The second person pulls at joint {number}.
        critical: true
"""


def project(folder: Path, paper: str) -> Path:
    write_project(folder, "".join(STEP.format(number=number) for number in range(101, 101 + STEPS)))
    aircraft = folder / "aircraft.yaml"
    aircraft.write_text(
        aircraft.read_text(encoding="utf-8").replace("paper: a4 ", f"paper: {paper} "), encoding="utf-8"
    )
    return folder


# ISO 216: A5 is 148 mm by 210 mm, 419.5 by 595.3 points;
# half of a letter sheet is 5.5 in by 8.5 in: 396 by 612
@pytest.fixture(
    scope="module", params=[("a4", (419.5, 595.3)), ("letter", (396.0, 612.0))], ids=["a5", "half-letter"]
)
def card(request, tmp_path_factory):
    """The file of the card's page, and the size of its paper in points."""
    paper, size = request.param
    folder = tmp_path_factory.mktemp("cards")
    build_site(packet(run(project(folder / "project", paper), "0001")), folder / "site", epoch=0)
    return folder / "site/cards" / PAGE, size


def test_a_card_is_printed_on_its_own_paper_with_whole_steps_on_numbered_sides(card, reader, tmp_path):
    page, size = card
    sides = printed_sides(reader.open(page), tmp_path / "card.pdf")
    assert paper_size(tmp_path / "card.pdf") == pytest.approx(size, abs=1.5)
    assert len(sides) > 8
    plain = [" ".join(side.split()) for side in sides]
    for number, side in enumerate(plain, start=1):
        assert "Field list" in side
        assert "serial 0001, Draft" in side
        assert f"Side {number} of {len(sides)}" in side
    for number in range(101, 101 + STEPS):
        together = [side for side in plain if f"Critical. Look at joint {number} from" in side]
        assert len(together) == 1
        before, after = together[0].split(f"Critical. Look at joint {number} from")
        assert "Danger." in before
        assert f"Joint {number} has no gap" in after
        assert f"Second check, by another person: The second person pulls at joint {number}." in after
    assert ["Person in charge" in side for side in plain] == [False] * (len(sides) - 1) + [True]
    assert "Second person Date, time" in plain[-1]


def test_steps_are_set_in_12_points_and_nothing_in_less_than_10(card, reader):
    page = reader.open(card[0])
    page.emulate_media(media="print")
    sizes = page.eval_on_selector_all(
        ".card *",
        "all => all.filter(one => one.innerText)"
        ".map(one => [one.closest('.card__step') !== null, parseFloat(getComputedStyle(one).fontSize)])",
    )
    points = [(of_step, pixels * 0.75) for of_step, pixels in sizes]  # CSS: 1 px is 1/96 in, 1 pt is 1/72 in
    assert {size for of_step, size in points if of_step} == {12}
    assert min(size for _, size in points) == pytest.approx(10, abs=0.01)
    fonts = page.eval_on_selector_all(
        ".card__step p",
        "all => all.map(getComputedStyle).map(style => `${style.fontStyle},${style.textTransform}`)",
    )
    assert set(fonts) == {"normal,none"}


def test_a_card_keeps_wcag_2_2_aa_fits_a_phone_and_stands_apart_from_the_contents(card, reader, violations):
    page = reader.open(card[0], size="phone")
    assert violations(page) == []
    assert overflow(page) <= 0
    assert page.locator(".contents a[href*='cards/']").count() == 0
    page.get_by_role("link", name="read the whole list").click()
    page.get_by_role("link", name="Print card").click()
    assert page.url.endswith(f"cards/{PAGE}")
