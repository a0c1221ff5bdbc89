"""The page of the packed aircraft."""

from __future__ import annotations

from packet_reading import composed, made, text_of

PAGE = "trailer.md"


def test_a_limit_that_is_not_kept_stands_at_the_top() -> None:
    text = text_of("barrow-t2", "T2-007", PAGE)
    assert "Beyond a limit that was read for: United Kingdom." not in text
    assert "Within every limit of size that was read for these places." in text


def test_a_body_too_long_for_the_united_kingdom_says_by_how_much() -> None:
    # 22.9 ft are 6.98 m, 7.0 m are the limit; the fuselage ends at 22.1 ft
    text = text_of("quillet-e1", "0003", PAGE)
    assert "0.066 ft (0.02 m) to spare" in text.replace("\u00a0", " ")


def test_every_place_asks_to_confirm_locally() -> None:
    text = text_of("quillet-e1", "0003", PAGE)
    assert text.count("Confirm locally") == 1 + 5


def test_every_part_has_its_number_in_the_drawing_and_in_the_table() -> None:
    page = next(page for page in composed("quillet-e1", "0003").pages if page.path == PAGE)
    assert page.text.count('class="packing__number"') == 2 * 5


def test_every_size_and_every_margin_leads_to_its_sheet() -> None:
    road = made("quillet-e1", "0003").road
    assert road is not None
    page = next(page for page in composed("quillet-e1", "0003").pages if page.path == PAGE)
    for figure in (*(size.figure for size in road.sizes), *(one.left for one in road.verdicts if one.left)):
        assert f'href="working/trailer.md#{figure.name}"' in page.text
