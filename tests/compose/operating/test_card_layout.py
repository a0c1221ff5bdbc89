"""How a card chooses its size of type, its words, its sides and its sheets."""

from __future__ import annotations

import pytest

from dossier.compose.operating.card_layout import (
    EMERGENCY_SIZES,
    SIDES,
    SIZES,
    Identity,
    Layout,
    Measure,
    lay_out,
)
from dossier.compose.operating.card_text import Block, Row

IDENTITY = Identity("A list", "A type, serial 0001, Edition A, as of 2026-05-14")
LONG = "Push the left main pin in by hand until its line meets the line on the fitting."


def step(number: int, words: str = LONG, *, section: bool = False) -> Block:
    row = Row("step", (((words, False),),), str(number), box=True)
    head = (Row("section", ((("A section", True),),)),) if section else ()
    return Block((*head, row))


def steps(number: int, words: str = LONG, every: int = 10) -> tuple[Block, ...]:
    return tuple(step(one, words, section=one % every == 1) for one in range(1, number + 1))


def laid(number: int, *, short: str | None = None, emergency: bool = False, paper: str = "a5") -> Layout:
    return lay_out(
        paper, IDENTITY, lambda few: steps(number, short if few and short else LONG), is_emergency=emergency
    )


def numbers(made: Layout) -> list[str]:
    return [
        row.number
        for sheet in made.sheets
        for side in sheet
        for block in side
        for row in block.rows
        if row.kind == "step"
    ]


@pytest.mark.parametrize("paper", ["a5", "half-letter"])
@pytest.mark.parametrize("number", [1, 7, 30, 60, 90, 150, 400])
def test_every_step_stands_once_in_order_whatever_the_length(paper, number):
    assert numbers(laid(number, paper=paper)) == [str(one) for one in range(1, number + 1)]


def test_a_short_list_has_the_largest_type_and_one_sheet():
    made = laid(7)
    assert (made.size, made.short, len(made.sheets), made.lines_over) == (14, False, 1, 0)


def test_type_shrinks_before_a_second_sheet_is_taken_and_never_below_10_points():
    sizes = [(made.size, len(made.sheets)) for made in map(laid, range(10, 100))]
    alone = [size for size, sheets in sizes if sheets == 1]
    assert alone == sorted(alone, reverse=True)
    assert set(alone) == set(SIZES)
    assert min(size for size, _ in sizes) == 10


def test_short_words_are_taken_only_when_the_whole_ones_fit_at_no_size():
    assert not laid(60, short="Pin in.").short
    whole, few = steps(80, f"{LONG} {LONG}"), steps(80, "Pin in.")
    made = lay_out("a5", IDENTITY, lambda short: few if short else whole, is_emergency=False)
    assert (made.short, len(made.sheets)) == (True, 1)
    assert len(lay_out("a5", IDENTITY, lambda _: whole, is_emergency=False).sheets) == 2


def test_a_list_too_long_for_one_sheet_goes_on_more_and_says_by_how_many_lines():
    made = laid(200)
    assert len(made.sheets) > 1
    assert made.lines_over > 0
    assert laid(210).lines_over > made.lines_over


def test_whole_words_are_kept_where_short_ones_save_no_sheet():
    made = laid(120, short=LONG[:-4])
    assert (made.short, len(made.sheets)) == (False, 2)


def test_a_second_sheet_begins_with_a_section_where_that_costs_no_sheet():
    made = laid(120)
    assert [sheet[0][0].opens_section for sheet in made.sheets] == [True] * len(made.sheets)


def test_no_sheet_has_more_than_four_sides_and_no_side_is_empty():
    for number in (1, 50, 100, 300):
        sheets = laid(number).sheets
        assert all(1 <= len(sheet) <= SIDES for sheet in sheets)
        assert all(side for sheet in sheets for side in sheet)


@pytest.mark.parametrize("paper", ["a5", "half-letter"])
def test_no_side_is_filled_beyond_its_height(paper):
    for number in (5, 40, 80, 200):
        made = laid(number, paper=paper)
        measure = Measure(paper, made.size, IDENTITY)
        assert all(sum(map(measure.block, side)) <= measure.height for sheet in made.sheets for side in sheet)


def test_an_emergency_has_one_side_if_it_can_and_never_less_than_12_points():
    assert (laid(8, emergency=True).size, len(laid(8, emergency=True).sheets[0])) == (14, 1)
    sizes = {laid(number, emergency=True).size for number in range(1, 120)}
    assert sizes == set(EMERGENCY_SIZES)


def test_a_block_higher_than_a_side_is_parted_at_its_rows_and_nothing_is_lost():
    rows = tuple(Row("step", (((LONG, False),),), str(one)) for one in range(100))
    made = lay_out("a5", IDENTITY, lambda _: (Block(rows),), is_emergency=False)
    assert numbers(made) == [str(one) for one in range(100)]


def test_the_reading_distance_is_200_times_the_height_of_a_capital():
    # 12 pt is 12 * 25.4 / 72 = 4.233 mm; its capitals, 0.716 of that, are 3.031 mm; 200 times that is 0.606 m
    assert Layout(12, False, (), 0).reading_distance == pytest.approx(0.606, abs=5e-4)
