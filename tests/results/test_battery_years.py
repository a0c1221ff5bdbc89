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


@pytest.mark.parametrize("project", NAMES)
def test_the_worst_battery_flies_shorter_than_the_best(project: str) -> None:
    pairs = [
        row.lasts
        for dossier in demo(project).values()
        for one in dossier.battery_years.years
        for row in one.rows[1:]
    ]
    both = [(worst, best) for worst, best in pairs if worst is not None and best is not None]
    assert both
    assert all(worst < best for worst, best in both)


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
