"""The rate of the discharge on the page of the battery."""

from __future__ import annotations

import pytest
from packet_reading import SERIALS, made, text_of

from dossier.compose.battery_rates import rates
from dossier.compose.printer import Printer
from dossier.compute.life_by_rate import MODELS, at_rate
from dossier.results.years import TIMES

BATTERY = "battery.md"
everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])


@everyone
def test_the_page_says_that_the_fact_of_the_trade_has_no_source(project: str, number: str) -> None:
    text = text_of(project, number, BATTERY)
    assert "lives many more cycles than one discharged in minutes is common practice, no source" in text
    assert "agree neither on the number of cycles nor, above one capacity an hour" in text


@everyone
def test_each_model_is_named_with_what_it_was_measured_on(project: str, number: str) -> None:
    text = text_of(project, number, BATTERY)
    for words in (
        "a cell of 2.15 Ah, tested at 1 an hour and 35 °C",
        "a cell of 1.5 Ah, 10 to 46 °C, 0.5 to 6.5 an hour",
        "a cell of 5 Ah, 0 to 25 °C",
        "Journal of Power Sources 257, 325-334",
        "Journal of Power Sources 269, 937-948",
        "IEEE Xplore, document 9617644",
    ):
        assert words in text


@everyone
def test_a_line_for_each_time_and_one_for_the_use_with_a_cell_for_each_model(
    project: str, number: str
) -> None:
    part = rates(Printer(made(project, number), BATTERY))
    assert part is not None
    assert len(part.table.rows) == len(TIMES) + 1
    assert {len(row.cells) for row in part.table.rows} == {len(MODELS) + 1}


@everyone
def test_cycles_are_printed_to_two_digits_and_not_where_no_test_went(project: str, number: str) -> None:
    part = rates(Printer(made(project, number), BATTERY))
    assert part is not None
    fastest = [cell.text.replace("\u00a0", "") for cell in part.table.rows[-1].cells]
    assert fastest[0] == "in 20min"
    assert [None if text == "not tested" else float(text) for text in fastest[1:]] == [
        None if cycles is None else float(f"{cycles:.2g}") for cycles in at_rate(3.0).cycles
    ]


@everyone
def test_two_hours_against_twenty_minutes_is_told_by_each_model(project: str, number: str) -> None:
    part = rates(Printer(made(project, number), BATTERY))
    assert part is not None
    told = dict(part.facts)["Two hours against 20 minutes"]
    assert told == (
        "1.0 times as many cycles by NMC111, whose model knows no rate; 2.4 times as many cycles by NMC with "
        "spinel; no answer by NMC811"
    )
