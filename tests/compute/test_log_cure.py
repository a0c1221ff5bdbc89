"""The log of a cure: what it comes to by hand, and what lets it be doubted."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.log_cure import cure_clock_findings, cure_doubts, cure_figures, time_above
from dossier.cure_log import CureRun

ICE = 273.15


def run(minutes: list[float], celsius: list[float], unit: str = "°C") -> CureRun:
    return CureRun(
        "cure.csv",
        tuple(range(2, len(minutes) + 2)),
        np.array(minutes) * 60.0,
        np.array(celsius) + ICE,
        unit,
    )


# by hand: from 20 to 70 °C in 50 min the line crosses 60 °C after 40 min; 10 min of it, 60 min held at
# 70 °C, and 10 of the 50 min in which it falls again
RAMP = run([0, 50, 110, 160], [20, 70, 70, 20])


def test_time_counts_from_where_the_line_between_two_rows_crosses_the_limit() -> None:
    assert time_above(RAMP, 60 + ICE) / 60 == pytest.approx(10 + 60 + 10)


def test_a_row_at_the_limit_counts() -> None:
    assert time_above(run([0, 60], [60, 60]), 60 + ICE) == 3600.0


def test_the_highest_is_that_of_the_whole_log() -> None:
    assert cure_figures(RAMP, 60 + ICE).highest == pytest.approx(70 + ICE)


def test_the_lowest_is_that_between_the_first_and_the_last_warm_row() -> None:
    dipped = run([0, 10, 20, 30, 40], [20, 61, 58, 62, 20])
    assert cure_figures(dipped, 60 + ICE).lowest == pytest.approx(58 + ICE)


def test_a_log_that_never_was_warm_has_no_lowest_and_no_time() -> None:
    figures = cure_figures(RAMP, 80 + ICE)
    assert (figures.time, figures.lowest) == (0.0, None)


def test_the_rate_of_heating_is_the_steepest_mean_over_ten_minutes() -> None:
    assert cure_figures(RAMP, 60 + ICE).heating * 60 == pytest.approx(1.0)


def test_one_row_that_jumps_is_no_rate_of_heating() -> None:
    """A row that is 1 K off, read each minute: 1 K/min from row to row, 0.1 K/min over ten minutes."""
    minutes = [float(one) for one in range(60)]
    celsius = [21.0 + (1.0 if one == 30 else 0.0) for one in range(60)]
    assert cure_figures(run(minutes, celsius), 20 + ICE).heating * 60 == pytest.approx(0.1)


def test_a_log_that_only_cools_has_no_rate_of_heating() -> None:
    assert cure_figures(run([0, 30], [70, 20]), 60 + ICE).heating == 0.0


def test_nothing_in_a_gap_is_counted() -> None:
    broken = run([0, 10, 20, 30, 90, 100], [65.0] * 6)
    assert time_above(broken, 60 + ICE) / 60 == pytest.approx(40)


def test_a_gap_is_told_with_the_row_behind_it() -> None:
    broken = run([0, 10, 20, 30, 90, 100], [65.0, 66, 65, 66, 65, 66])
    found = [*cure_doubts(broken, 60 + ICE, 70 + ICE)]
    assert [(one.code, one.place.line if one.place else 0) for one in found] == [("L004", 6)]


@pytest.mark.parametrize(("minutes", "line", "word"), [
    ([0, 10, 5, 20], 4, "goes back"), ([0, 10, 10, 20], 4, "stands still"),
])  # fmt: skip
def test_a_clock_that_steps_is_told_with_its_row(minutes: list[float], line: int, word: str) -> None:
    (found,) = cure_clock_findings(run(minutes, [65.0] * 4))
    assert (found.code, found.place.line if found.place else 0, word in found.message) == ("L003", line, True)


def test_degrees_fahrenheit_under_a_heading_in_celsius_are_told() -> None:
    """150 °F are 65.6 °C: within the cure, while 150 °C is far above it and 150 K far below ice."""
    found = [*cure_doubts(run([0, 10, 20], [300, 302, 300]), 145 + ICE, 155 + ICE)]
    assert [(one.code, "to °F" in one.help) for one in found] == [("L005", True)]


def test_celsius_under_a_heading_in_fahrenheit_is_told() -> None:
    """65 °F are 18.3 °C, below a cure at 60 °C; 65 °C are within it."""
    cold = run([0, 10, 20], [17.8, 18.3, 18.1], "°F")
    assert [(one.code, "to °C" in one.help) for one in cure_doubts(cold, 60 + ICE, 70 + ICE)] == [
        ("L005", True)
    ]


def test_a_cold_cure_in_the_right_unit_is_no_matter_of_units() -> None:
    assert [*cure_doubts(run([0, 10, 20], [17.8, 18.3, 18.1]), 60 + ICE, 70 + ICE)] == []


@pytest.mark.parametrize(("still", "told"), [(19, []), (21, ["L013"])])
def test_a_sensor_that_stands_still_over_half_of_its_log_is_told(still: int, told: list[str]) -> None:
    celsius = [65.0] * still + [65.1 + 0.1 * (one % 2) for one in range(19)]
    minutes = [float(one) for one in range(len(celsius))]
    assert [one.code for one in cure_doubts(run(minutes, celsius), 60 + ICE, 70 + ICE)] == told


@given(st.lists(st.floats(10, 90), min_size=3, max_size=30), st.floats(20, 80), st.floats(0, 10))
def test_a_higher_limit_never_counts_more_time(celsius: list[float], limit: float, more: float) -> None:
    log = run([float(one) for one in range(len(celsius))], celsius)
    assert time_above(log, limit + more + ICE) <= time_above(log, limit + ICE) + 1e-6
