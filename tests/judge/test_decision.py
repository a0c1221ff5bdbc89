"""The decision rule against ILAC-G8, JCGM 106 and the laws (rules.yaml, uncertainty.yaml)."""

from __future__ import annotations

from math import fsum, sqrt
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, example, number, numbers

from dossier.judge.decision import (
    Limit,
    conformity_probability,
    coverage_multiple,
    decide,
    in_unit,
    settled,
    spread_in_unit,
)
from dossier.quantities import parse

POUND = 0.45359237  # kg, exact by definition (memory; agrees with scipy.constants)
LAW = Limit(254.0, "<")


def pounds(*readings: float) -> float:
    """Add scale readings the way the weighing does: converted first, then summed."""
    return in_unit(fsum(reading * POUND for reading in readings), "mass", "lb")


def coverage_of(w_over_U: float) -> float:
    """Return the one-sided coverage of a guard band of so many expanded uncertainties (U = 2u)."""
    return NormalDist().cdf(2 * w_over_U)


@pytest.mark.parametrize("row", range(4))
def test_a_value_at_the_acceptance_limit_is_falsely_accepted_as_rarely_as_ilac_prints(row: int) -> None:
    table = example("rules", "UN-002")
    ratio = numbers(table.given["w_over_U"])[row]
    bound = numbers(table.expect["pfa_upper_bound"])[row]
    accepted = decide(0.0, 0.5, Limit(100.0, "<="), coverage_of(ratio)).acceptance_limit
    probability = conformity_probability(accepted, 0.5, Limit(100.0, "<="))
    assert probability is not None
    assert 1 - probability <= bound


@pytest.mark.parametrize("row", range(1, 4))
def test_the_risk_at_the_acceptance_limit_is_the_recomputed_one(row: int) -> None:
    table = example("rules", "UN-002")
    ratio = numbers(table.given["w_over_U"])[row]
    accepted = decide(0.0, 0.5, Limit(100.0, "<="), coverage_of(ratio)).acceptance_limit
    probability = conformity_probability(accepted, 0.5, Limit(100.0, "<="))
    assert probability is not None
    assert 1 - probability == as_printed(table.expect["pfa"][row])


def test_simple_acceptance_at_the_limit_is_even_odds() -> None:
    assert decide(100.0, 0.5, Limit(100.0, "<="), None).probability == as_printed(
        example("rules", "UN-002").expect["pfa"][4]
    )


def test_ninety_five_percent_one_sided_is_the_default_guard_band_of_iso_14253_1() -> None:
    # 0.83 U = 1.65 u in ILAC-G8:09/2019, table 1 as restated (UN-002)
    assert coverage_multiple(0.95) / 2 == pytest.approx(0.83, abs=0.01)


def test_a_guard_band_moves_the_acceptance_limit_as_printed() -> None:
    table = example("rules", "UN-003")
    specification, guard = number(table.given["spec_ohm"]), number(table.expect["guard_ohm"])
    u = guard / coverage_multiple(0.95)
    assert decide(0.0, u, Limit(specification, "<="), 0.95).acceptance_limit == as_printed(
        table.expect["acceptance_ohm"]
    )


def test_guarded_rejection_of_a_speed_starts_where_jcgm_106_has_it() -> None:
    table = example("rules", "UN-006")  # from memory
    threshold, limit = number(table.expect["act_above_kmh"]), number(table.given["limit_kmh"])
    coverage, relative = number(table.given["confidence"]), number(table.given["u_rel"])
    outcomes = [
        decide(v, relative * v, Limit(limit, "<="), coverage).outcome for v in (threshold - 1, threshold)
    ]
    assert outcomes == ["inconclusive", "does not conform"]


def test_the_conformity_probability_of_a_voltage_is_that_of_jcgm_106() -> None:
    table = example("rules", "UN-007")  # from memory
    limit = Limit(number(table.given["limit_V"]), "<=")
    p = conformity_probability(number(table.given["value_V"]), number(table.given["u_V"]), limit)
    assert p == as_printed(table.expect["p"])


def test_the_statements_around_a_limit_are_those_of_the_non_binary_rule() -> None:
    table = example("rules", "UN-008")
    coverage = coverage_of(number(table.given["w_over_U"]))
    limit, u = Limit(number(table.given["limit"]), "<="), number(table.given["u"])
    assert [decide(x, u, limit, coverage).outcome for x in numbers(table.given["values"])] == table.expect[
        "states"
    ]


def un_010(correlated: bool) -> tuple[float, float]:
    """Return the total and its standard uncertainty in pounds: three scales, each with rectangular bounds."""
    table = example("uncertainty", "UN-010")
    one = number(table.given["scale_mpe_lb_each"]) / sqrt(3)
    total = pounds(*numbers(list(table.given["net_lb"].values())))
    return total, 3 * one if correlated else sqrt(3) * one


@pytest.mark.parametrize("correlated", [False, True])
def test_three_scales_prove_as_little_as_computed(correlated: bool) -> None:
    total, u = un_010(correlated)
    key = "acceptance_limit_correlated_lb" if correlated else "acceptance_limit_independent_lb"
    printed = example("uncertainty", "UN-010").expect[key]
    assert decide(total, u, LAW, coverage_of(1.0)).acceptance_limit == as_printed(printed)


@pytest.mark.parametrize("correlated", [False, True])
def test_three_scales_make_conformity_as_probable_as_computed(correlated: bool) -> None:
    total, u = un_010(correlated)
    key = "p_conform_correlated" if correlated else "p_conform_independent"
    assert conformity_probability(total, u, LAW) == as_printed(example("uncertainty", "UN-010").expect[key])


def test_the_same_reading_passes_the_simple_rule_and_is_inconclusive_with_a_guard_band() -> None:
    total, u = un_010(correlated=False)
    assert (decide(total, u, LAW, None).outcome, decide(total, u, LAW, coverage_of(1.0)).outcome) == (
        "conforms",
        "inconclusive",
    )


@pytest.mark.parametrize(
    ("readings", "keeps"),
    [
        ((42.0, 105.7, 106.3), False),
        ((84.7, 84.6, 84.7), False),
        ((0.1, 0.2, 253.7), False),
        ((63.5, 63.5, 63.5, 63.5), False),
        ((253.999,), True),
        ((42.0, 105.7, 106.2999), True),
    ],
)
def test_readings_that_add_up_to_254_lb_on_paper_fail_less_than_254_lb(
    readings: tuple[float, ...], keeps: bool
) -> None:
    assert LAW.keeps(pounds(*readings)) is keeps


def test_the_noise_of_a_sum_does_not_make_254_lb_pass() -> None:
    # 43.3 + 99.1 + 111.6 = 254.0 on paper
    noisy = sum(reading * POUND for reading in (43.3, 99.1, 111.6)) / POUND
    assert noisy < 254.0  # what a plain comparison would fall for
    assert not LAW.keeps(noisy)


def test_a_difference_in_the_tenth_digit_was_measured_and_decides() -> None:
    assert LAW.keeps(253.9999999)


@pytest.mark.parametrize(("written", "limit"), [("24 kt", Limit(24.0, "<=")), ("55 kt", Limit(55.0, "<="))])
def test_a_speed_equal_to_its_limit_passes(written: str, limit: Limit) -> None:
    assert limit.keeps(in_unit(parse(written, "speed").value, "speed", "kt"))


def test_44_448_km_h_are_24_kt_and_pass() -> None:
    # 1 kt = 1.852 km/h by definition
    assert Limit(24.0, "<=").keeps(in_unit(parse("44.448 km/h", "speed").value, "speed", "kt"))


@pytest.mark.parametrize("row", range(3))
def test_the_numbers_of_section_103_1_are_strict_for_weight_and_inclusive_for_the_rest(row: int) -> None:
    table = example("rules", "RB-001")
    case = {key: number(text) for key, text in table.given["cases"][row].items()}
    limits = {
        "empty_lb": LAW,
        "fuel_usgal": Limit(5, "<="),
        "vmax_kcas": Limit(55, "<="),
        "vs_kcas": Limit(24, "<="),
    }
    assert all(limits[key].keeps(value) for key, value in case.items()) is (
        table.expect["conforms"][row] == "true"
    )


def test_a_speed_between_39_kt_and_45_mph_decides_by_the_unit() -> None:
    table = example("rules", "RB-003")
    speed = parse(f"{table.given['vso_kias']} kt", "speed").value
    assert Limit(39, "<=").keeps(in_unit(speed, "speed", "kt")) is (table.expect["meets_39_kt"] == "true")
    assert Limit(45, "<=").keeps(in_unit(speed, "speed", "mph")) is (table.expect["meets_45_mph"] == "true")


def test_45_mph_are_as_many_knots_as_printed() -> None:
    assert in_unit(parse("45 mph", "speed").value, "speed", "kt") == as_printed(
        example("rules", "RB-003").expect["mph_45_in_kt"]
    )


def test_a_speed_may_keep_65_km_h_and_exceed_35_kt() -> None:
    table = example("rules", "RB-005")
    speed = parse(f"{table.given['vs_kmh']} km/h", "speed").value
    assert in_unit(speed, "speed", "kt") == as_printed(table.expect["kt"])
    assert Limit(65, "<=").keeps(in_unit(speed, "speed", "km/h")) is (table.expect["meets_65_kmh"] == "true")
    assert Limit(35, "<=").keeps(in_unit(speed, "speed", "kt")) is (table.expect["meets_35_kt"] == "true")


def test_five_us_gallons_are_as_many_litres_as_printed() -> None:
    table = example("rules", "RB-007")
    gallons = parse(f"{table.given['usgal']} US gal", "volume").value
    assert in_unit(gallons, "volume", "L") == as_printed(table.expect["litre"])
    assert in_unit(gallons, "volume", "in³") == as_printed(table.expect["in3"])


def test_an_uncertainty_of_a_temperature_is_converted_without_the_offset() -> None:
    assert spread_in_unit(1.0, "temperature", "°F") == pytest.approx(1.8)


def test_a_value_without_uncertainty_has_no_probability() -> None:
    assert decide(253.0, 0.0, LAW, None).probability is None


@given(st.floats(0.1, 1e4), st.floats(0, 10), st.floats(0.1, 1e4), st.sampled_from([None, 0.9, 0.95, 0.99]))
def test_a_lower_limit_is_the_mirror_of_an_upper_one(
    x: float, u: float, limit: float, coverage: float | None
) -> None:
    upper = decide(x, u, Limit(limit, "<="), coverage)
    lower = decide(-x, u, Limit(-limit, ">="), coverage)
    assert (upper.outcome, upper.margin, upper.acceptance_limit) == (
        lower.outcome,
        lower.margin,
        -lower.acceptance_limit,
    )


@given(st.floats(1, 1e4), st.floats(1e-3, 10), st.floats(1, 1e4))
def test_a_better_value_never_gets_a_worse_verdict(x: float, u: float, limit: float) -> None:
    order = ["does not conform", "inconclusive", "conforms"]
    worse, better = (decide(value, u, Limit(limit, "<"), 0.95) for value in (x, x * 0.99))
    assert order.index(better.outcome) >= order.index(worse.outcome)


@given(st.floats(1, 1e4), st.floats(1e-3, 10), st.floats(1, 1e4), st.sampled_from(["<", "<=", ">=", ">"]))
def test_what_conforms_guarded_is_at_least_as_probable_as_the_coverage(
    x: float, u: float, limit: float, relation: str
) -> None:
    decision = decide(x, u, Limit(limit, relation), 0.95)
    assert decision.probability is not None
    assert (decision.outcome == "conforms") <= (decision.probability >= 0.95 - 1e-6)


@given(st.floats(1e-6, 1e6))
def test_settling_moves_a_value_by_less_than_half_of_its_twelfth_digit(x: float) -> None:
    assert abs(settled(x) - x) <= 5e-12 * x
