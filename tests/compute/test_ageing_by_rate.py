"""The models of ageing with a term of the rate by their laws and borders."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import log10

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.ageing import cycling_loss, window_voltage
from dossier.compute.ageing_by_rate import (
    blended_calendar_loss,
    blended_cycling_loss,
    high_nickel_cycling_loss,
)
from dossier.compute.life import LifeLimits, Use, after, ends_of_life, second_loss, why_not_second
from dossier.compute.life_by_rate import MODELS, at_rate, gentle_over_hard, mean_rate
from dossier.figures import OutsideRange

DAY, WARM = 86400.0, 298.15
USE = Use(60, 0.1, 0.9, 0.5, 293.15)
AT_ONE = Use(60, 0.1, 0.9, 0.5, 293.15, 1.0)


def test_a_year_at_25_degrees_by_hand() -> None:
    # 24500 / (8.314 x 298.15) = 9.8838; exp = 5.0995e-5; x 148.76 x sqrt(365) = 0.14493
    assert blended_calendar_loss(WARM, 365 * DAY) == pytest.approx(0.1449, abs=1e-4)


def test_a_thousand_full_cycles_in_an_hour_each_by_hand() -> None:
    # 8.612e-8 x 88893.42 - 5.125e-5 x 298.15 + 7.629e-3 = 4.3132e-6; (2.347 - 6.72e-3 x 298.15) = 0.34343;
    # exp = 1.40978; x 3000 Ah = 0.018242
    assert blended_cycling_loss(WARM, 1.0, 1.0, 1000) == pytest.approx(0.01824, abs=5e-5)


def test_a_thousand_full_cycles_of_the_high_nickel_cell_by_hand() -> None:
    # exp(-0.12378) = 0.88357; (298.15/308.15)^3 = 0.90578; exp(1.2446 x 0.90578) = 3.0874;
    # 0.18124 x 0.88357 x 3.0874 = 0.49440; x 0.1^0.442 = 0.36141: 0.17868
    assert high_nickel_cycling_loss(WARM, 1.0, 1000) == pytest.approx(0.1787, abs=1e-4)


@given(st.floats(284, 319), st.floats(0, 2000))
def test_four_times_as_long_in_storage_costs_twice_as_much(kelvin: float, days: float) -> None:
    assert blended_calendar_loss(kelvin, 4 * days * DAY) == pytest.approx(
        2 * blended_calendar_loss(kelvin, days * DAY)
    )


@given(st.floats(284, 319), st.floats(0.5, 6.0))
def test_a_faster_discharge_costs_more_by_the_blended_model(kelvin: float, rate: float) -> None:
    assert blended_cycling_loss(kelvin, rate + 0.5, 1, 1) > blended_cycling_loss(kelvin, rate, 1, 1)


@given(st.floats(284, 319), st.floats(0.5, 6.5), st.floats(0.1, 1), st.floats(1, 1000))
def test_half_the_depth_needs_twice_the_cycles(
    kelvin: float, rate: float, depth: float, cycles: float
) -> None:
    half = blended_cycling_loss(kelvin, rate, depth / 2, 2 * cycles)
    assert half == pytest.approx(blended_cycling_loss(kelvin, rate, depth, cycles))


@given(st.floats(274, 298), st.floats(0.3, 2), st.floats(1, 1000))
def test_ten_times_the_cycles_cost_ten_to_the_power_of_the_fit(
    kelvin: float, rate: float, cycles: float
) -> None:
    more = high_nickel_cycling_loss(kelvin, rate, 10 * cycles)
    assert log10(more / high_nickel_cycling_loss(kelvin, rate, cycles)) == pytest.approx(0.442)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: blended_calendar_loss(282.15, DAY), "temperature of the battery is 9 °C, and the tests"),
        (lambda: blended_calendar_loss(WARM, -1.0), "the time is -1 s, and must not be negative"),
        (
            lambda: blended_cycling_loss(320.15, 1, 1, 1),
            "is 47 °C, and the tests of this model go from 10 to 46",
        ),
        (lambda: blended_cycling_loss(WARM, 0.49, 1, 1), "rate is 0.49 capacities an hour, and the tests"),
        (lambda: blended_cycling_loss(WARM, 6.6, 1, 1), "go from 0.5 to 6.5"),
        (lambda: blended_cycling_loss(WARM, 1, 1.1, 1), "depth of the window of charge is 1.1"),
        (lambda: blended_cycling_loss(WARM, 1, 1, -1), "number of cycles is -1"),
        (
            lambda: high_nickel_cycling_loss(299.15, 1, 1),
            "is 26 °C, and the tests of this model go from 0 to 25",
        ),
        (lambda: high_nickel_cycling_loss(WARM, 3, 1), "rate is 3 capacities an hour, and the tests of this"),
        (lambda: high_nickel_cycling_loss(WARM, 1, -1), "number of cycles is -1"),
        (lambda: at_rate(0.0), "the rate is 0, and must be positive"),
        (lambda: at_rate(1.0, loss=0.0), "the loss is 0, and must be positive"),
        (lambda: mean_rate(0.5, 0.0), "the time is 0 s, and must be positive"),
        (lambda: mean_rate(0.0, 60.0), "the depth of the discharge is 0, and must be positive"),
    ],
)
def test_each_border_of_validity_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)


# --- cycles


def test_each_model_has_lost_a_fifth_after_its_cycles() -> None:
    without, blended, high_nickel = at_rate(1.0).cycles
    assert without is not None
    assert blended is not None
    assert high_nickel is not None
    assert cycling_loss(window_voltage(0.0, 1.0), 1.0, without) == pytest.approx(0.2)
    assert blended_cycling_loss(WARM, 1.0, 1.0, blended) == pytest.approx(0.2)
    assert high_nickel_cycling_loss(WARM, 1.0, high_nickel) == pytest.approx(0.2)


def test_a_rate_outside_its_tests_gets_no_answer_and_no_nearest_one() -> None:
    assert [cycles is None for cycles in at_rate(0.4).cycles] == [False, True, False]
    assert [cycles is None for cycles in at_rate(3.0).cycles] == [False, False, True]
    assert gentle_over_hard(0.5, 3.0)[2] is None


def test_an_answer_for_every_model() -> None:
    assert len(at_rate(1.0).cycles) == len(MODELS) == len(gentle_over_hard(0.5, 1.0))


def test_three_quarters_in_half_an_hour_are_a_rate_of_one_and_a_half() -> None:
    assert mean_rate(0.75, 1800.0) == 1.5


# --- years


def test_the_second_model_is_storage_and_use_together() -> None:
    stored, used = blended_calendar_loss(293.15, 365 * DAY), blended_cycling_loss(WARM, 1.0, 0.8, 60)
    assert second_loss(AT_ONE, 1.0) == pytest.approx(stored + used)
    assert after(AT_ONE, 1.0).second_health == pytest.approx(1 - stored - used)


def test_the_range_by_year_holds_the_second_model() -> None:
    for year in (1, 2, 3, 5):
        aged, alone = after(AT_ONE, year), after(USE, year)
        assert aged.second_health is not None
        assert aged.worst_health is None or aged.worst_health <= aged.second_health
        assert aged.health == alone.health
        assert aged.best_health == alone.best_health


def test_the_worst_of_the_first_year_in_the_cool_is_that_of_the_second_model() -> None:
    # stored cooler, where its loss falls less with the temperature
    aged, alone = (after(replace(use, storage_temperature=285.15), 1.0) for use in (AT_ONE, USE))
    assert alone.worst_health is not None
    assert aged.worst_health == aged.second_health
    assert aged.worst_health is not None
    assert aged.worst_health < alone.worst_health


def test_the_end_of_life_comes_as_early_as_the_strictest_model_says() -> None:
    cool = [replace(use, storage_temperature=285.15) for use in (AT_ONE, USE)]
    with_second, alone = (ends_of_life(use, LifeLimits(health=0.95))[0] for use in cool)
    assert with_second.year == alone.year
    assert with_second.earliest is not None
    assert alone.earliest is not None
    assert with_second.earliest < alone.earliest
    assert after(cool[0], with_second.earliest).worst_health == pytest.approx(0.95, abs=1e-9)


@pytest.mark.parametrize(
    ("use", "words"),
    [
        (USE, "the rate of the discharge is not known"),
        (Use(60, 0.1, 0.9, 0.5, 293.15, 0.3), "the rate is 0.3 capacities an hour"),
        (Use(60, 0.1, 0.9, 0.5, 281.15, 1.0), "the temperature of the battery is 8 °C"),
    ],
)
def test_a_use_outside_the_second_model_leaves_it_out_and_says_why(use: Use, words: str) -> None:
    assert second_loss(use, 1.0) is None
    assert after(use, 1.0).second_health is None
    assert words in why_not_second(use)


def test_a_use_inside_the_second_model_has_nothing_to_say() -> None:
    assert why_not_second(AT_ONE) == ""
