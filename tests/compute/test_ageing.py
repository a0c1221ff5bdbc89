"""The model of ageing by its laws and borders; its numbers are held against the stored examples in
tests/references."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest
from battery_cells import CHEN, limited
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.ageing import (
    calendar_growth,
    calendar_loss,
    cycling_growth,
    cycling_loss,
    storage_voltage,
    window_voltage,
)
from dossier.compute.discharge import discharge
from dossier.compute.life import LifeLimits, Use, after, ends_of_life, run_times
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange

DAY = 86400.0
WARM = 298.15
USE = Use(60, 0.1, 0.9, 0.5, 293.15)


def test_a_year_at_half_charge_by_hand() -> None:
    # (7.543 x 3.6974 - 23.75) 1e6 = 4.1395e6; exp(-6976/298.15) = 6.8964e-11; 365^0.75 = 83.506: 0.023839
    assert calendar_loss(3.6974, WARM, 365 * DAY) == pytest.approx(0.02384, abs=1e-5)


@given(st.floats(3.4, 4.16), st.floats(279, 322), st.floats(0, 3000))
def test_sixteen_times_as_long_costs_eight_times_as_much(
    voltage: float, temperature: float, days: float
) -> None:
    # 16^0.75 = 8
    for law in (calendar_loss, calendar_growth):
        assert law(voltage, temperature, 16 * days * DAY) == pytest.approx(
            8 * law(voltage, temperature, days * DAY)
        )


@given(st.floats(0, 1), st.floats(0, 1), st.floats(279, 321))
def test_fuller_and_warmer_ages_faster(one: float, other: float, temperature: float) -> None:
    low, high = (storage_voltage(charge) for charge in sorted((one, other)))
    assert calendar_loss(low, temperature, DAY) <= calendar_loss(high, temperature + 1, DAY)


@given(st.floats(3.4, 4.1), st.floats(0.1, 1), st.floats(1, 1000))
def test_four_times_the_cycles_cost_twice_the_capacity_and_four_times_the_resistance(
    rms: float, depth: float, cycles: float
) -> None:
    assert cycling_loss(rms, depth, 4 * cycles) == pytest.approx(2 * cycling_loss(rms, depth, cycles))
    assert cycling_growth(rms, depth, 4 * cycles) == pytest.approx(4 * cycling_growth(rms, depth, cycles))


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: calendar_loss(3.7, 277.0, DAY),
            "stored at 3.9 °C, and the model of ageing goes from 5 to 50 °C",
        ),
        (lambda: calendar_growth(3.7, 324.0, DAY), "goes from 5 to 50 °C"),
        (lambda: calendar_loss(3.3, WARM, DAY), "goes from 3.331 to 4.162 V, and 3.3 V is asked"),
        (lambda: calendar_loss(3.7, WARM, -1.0), "the time is -1 s, and must not be negative"),
        (lambda: cycling_loss(3.7, 1.1, 100), "the depth of the window of charge is 1.1"),
        (lambda: cycling_loss(3.7, 0.8, -1), "the number of cycles is -1, and must not be negative"),
        (lambda: cycling_growth(3.725, 0.05, 100), "lets the resistance shrink with use"),
        (lambda: window_voltage(0.5, 0.5), "the window of charge goes from 0.5 to 0.5, and must rise"),
        (lambda: window_voltage(-0.1, 0.5), "state of charge of the window"),
        (lambda: storage_voltage(1.2), "state of charge in storage"),
        (lambda: ends_of_life(USE, LifeLimits(health=0.5)), "models go from 0.7 to below 1"),
    ],
)
def test_each_border_of_validity_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)


@given(st.floats(0, 0.95))
def test_the_root_mean_square_of_a_narrow_window_is_its_voltage(low: float) -> None:
    assert window_voltage(low, low + 1e-4) == pytest.approx(storage_voltage(low), abs=2e-3)


def test_the_root_mean_square_is_not_below_the_mean() -> None:
    assert window_voltage(0.0, 1.0) > 0.5 * (storage_voltage(0.3) + storage_voltage(0.5))


# --- years


def test_a_new_battery_is_new() -> None:
    made = after(USE, 0.0)
    assert (made.health, made.worst_health, made.best_health) == (1.0, 1.0, 1.0)
    assert (made.growth, made.worst_growth, made.best_growth) == (1.0, 1.0, 1.0)


def test_every_year_it_is_worse_and_inside_its_band() -> None:
    years = [after(USE, year) for year in range(1, 4)]
    for before, later in pairwise(years):
        assert before.health is not None
        assert later.health is not None
        assert later.health < before.health
        assert later.growth > before.growth
        assert later.worst_growth > before.worst_growth
    for year in years:
        assert year.best_health is not None
        assert year.health is not None
        assert year.best_health >= year.health >= (year.worst_health or 0)


def test_the_growth_of_the_model_lies_inside_the_published_range_of_its_band() -> None:
    # by hand: 1 + 0.5 x the loss at best, 1 + 5 x that at worst, none beyond a loss of 30 %
    year = after(USE, 1.0)
    assert year.best_health is not None
    assert year.worst_health is not None
    assert year.best_growth == pytest.approx(1 + 0.5 * (1 - year.best_health))
    assert year.worst_growth == pytest.approx(1 + 5 * (1 - year.worst_health))
    assert year.best_growth < year.growth < year.worst_growth
    assert after(USE, 20.0).worst_growth >= 2.5


def test_beyond_the_largest_loss_no_health_is_told() -> None:
    years = [after(USE, year) for year in (1, 5, 20)]
    assert years[2].health is None
    assert years[1].worst_health is None
    assert all(year.health is not None for year in years[:2])


def test_the_first_limit_is_told_first_with_its_band() -> None:
    ends = ends_of_life(USE, LifeLimits(health=0.8, growth=1.5, cycles=500, years=10))
    assert [end.limit for end in ends] == ["capacity", "resistance", "cycles", "years"]
    first = ends[0]
    assert first.earliest is not None
    assert first.latest is not None
    assert first.earliest < first.year < first.latest
    assert after(USE, first.year).health == pytest.approx(0.8, abs=1e-9)
    resistance = ends[1]
    assert resistance.earliest is not None
    assert resistance.earliest < resistance.year
    assert after(USE, resistance.earliest).worst_growth == pytest.approx(1.5, abs=1e-9)


def test_a_limit_that_is_not_reached_in_40_years_is_not_told() -> None:
    gentle = Use(1, 0.4, 0.6, 0.3, 279.0)
    assert [end.limit for end in ends_of_life(gentle, LifeLimits(health=0.7, years=12))] == ["years"]


def test_the_run_time_of_each_year_is_that_of_the_aged_cell() -> None:
    years = [after(USE, year) for year in (0, 2, 4)]
    runs = run_times(limited(CHEN, 3.0), 11.0, years)
    alone = discharge(
        limited(CHEN, 3.0), scenarios([11.0], health=years[2].health or 0, growth=years[2].growth)
    )
    assert runs.computed["time"][2] == alone.computed["time"][0]
    assert runs.computed["time"][2] < (years[2].health or 0) * runs.computed["time"][0]


def test_the_run_time_beyond_the_model_is_refused() -> None:
    with pytest.raises(OutsideRange, match="after 20 years the loss is above 30%, where no model speaks"):
        run_times(CHEN, 11.0, [after(USE, 20)])
