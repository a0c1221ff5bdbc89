"""Adding calendar months to a date."""

from __future__ import annotations

from calendar import monthrange
from datetime import date


def months_after(start: date, months: int) -> date:
    """Return the last day of a period of so many months from a day.

    It falls on the same day of the month; where that month has no such day, on its last one. A chain of
    periods is not one long period: a month from 31 January is 28 February, and a month on is 28 March.

    Args:
        start: the day of the event; it is not part of the period.
        months: 0 or more.

    Source: Regulation (EEC, Euratom) No 1182/71, Article 3(2)(c).
    """
    year, month = divmod(start.year * 12 + start.month - 1 + months, 12)
    return date(year, month + 1, min(start.day, monthrange(year, month + 1)[1]))
