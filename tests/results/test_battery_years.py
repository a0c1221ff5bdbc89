"""The years of a battery from the stated use."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from demos import NAMES, demo
from sample_project import Draft

USE = {
    "hours_per_year": "40 h",
    "flights_per_year": "60",
    "charge_before_flight": "95 %",
    "charge_after_flight": "20 %",
    "storage_charge": "50 %",
    "storage_temperature": "15 °C",
}


@pytest.mark.parametrize("project", NAMES)
def test_the_range_widens_with_the_years_and_holds_the_likely_value(project: str) -> None:
    years = [one for dossier in demo(project).values() for one in dossier.battery_years.years]
    assert years
    for one in years:
        full = [row for row in one.rows if row.worst is not None]
        assert full[0].likely == 1.0
        for row in full:
            assert row.worst is not None
            assert row.likely is not None
            assert row.best is not None
            assert row.worst <= row.likely <= row.best
        likely = [row.likely for row in full if row.likely is not None]
        assert all(after < before for before, after in pairwise(likely))


def lasting(project: str) -> list[tuple[float | None, float | None]]:
    """Return level flight by year, at worst and at best, of all batteries of a project."""
    return [
        row.lasts
        for dossier in demo(project).values()
        for one in dossier.battery_years.years
        for row in one.rows[1:]
    ]


@pytest.mark.parametrize("project", NAMES)
def test_the_worst_battery_flies_shorter_than_the_best_or_not_at_all(project: str) -> None:
    best = [pair for pair in lasting(project) if pair[1] is not None]
    assert best
    assert all(worst is None or worst < longest for worst, longest in best if longest is not None)


def test_the_worst_battery_of_the_smaller_aircraft_still_flies_level() -> None:
    both = [pair for pair in lasting("quillet-e1") if None not in pair]
    assert both


@pytest.mark.parametrize("project", NAMES)
def test_the_range_holds_the_second_model_where_it_is_asked(project: str) -> None:
    years = [one for dossier in demo(project).values() for one in dossier.battery_years.years if one.rates]
    assert years
    for one in years:
        assert one.rates is not None
        assert one.rates.left_out == ""
        seen = [row for row in one.rows if row.second is not None]
        assert len(seen) > 3
        assert all(row.worst is None or row.worst <= (row.second or 0) for row in seen)


@pytest.mark.parametrize("project", NAMES)
def test_the_cycles_by_the_rate_go_from_the_slowest_to_the_fastest_with_the_mean_of_the_use(
    project: str,
) -> None:
    for dossier in demo(project).values():
        use = dossier.project.aircraft.use
        assert use is not None
        used = use.flights_per_year * (use.charge_before_flight.value - use.charge_after_flight.value)
        for one in dossier.battery_years.years:
            assert one.rates is not None
            rates = [row.rate for row in one.rates.rows]
            assert rates == sorted(rates)
            assert {row.time for row in one.rates.rows} == {None, 7200.0, 3600.0, 1800.0, 1200.0}
            (own,) = (row.rate for row in one.rates.rows if row.time is None)
            assert own == pytest.approx(used / (use.hours_per_year.value / 3600))


def test_without_a_use_there_are_no_years(tmp_path: Path) -> None:
    assert Draft().make(tmp_path).battery_years.years == ()


def test_a_cell_without_a_model_of_ageing_gets_words_and_its_charging(tmp_path: Path) -> None:
    draft = Draft()
    draft.aircraft["use"] = USE
    (one,) = draft.make(tmp_path).battery_years.years
    assert one.rows == ()
    assert one.words == ("The record names no model of ageing for this cell: no years are estimated.",)
    assert one.charging is not None


def test_a_model_of_ageing_of_nmc_cells_says_nothing_of_another_chemistry(tmp_path: Path) -> None:
    draft = Draft()
    draft.aircraft["use"] = USE
    draft.battery["cells"]["cell-a"] |= {"ageing_model": "schmalstieg-2014", "chemistry": "lithium-nca"}
    (one,) = draft.make(tmp_path).battery_years.years
    assert one.rows == ()
    assert one.words == (
        "The model of ageing that the record names is one of NMC cells: no years are estimated.",
    )


@pytest.mark.parametrize("project", NAMES)
def test_the_growth_of_resistance_has_a_range_that_rises_and_holds_the_likely_one(project: str) -> None:
    years = [one for dossier in demo(project).values() for one in dossier.battery_years.years]
    rows = [(before, row) for one in years for before, row in pairwise(one.rows)]
    assert rows
    for before, row in rows:
        assert row.best_growth <= row.growth <= row.worst_growth
        assert row.worst_growth >= before.worst_growth
        assert row.best_growth > before.best_growth


def test_a_full_battery_in_storage_is_remarked(tmp_path: Path) -> None:
    draft = Draft()
    draft.aircraft["use"] = {**USE, "storage_charge": "100 %"}
    assert "D005" in {finding.code for finding in draft.make(tmp_path).findings}


def test_a_use_too_slow_for_the_second_model_leaves_it_out_and_says_why(tmp_path: Path) -> None:
    draft = Draft()
    draft.aircraft["use"] = {**USE, "hours_per_year": "200 h"}
    draft.battery["cells"]["cell-a"] |= {"ageing_model": "schmalstieg-2014", "chemistry": "lithium-nmc"}
    (one,) = draft.make(tmp_path).battery_years.years
    assert one.rates is not None
    assert one.rates.left_out.startswith("the rate is 0.225 capacities an hour")
    assert [row.second for row in one.rows] == [None] * len(one.rows)
    (own,) = (row for row in one.rates.rows if row.time is None)
    assert own.cycles[1] is None
