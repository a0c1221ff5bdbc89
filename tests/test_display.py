"""How values are printed: half up, two digits of uncertainty, and never on the wrong side of a limit."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from dossier.display import (
    MINUS,
    STYLES,
    Preference,
    Shown,
    decimals_for,
    interval_words,
    percent_words,
    rounded,
    show,
    show_beside,
    show_quantity,
    show_sampled,
    show_uncertain,
    unanswered_words,
    with_doubt,
)
from dossier.quantities import parse
from dossier.sampling import Sampled
from dossier.units import KINDS

SI, US = Preference(), Preference(us_first=True)
GAP = "\u00a0"


def plain(text: str) -> str:
    return text.replace(GAP, " ")


def number_in(text: str) -> Decimal:
    return Decimal(text.partition(GAP)[0].replace(MINUS, "-"))


# --- rounding


@pytest.mark.parametrize(
    ("value", "decimals", "printed"),
    [
        (0.05, 1, "0.1"),
        (0.15, 1, "0.2"),
        (2.675, 2, "2.68"),  # the float is below 2.675; what was written is rounded
        (2.5, 0, "3"),
        (-2.5, 0, f"{MINUS}3"),
        (0.04, 1, "0.0"),
        (1e-7, 3, "0.000"),
        (1234.5, -2, "1200"),
        (1250.0, -2, "1300"),
        (1e6, 0, "1000000"),
    ],
)
def test_a_half_is_rounded_away_from_zero(value: float, decimals: int, printed: str) -> None:
    assert rounded(value, decimals) == printed


@pytest.mark.parametrize("value", [-0.04, -0.0, -1e-12])
def test_a_nought_has_no_sign(value: float) -> None:
    assert rounded(value, 1) == "0.0"


def test_a_negative_number_has_a_minus_and_no_hyphen() -> None:
    assert rounded(-12.34, 1) == "\u221212.3"


@given(value=st.floats(-1e6, 1e6), decimals=st.integers(0, 6))
def test_a_rounded_number_is_no_further_off_than_half_its_last_digit(value: float, decimals: int) -> None:
    printed = Decimal(rounded(value, decimals).replace(MINUS, "-"))
    assert abs(printed - Decimal(repr(value))) <= Decimal(5).scaleb(-decimals - 1)


# --- uncertainty


@pytest.mark.parametrize(
    ("expanded", "decimals"),
    [
        (0.42, 2),
        (0.0999, 2),
        (0.0994, 3),
        (0.1, 2),
        (1.0, 1),
        (9.94, 1),
        (9.96, 0),
        (12.0, 0),
        (99.6, -1),
        (420.0, -1),
    ],
)
def test_an_uncertainty_shows_two_digits(expanded: float, decimals: int) -> None:
    # JCGM 100:2008, 7.2.6: at most two significant digits
    assert decimals_for(expanded) == decimals


def test_value_and_uncertainty_end_at_the_same_decimal() -> None:
    shown = show_uncertain(115.2345, 0.21, "mass", SI)
    assert (plain(shown.first), plain(shown.uncertainty)) == ("115.23 kg", "± 0.42 kg (k = 2)")


@given(value=st.floats(0.01, 1e4), spread=st.floats(1e-6, 1e3))
def test_value_and_uncertainty_end_at_the_same_decimal_for_any_value(value: float, spread: float) -> None:
    shown = show_uncertain(value, spread, "mass", SI)
    uncertainty = number_in(shown.uncertainty.removeprefix("± "))
    ends = [
        text.partition(GAP)[0].partition(".")[2]
        for text in (shown.first, shown.uncertainty.removeprefix("± "))
    ]
    assert len(ends[0]) == len(ends[1])
    assert uncertainty == pytest.approx(Decimal(2 * spread), rel=Decimal("0.06"))


def test_the_uncertainty_stands_in_the_unit_that_comes_first() -> None:
    shown = show_uncertain(115.21246198, 0.45359237 / 4, "mass", US)
    assert (plain(str(shown)), plain(shown.uncertainty)) == ("254.00 lb (115.21 kg)", "± 0.50 lb (k = 2)")


def test_a_value_without_uncertainty_has_the_decimals_of_its_kind() -> None:
    assert show_uncertain(1.0, 0.0, "mass", SI) == Shown(f"1.0{GAP}kg", f"2.2{GAP}lb")


def test_what_floats_leave_of_errors_that_cancel_is_no_uncertainty() -> None:
    assert show_uncertain(118.0, 2e-16, "mass", SI) == show(118.0, "mass", SI)


def test_the_uncertainty_of_a_temperature_has_no_offset() -> None:
    shown = show_uncertain(298.15, 0.5, "temperature", US)
    assert (plain(shown.first), plain(shown.uncertainty)) == ("77.0 °F", "± 1.8 °F (k = 2)")


# --- units and their order


@pytest.mark.parametrize(
    ("value", "style", "us", "si"),
    [
        (115.21246198, "mass", "254.0 lb", "115.2 kg"),
        (0.4191, "arm", "16.5 in", "419 mm"),
        (298.15, "temperature", "77 °F", "25 °C"),
        (273.15, "temperature", "32 °F", "0 °C"),
        (233.15, "temperature", f"{MINUS}40 °F", f"{MINUS}40 °C"),
        (0.0189270589, "volume", "5.0 US gal", "18.9 L"),
        (13.6, "area", "146.4 ft²", "13.60 m²"),
    ],
)
def test_the_readers_system_comes_first_and_the_other_follows_in_brackets(
    value: float, style: str, us: str, si: str
) -> None:
    assert plain(str(show(value, style, US))) == f"{us} ({si})"
    assert plain(str(show(value, style, SI))) == f"{si} ({us})"


@pytest.mark.parametrize("style", ["power", "energy", "voltage", "current", "time", "ratio", "count"])
def test_a_unit_that_both_systems_share_is_printed_once(style: str) -> None:
    assert show(1.0, style, US).other == ""


@pytest.mark.parametrize(
    ("airspeed", "printed"),
    [("kt", "24.0 kt (44.4 km/h)"), ("mph", "27.6 mph (44.4 km/h)"), ("km/h", "44.4 km/h (24.0 kt)")],
)
@pytest.mark.parametrize("us_first", [True, False])
def test_an_airspeed_comes_first_in_the_unit_of_the_indicator(
    airspeed: str, printed: str, us_first: bool
) -> None:
    shown = show(24 * 1852 / 3600, "speed", Preference(us_first, airspeed))
    assert plain(str(shown)) == printed


@pytest.mark.parametrize("style", STYLES)
def test_every_style_prints_in_units_of_its_kind(style: str) -> None:
    chosen = STYLES[style]
    assert {chosen.si, chosen.us} <= {*KINDS[chosen.kind].spellings, ""}
    assert show(1.0, style, SI).first.endswith(chosen.si if style != "speed" else "kt")


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_a_style_of_its_own_name(kind: str) -> None:
    assert STYLES[kind].kind == kind


def test_number_and_unit_stay_on_one_line() -> None:
    assert show(1.0, "mass", SI).first == "1.0\u00a0kg"


def test_a_bare_number_has_no_unit_behind_it() -> None:
    assert show(14.0, "count", SI).first == "14"


def test_a_quantity_of_the_record_keeps_its_uncertainty() -> None:
    shown = show_quantity(parse("108.4 kg ± 0.2 kg", "mass"), "mass", SI)
    assert (plain(shown.first), plain(shown.uncertainty)) == ("108.40 kg", "± 0.20 kg (k = 2)")


# --- beside a limit


@pytest.mark.parametrize(
    ("value", "limit", "decimals", "shown"),
    [
        (253.96, 254.0, 1, ("253.96 lb", "254 lb")),
        (253.9996, 254.0, 1, ("253.9996 lb", "254 lb")),
        (254.0, 254.0, 1, ("254.0 lb", "254 lb")),
        (254.04, 254.0, 1, ("254.04 lb", "254 lb")),
        (23.98, 24.0, 1, ("23.98 lb", "24 lb")),
        (0.25, 0.25, 1, ("0.25 lb", "0.25 lb")),
        (-0.04, 0.0, 1, (f"{MINUS}0.04 lb", "0 lb")),
    ],
)
def test_a_value_beside_its_limit_gets_the_digits_that_it_needs(
    value: float, limit: float, decimals: int, shown: tuple[str, str]
) -> None:
    assert tuple(map(plain, show_beside(value, limit, "lb", decimals))) == shown


near = st.floats(-1e4, 1e4).flatmap(
    lambda limit: st.tuples(st.just(limit), st.floats(-0.2, 0.2).map(lambda off: limit + off))
)


@given(pair=near, decimals=st.integers(0, 4))
@example(pair=(0.25, 0.25), decimals=1)
@example(pair=(254.0, 254.00000000001), decimals=1)
@example(pair=(254.0, 253.99999999999), decimals=1)
@example(pair=(1 / 3, 0.3333333333), decimals=0)
@example(pair=(-24.0, -24.04), decimals=1)
def test_the_prints_compare_as_value_and_limit_do(pair: tuple[float, float], decimals: int) -> None:
    limit, value = pair
    shown, bound = (number_in(text) for text in show_beside(value, limit, "lb", decimals))
    assert (shown > bound) == (value > limit)
    assert (shown < bound) == (value < limit)


@given(pair=near, decimals=st.integers(0, 4))
def test_a_value_beside_a_limit_is_rounded_and_never_invented(
    pair: tuple[float, float], decimals: int
) -> None:
    limit, value = pair
    shown = number_in(show_beside(value, limit, "lb", decimals)[0])
    assert abs(shown - Decimal(repr(value))) <= Decimal(5).scaleb(-decimals - 1)


# --- draws


def drawn(low: float, median: float, high: float, **more: Any) -> Sampled:
    return Sampled((low, median, high), more.pop("unanswered", 0.0), **more)


def test_an_interval_is_printed_with_two_digits_of_its_standard_uncertainty() -> None:
    # a width of 336.6 s is that of 84 s: two digits end at the second
    shown = show_sampled(415.74, drawn(302.4, 417.0, 639.0), "seconds", Preference())
    assert (shown.first, plain(shown.uncertainty)) == ("416\u00a0s", "from 302 s to 639 s (95 %)")


def test_draws_without_an_answer_are_told_behind_the_interval() -> None:
    found = drawn(302.4, 417.0, 639.0, unanswered=0.066, state="no level flight")
    words = plain(show_sampled(415.74, found, "seconds", Preference()).uncertainty)
    assert words == (
        "from 302 s to 639 s (95 % of the draws that have an answer); 6.6 % of the draws: no level flight"
    )


def test_draws_without_an_answer_and_without_a_known_reason_are_told_as_such() -> None:
    assert plain(unanswered_words(drawn(0, 1, 2, unanswered=0.5))) == "50.0 % of the draws: no answer"


@pytest.mark.parametrize(
    ("share", "words"),
    [(1 / 4096, "less than 0.1 %"), (0.066, "6.6 %"), (4095.9 / 4096, "more than 99.9 %")],
)
def test_a_share_that_is_not_nothing_is_never_printed_as_nothing_or_all(share: float, words: str) -> None:
    assert plain(percent_words(share)) == words


def test_no_interval_at_all_leaves_the_share_alone() -> None:
    found = Sampled(None, 1.0, state="the aircraft does not climb")
    words = plain(show_sampled(1.0, found, "vertical_speed", Preference()).uncertainty)
    assert words == "all draws: the aircraft does not climb"


def test_an_interval_is_printed_in_the_first_unit_of_the_reader() -> None:
    found = drawn(10.0, 12.0, 16.0)
    assert "kt" in interval_words(found, "speed", Preference())
    assert "km/h" in interval_words(found, "speed", Preference(airspeed="km/h"))


def test_an_interval_in_a_table_has_one_digit_or_as_many_as_the_values_around_it() -> None:
    found = drawn(728.5, 779.0, 836.6)
    assert plain(interval_words(found, "time", Preference())) == "from 12.14 min to 13.94 min (95 %)"
    coarse = interval_words(found, "time", Preference(), coarse=True)
    assert plain(coarse) == "from 12.1 min to 13.9 min (95 %)"


def test_an_interval_is_set_off_by_a_comma_and_a_plus_minus_is_not() -> None:
    assert with_doubt("416 s", "from 302 s to 639 s (95 %)") == "416 s, from 302 s to 639 s (95 %)"
    assert with_doubt("416 s", "± 10 s (k = 2)") == "416 s ± 10 s (k = 2)"
    assert with_doubt("416 s", "") == "416 s"
