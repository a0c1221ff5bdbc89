"""What is left until something is due."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.upkeep import (
    days_left,
    flight_time_at_due,
    flight_time_left,
    flights_at_due,
    flights_left,
)

HOUR, DAY = 3600.0, 86400.0
AMOUNT = st.integers(0, 10**9)


def test_a_100_hour_inspection_that_was_done_early_is_due_100_hours_after_it() -> None:
    # 14 CFR 91.409(b) counts 100 hours of time in service from the last inspection (memory); hand-made
    # numbers
    due = flight_time_at_due(1090 * HOUR, 100 * HOUR)
    assert due == 1190 * HOUR
    assert flight_time_left(due, 1185.4 * HOUR) == pytest.approx(4.6 * HOUR)


def test_what_was_flown_beyond_it_is_below_zero() -> None:
    assert flight_time_left(1190 * HOUR, 1196.4 * HOUR) == pytest.approx(-6.4 * HOUR)
    assert flights_left(150, 152) == -2


def test_on_the_last_day_of_a_period_nothing_is_left_and_nothing_is_overdue() -> None:
    assert days_left(28 * DAY, 28 * DAY) == 0


def test_the_day_after_it_one_day_is_overdue() -> None:
    assert days_left(28 * DAY, 29 * DAY) == -DAY


@given(start=AMOUNT, interval=AMOUNT, flown=AMOUNT)
def test_what_was_flown_since_and_what_is_left_make_the_interval(
    start: int, interval: int, flown: int
) -> None:
    assert flights_left(flights_at_due(start, interval), start + flown) == interval - flown
    assert flight_time_left(flight_time_at_due(start, interval), start + flown) == interval - flown
