"""The page of what is due."""

from __future__ import annotations

from packet_reading import composed, made, text_of

from dossier.results.maintenance import DUE

PAGE = "maintenance.md"


def test_what_is_overdue_stands_on_the_page_and_on_the_cover() -> None:
    name = "Inspection after 25 h of flight"
    assert "is overdue by 6.4 h" in text_of("quillet-e1", "0005", PAGE)
    assert f"{name}: overdue." in text_of("quillet-e1", "0005", "index.md")


def test_the_worst_task_is_the_first_row() -> None:
    text = text_of("quillet-e1", "0005", PAGE)
    places = [
        text.index(item.name, text.index("Tasks in this order"))
        for item in made("quillet-e1", "0005").maintenance.items
        if not item.is_life
    ]
    assert places == sorted(places)


def test_the_captions_say_by_what_the_rows_are_sorted() -> None:
    text = text_of("quillet-e1", "0003", PAGE)
    assert text.count("then by the share of the interval that is left") == 2
    assert "worst first" not in text


def test_what_is_not_yet_due_is_sorted_by_the_share_that_is_left() -> None:
    due = made("quillet-e1", "0003").maintenance
    assert due is not None
    shares = [
        min(measure.share for measure in item.measures if measure.share is not None)
        for item in due.items
        if item.state == DUE
    ]
    assert len(shares) > 2
    assert shares == sorted(shares)


def test_a_task_leads_to_its_procedure() -> None:
    page = next(page for page in composed("quillet-e1", "0003").pages if page.path == PAGE)
    assert 'href="inspection-25-hours.md"' in page.text


def test_nothing_overdue_puts_nothing_on_the_cover() -> None:
    assert "overdue" not in text_of("quillet-e1", "0003", "index.md")


def test_both_ways_of_falling_due_are_shown() -> None:
    assert "at 74.6 h or at 208 flights" in text_of("quillet-e1", "0003", PAGE)


def test_a_total_that_is_not_on_record_is_called_so() -> None:
    assert "flight time not on record" in text_of("barrow-t2", "T2-009", PAGE)


def test_every_computed_amount_leads_to_its_sheet() -> None:
    due = made("quillet-e1", "0003").maintenance
    assert due is not None
    assert due.figures
    page = next(page for page in composed("quillet-e1", "0003").pages if page.path == PAGE)
    assert [
        figure.name
        for figure in due.figures
        if f'href="working/maintenance.md#{figure.name}"' not in page.text
    ] == []
