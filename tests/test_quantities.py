"""Text of a record to SI values with uncertainty, and what an author is told who wrote something else."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier import units
from dossier.findings import Place
from dossier.quantities import NotAQuantity, Quantity, parse


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("108.4 kg", "mass", 108.4),
        ("254 lb", "mass", 254 * 0.45359237),
        ("16.5 in", "length", 16.5 * 0.0254),
        ("-31 in", "length", -31 * 0.0254),
        ("+412 mm", "length", 0.412),
        (".5 m", "length", 0.5),
        ("5. m", "length", 5.0),
        ("1.2e3 Wh", "energy", 1.2e3 * 3600),
        ("108.4kg", "mass", 108.4),
        ("25 °C", "temperature", 298.15),
        ("25°C", "temperature", 298.15),
        ("77 °F", "temperature", 298.15),
        ("85 %", "ratio", 0.85),
        ("85%", "ratio", 0.85),
        ("0.85", "ratio", 0.85),
        ("1.6", "number", 1.6),
        ("12.5 kg m", "mass_moment", 12.5),
        ("10 N·m", "torque", 10.0),
        ("6 lb/US gal", "density", 6 * 119.82642731689663),
        ("18 mΩ", "resistance", 0.018),
        ("0.5°", "angle", 0.5 * 0.017453292519943295),
    ],
)
def test_a_value_comes_out_in_si(text: str, kind: str, value: float) -> None:
    assert parse(text, kind).value == pytest.approx(value, rel=1e-14)


@pytest.mark.parametrize("kind", units.KINDS.values(), ids=units.KINDS.keys())
def test_the_example_that_a_message_shows_can_be_pasted(kind: units.Kind) -> None:
    assert parse(kind.example, kind.name).text == kind.example


@pytest.mark.parametrize(
    ("text", "kind", "spread"),
    [
        ("108.4 kg", "mass", 0.0),
        ("108.4 kg ± 0 kg", "mass", 0.0),
        ("108.4 kg ± 0.2 kg", "mass", 0.1),  # expanded, k = 2
        ("108.4 kg +/- 0.2 kg", "mass", 0.1),
        ("108.4 kg ± 0.2 kg (k=2)", "mass", 0.1),
        ("108.4 kg ± 0.2 kg (k=1)", "mass", 0.2),
        ("108.4 kg ± 0.3 kg (k = 3)", "mass", 0.1),
        ("108.4 kg ± 200 g", "mass", 0.1),
        ("42 lb ± 0.5 lb (limits)", "mass", 0.5 / sqrt(3) * 0.45359237),  # rectangular, JCGM 100:2008, 4.3.7
        ("9.5 kW ± 5 %", "power", 0.5 * 0.05 * 9500),
        ("-2 m ± 5 %", "length", 0.05),
        ("25 °C ± 1 °C", "temperature", 0.5),
        ("77 °F ± 1.8 °F", "temperature", 0.5),
        ("25 °C ± 1 K", "temperature", 0.5),
        ("85 % ± 2 %", "ratio", 0.01),
        ("0.85 ± 0.02", "ratio", 0.01),
        ("1.6 ± 0.1", "number", 0.05),
    ],
)
def test_what_follows_the_plus_minus_becomes_a_standard_uncertainty(
    text: str, kind: str, spread: float
) -> None:
    assert parse(text, kind).standard_uncertainty == pytest.approx(spread, rel=1e-12)


MEANINGS = (
    "write (k=2) for an expanded uncertainty, (k=1) for a standard one, "
    "(limits) for the bounds of an instrument"
)


@pytest.mark.parametrize(
    ("text", "kind", "wrong", "right"),
    [
        ("108.4", "mass", "the bare number 108.4 has no unit where a mass is due",
         'write it with its unit, for example "108.4 kg"'),
        ("108.4 m", "mass", "'m' measures length, and a mass is due", 'write for example "108.4 kg"'),
        ("10 Nm", "torque", "'Nm' is not a unit of torque known here",
         'did you mean "10 N·m"? units taken: N m, N·m, lbf in, in-lb, lbf ft, ft-lb'),
        ("9 KW", "power", "'KW' is not a unit of power known here",
         'did you mean "9 kW"? units taken: W, kW, hp, PS'),
        ("1O8 kg", "mass", "'1O8 kg' is not a mass with a unit",
         'check for a letter in the number; write for example "108.4 kg"'),
        ("1,5 kg", "mass", "'1,5 kg' is not a mass with a unit",
         'use a point for decimals, for example "108.4 kg"'),
        ("heavy", "mass", "'heavy' is not a mass with a unit", 'write for example "108.4 kg"'),
        ("1_000 kg", "mass", "'1_000 kg' is not a mass with a unit", 'write for example "108.4 kg"'),
        ("nan kg", "mass", "'nan kg' is not a mass with a unit", 'write for example "108.4 kg"'),
        (" 108 kg", "mass", "' 108 kg' is not a mass with a unit", 'write for example "108.4 kg"'),
        ("1e999 kg", "mass", "'1e999 kg' is too large a number", 'write for example "108.4 kg"'),
        ("108 ± 0.2 kg", "mass", "the bare number 108 has no unit where a mass is due",
         'write it with its unit, for example "108 kg"'),
        ("108 kg ± 0.2", "mass", "the uncertainty 0.2 has no unit", 'repeat the unit: "108 kg ± 0.2 kg"'),
        ("108 kg ± -0.2 kg", "mass", "the uncertainty -0.2 is negative",
         "write the number behind ± without a sign"),
        ("108 kg ± 0.2 m", "mass", "'m' measures length, and a mass is due", 'write for example "108.4 kg"'),
        ("108 kg ± 0.2 kg (95 %)", "mass", "(95 %) does not say what the uncertainty means",
         MEANINGS),
        ("108 kg ± 0.2 kg (k=0)", "mass", "(k=0) does not say what the uncertainty means",
         MEANINGS),
        ("108 kg ± 0.2 kg (k=20)", "mass", "(k=20) does not say what the uncertainty means",
         MEANINGS),
        ("25 °C ± 2 %", "temperature", "a percentage of a temperature that has an offset means nothing",
         'write for example "± 2 °C"'),
        ("1.6 kg", "number", "a number has no unit 'kg'", 'write "1.6", without a unit'),
        ("0.85 kg", "ratio", "a ratio has no unit 'kg'", 'write "0.85" or "0.85 %", without a unit'),
    ],
)  # fmt: skip
def test_what_is_wrong_and_what_would_be_right(text: str, kind: str, wrong: str, right: str) -> None:
    with pytest.raises(NotAQuantity) as refused:
        parse(text, kind)
    assert (refused.value.wrong, refused.value.right) == (wrong, right)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("1e15 kg", "mass", 1e15),
        ("-1e15 m", "length", -1e15),
        ("1e18 g", "mass", 1e15),
        ("1e-15 kg", "mass", 1e-15),
        ("0 kg", "mass", 0.0),
        ("-0.000 kg", "mass", 0.0),
        ("0e-400 kg", "mass", 0.0),
        ("0.00000000000000 °C", "temperature", 273.15),
    ],
)
def test_the_largest_and_the_smallest_number_are_taken(text: str, kind: str, value: float) -> None:
    assert parse(text, kind).value == pytest.approx(value, rel=1e-12, abs=0)


TOO_LARGE = ("1.001e15 kg", "-1.001e15 kg", "1.001e18 g", "1e400 kg", "1 kg ± 1e16 kg", "1 kg ± 1e400 %")
VANISHED = ("1e-400 kg", "0.01e-400 kg", "1 kg ± 1e-400 kg")
TOO_SMALL = (*VANISHED, "9e-16 kg", "-9e-16 kg", "9e-13 g", "1 kg ± 1e-16 kg")


@pytest.mark.parametrize("text", TOO_LARGE)
def test_a_number_beyond_the_largest_is_refused_in_whatever_unit(text: str) -> None:
    with pytest.raises(NotAQuantity) as refused:
        parse(text, "mass")
    assert refused.value.wrong == f"{text!r} is too large a number"


@pytest.mark.parametrize("text", TOO_SMALL)
def test_a_number_below_the_smallest_is_refused_and_not_taken_for_nothing(text: str) -> None:
    with pytest.raises(NotAQuantity) as refused:
        parse(text, "mass")
    assert refused.value.wrong == f"{text!r} is too small a number"
    assert refused.value.right == 'write 0, or for example "108.4 kg"'


@pytest.mark.parametrize("text", ["1e13 kWh", "1e12 kWh"])
def test_the_limit_is_that_of_the_si_unit(text: str) -> None:
    with pytest.raises(NotAQuantity):
        parse(text, "energy")  # 1 kWh is 3.6 MJ (SI Brochure, table 8, by the hour)


@pytest.mark.parametrize("factor", ["0.4", "0.0000001", "10.1", "9" * 400])
def test_a_coverage_factor_far_from_any_in_use_is_refused(factor: str) -> None:
    with pytest.raises(NotAQuantity, match="does not say what the uncertainty means"):
        parse(f"108 kg ± 0.2 kg (k={factor})", "mass")


@pytest.mark.parametrize("factor", ["0.5", "1", "1.96", "2", "3", "10"])
def test_a_coverage_factor_divides_the_expanded_uncertainty(factor: str) -> None:
    spread = parse(f"108 kg ± 0.2 kg (k={factor})", "mass").standard_uncertainty
    assert spread == pytest.approx(0.2 / float(factor))


@pytest.mark.parametrize("text", ["١٠٨ kg", "１０８ kg", "108 kg ± ٢ kg"])
def test_only_the_digits_0_to_9_make_a_number(text: str) -> None:
    with pytest.raises(NotAQuantity):
        parse(text, "mass")


@pytest.mark.parametrize("text", ["108.4 kg\n", "108.4\nkg", "108.4 kg ± 0.2 kg\n"])
def test_a_line_break_is_no_part_of_a_quantity(text: str) -> None:
    with pytest.raises(NotAQuantity):
        parse(text, "mass")


def test_a_quantity_keeps_what_was_written_and_where() -> None:
    place = Place("types/a.yaml", 3, 7)
    quantity = parse("16.5 in", "length", place)
    assert (quantity.text, quantity.unit, quantity.place) == ("16.5 in", "in", place)


def test_two_quantities_from_two_places_are_equal_when_they_say_the_same() -> None:
    assert parse("1 kg", "mass", Place("a", 1, 1)) == parse("1 kg", "mass", Place("b", 2, 2))


def test_a_quantity_without_uncertainty_is_a_plain_number() -> None:
    assert parse("108.4 kg", "mass").estimate("empty mass") == 108.4


def test_a_quantity_is_the_same_variable_each_time_it_is_asked_for() -> None:
    quantity = parse("108.4 kg ± 0.2 kg", "mass")
    difference = quantity.estimate("one") - quantity.estimate("other")
    assert (difference.nominal_value, difference.std_dev) == (0.0, 0.0)


def test_two_equal_texts_are_two_variables() -> None:
    first, second = (parse("108.4 kg ± 0.2 kg", "mass") for _ in range(2))
    assert (first.estimate("a") - second.estimate("b")).std_dev == pytest.approx(0.1 * sqrt(2))


UNITS = [(kind.name, spelling) for kind in units.KINDS.values() for spelling in kind.spellings]


@given(st.sampled_from(UNITS), st.decimals(-(10**6), 10**6, places=3))
def test_a_quantity_reads_back_in_the_unit_that_was_written(unit: tuple[str, str], number: object) -> None:
    kind, spelling = unit
    quantity = parse(f"{number} {spelling}", kind)
    assert quantity.as_written == pytest.approx(float(f"{number}"), rel=1e-12, abs=1e-9)


@given(st.text(max_size=30))
def test_any_text_is_a_quantity_or_is_refused_with_a_remedy(text: str) -> None:
    try:
        answer: Quantity | NotAQuantity = parse(text, "mass")
    except NotAQuantity as refused:
        answer = refused
    assert answer.text == text if isinstance(answer, Quantity) else (answer.wrong and answer.right)
