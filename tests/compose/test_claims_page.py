"""What the page of claims prints: ranges, limits at which to land, numbers in the unit of a claim."""

from __future__ import annotations

import re
from html import unescape

import pytest
from demos import demo

from dossier.compose.claim_identities import in_own_unit
from dossier.compose.claims import pages
from dossier.compose.printer import Printer
from dossier.judge.claim_numbers import Number, written
from dossier.quantities import Quantity, parse
from dossier.styles import STYLES


def rows(project: str, serial: str) -> list[str]:
    (page,) = pages(demo(project)[serial])
    found = re.findall(r"<tr>.*?</tr>", page.text, re.DOTALL)
    made = [unescape(re.sub(r"<[^>]+>", " ", row)).replace("\u00a0", " ") for row in found]
    return [" ".join(row.split()) for row in made]


def quantity(text: str, style: str) -> Quantity:
    """Read a quantity of the kind of a style."""
    return parse(text, STYLES[style].kind)


def row(project: str, serial: str, words: str) -> str:
    """The first row with these words."""
    return next(one for one in rows(project, serial) if words in one)


@pytest.mark.parametrize(
    ("project", "serial", "claim", "shown"),
    [
        ("barrow-t2", "T2-007", "1000 charges", "390 to 22000 published models at least 387"),
        ("barrow-t2", "T2-007", "4 years before", "4.2 years and more published models"),
        ("quillet-e1", "0003", "The battery lasts 5 years", "2.1 to 37 years published models"),
    ],
)
def test_what_models_leave_open_is_printed_as_a_range(
    project: str, serial: str, claim: str, shown: str
) -> None:
    assert shown in row(project, serial, claim)


def test_an_endurance_says_that_it_ends_at_the_limit_at_which_to_land() -> None:
    one = row("barrow-t2", "T2-007", "More than 35 min")
    assert re.search(r"Not supported .* 36\.0 min .* to the limit at which to land; 39\.2 min to the", one)


def test_the_result_of_a_rule_of_thumb_says_where_it_lies_in_its_band() -> None:
    text = " ".join(rows("quillet-e1", "0003"))
    assert "outside its band" in text
    assert "inside its band" in text
    assert not re.search(r"\b(agrees|differs)\b", text)


@pytest.mark.parametrize(
    ("text", "style", "shown"),
    [
        ("23 nmi", "length", "23 nmi"),
        ("5 years", "time", "5 years"),
        ("40 h", "time", "40 h"),
        ("32 mph", "speed", "32 mph"),
        ("3.5 h", "time", "3.5 h"),
        ("45 min", "time", "45 min"),
        ("6.25 ft", "length", "6.25 ft (1.91 m)"),
    ],
)
def test_a_number_is_printed_in_the_unit_in_which_it_was_written(text: str, style: str, shown: str) -> None:
    at = Printer(demo("quillet-e1")["0003"], "claims.md")
    number = written("It", quantity(text, style), style)
    assert in_own_unit(at, number, number.value).replace("\u00a0", " ") == shown


def test_a_number_that_would_be_true_is_rounded_in_that_unit() -> None:
    at = Printer(demo("quillet-e1")["0003"], "claims.md")
    number = written("It", quantity("23 nmi", "length"), "length")
    assert in_own_unit(at, number, 0.9 * 1.2345 * number.value).replace("\u00a0", " ") == "25.6 nmi"


def test_a_computed_number_is_printed_as_the_page_prints_such_values() -> None:
    at = Printer(demo("quillet-e1")["0003"], "claims.md")
    computed = Number("It", 2400.0, "time", "computed")
    assert in_own_unit(at, computed, computed.value).replace("\u00a0", " ") == "40 min"


@pytest.mark.parametrize(("project", "serial"), [("quillet-e1", "0003"), ("barrow-t2", "T2-007")])
def test_no_claim_is_told_in_a_unit_that_nobody_says(project: str, serial: str) -> None:
    (page,) = pages(demo(project)[serial])
    text = page.text.replace("\u00a0", " ")
    assert not re.search(r"\d{4,} min|\d{5,}\.\d+ (ft|m)\b", text)
    assert "m² with an ideal wing" not in text
