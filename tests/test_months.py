"""Adding months to a date, after Regulation (EEC, Euratom) No 1182/71, Article 3(2)(c), read."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.months import months_after

CASES = [
    ("2026-05-14", 1, "2026-06-14"),
    ("2026-01-31", 1, "2026-02-28"),  # no 31st: the last day of that month
    ("2024-01-31", 1, "2024-02-29"),
    ("2024-02-29", 12, "2025-02-28"),
    ("2024-02-29", 48, "2028-02-29"),
    ("2026-02-28", 1, "2026-03-28"),  # the same date, not the end of the month
    ("2026-10-31", 4, "2027-02-28"),
    ("2026-12-15", 1, "2027-01-15"),
    ("2026-03-31", 0, "2026-03-31"),
    ("1999-12-31", 2, "2000-02-29"),  # 2000 is a leap year, 1900 was none
]


@pytest.mark.parametrize(("start", "months", "end"), CASES)
def test_a_period_of_months_ends_on_the_same_date_or_the_last_day(start: str, months: int, end: str) -> None:
    assert months_after(date.fromisoformat(start), months) == date.fromisoformat(end)


@given(st.dates(date(1950, 1, 1), date(2100, 12, 31)), st.integers(0, 600))
def test_the_month_is_always_the_right_one(start: date, months: int) -> None:
    end = months_after(start, months)
    assert (end.year * 12 + end.month) - (start.year * 12 + start.month) == months


@given(st.dates(date(1950, 1, 1), date(2100, 12, 31)), st.integers(0, 600))
def test_the_day_is_the_same_or_the_month_has_none(start: date, months: int) -> None:
    end = months_after(start, months)
    assert end.day == start.day or (end.day < start.day and (end + timedelta(days=1)).day == 1)


@given(st.dates(date(1950, 1, 1), date(2100, 11, 30)), st.integers(0, 600))
def test_a_later_start_never_ends_earlier(start: date, months: int) -> None:
    assert months_after(start, months) <= months_after(start + timedelta(days=1), months)
