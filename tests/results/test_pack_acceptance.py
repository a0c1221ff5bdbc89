"""Batteries accepted and rejected: every criterion from a log, its uncertainty, and the fitted battery's
retirement."""

from __future__ import annotations

from math import sqrt
from pathlib import Path

import pytest
from demos import NAMES, demo
from logged_battery import ALL, CELLS, fitted, log, made

from dossier.compose.open_items import open_items
from dossier.dossier import Dossier
from dossier.findings import Rejected, Severity
from dossier.judge.decision import coverage_multiple
from dossier.results.battery_outcome import Outcome
from dossier.results.pack_verdict import CriterionHeld, PackVerdict
from dossier.results_file import as_data


def verdict(dossier: Dossier) -> PackVerdict:
    found = dossier.capacity_logs.logs[0].verdict
    assert found
    return found


def row(dossier: Dossier, name: str) -> CriterionHeld:
    return next(one for one in verdict(dossier).rows if one.name == name)


def test_a_log_that_meets_every_criterion_accepts_its_battery(tmp_path: Path) -> None:
    assert verdict(made(tmp_path, log())).outcome is Outcome.ACCEPTED


def test_an_accepted_battery_is_no_finding(tmp_path: Path) -> None:
    told = {finding.code for finding in made(tmp_path, log()).findings}
    assert not {"L012", "C007"} & told


def test_cells_far_apart_reject_it(tmp_path: Path) -> None:
    dossier = made(tmp_path, log(apart=0.4))
    assert row(dossier, "spread of the cells at rest").outcome is Outcome.REJECTED
    assert verdict(dossier).outcome is Outcome.REJECTED


def test_the_spread_is_the_highest_less_the_lowest_cell_before_the_load(tmp_path: Path) -> None:
    figure = row(made(tmp_path, log(apart=0.0123)), "spread of the cells at rest").figure
    assert figure
    assert figure.value == pytest.approx(0.0123, abs=1e-4)  # four decimals in the file


def test_the_doubt_of_the_spread_is_that_of_two_rectangular_errors(tmp_path: Path) -> None:
    # JCGM 100:2008, 4.3.7: a/sqrt(3) each; of a difference sqrt(2) times as much
    figure = row(made(tmp_path, log()), "spread of the cells at rest").figure
    assert figure
    assert figure.standard_uncertainty == pytest.approx(0.005 / sqrt(3) * sqrt(2))


def test_a_stated_error_of_the_cell_voltages_takes_the_place_of_the_usual_one(tmp_path: Path) -> None:
    figure = row(made(tmp_path, log(), cell_voltage_error="1 mV"), "spread of the cells at rest").figure
    assert figure
    assert figure.standard_uncertainty == pytest.approx(0.001 / sqrt(3) * sqrt(2))


@pytest.mark.parametrize(("apart", "expected"), [
    (0.0225, Outcome.ACCEPTED), (0.0240, Outcome.CLOSE), (0.0360, Outcome.CLOSE), (0.0375, Outcome.REJECTED),
])  # fmt: skip
def test_the_guard_band_parts_accepted_from_too_close_to_tell(
    tmp_path: Path, apart: float, expected: Outcome
) -> None:
    # 95 % one-sided: 1.645 standard uncertainties (JCGM 106:2012, 8.3) of 4.08 mV are 6.7 mV beside the 30 mV
    assert coverage_multiple(0.95) * 0.005 / sqrt(3) * sqrt(2) == pytest.approx(0.0067, abs=5e-5)
    assert row(made(tmp_path, log(apart=apart)), "spread of the cells at rest").outcome is expected


def test_cells_of_75_degrees_reject_it(tmp_path: Path) -> None:
    dossier = made(tmp_path, log(hottest=75.0))
    assert row(dossier, "highest temperature").outcome is Outcome.REJECTED


def test_a_degree_below_the_limit_is_too_close_to_tell(tmp_path: Path) -> None:
    # 2 °C between sensor and middle of a cell, rectangular: 1.15 °C, guarded 1.9 °C
    assert row(made(tmp_path, log(hottest=59.0)), "highest temperature").outcome is Outcome.CLOSE


def test_a_log_without_cells_shows_no_spread(tmp_path: Path) -> None:
    dossier = made(tmp_path, log(cells=False))
    assert row(dossier, "spread of the cells at rest").outcome is Outcome.NOT_SHOWN
    assert verdict(dossier).outcome is Outcome.NOT_SHOWN


def test_a_log_without_temperature_shows_none(tmp_path: Path) -> None:
    assert row(made(tmp_path, log(temperature=False)), "highest temperature").outcome is Outcome.NOT_SHOWN


def test_the_capacity_is_a_part_of_the_nominal_one(tmp_path: Path) -> None:
    dossier = made(tmp_path, log())
    figure = row(dossier, "capacity").figure
    assert figure
    # 14 strings of 4.9 Ah
    logged = dossier.figures["logged_capacity.test_1"].value / 3600
    assert figure.value == pytest.approx(logged / (14 * 4.9))


def test_the_energy_is_a_part_of_the_nameplate_energy(tmp_path: Path) -> None:
    dossier = made(tmp_path, log())
    figure = row(dossier, "energy of the test").figure
    assert figure
    logged = dossier.figures["logged_energy.test_1"].value
    assert figure.value == pytest.approx(logged / (14 * 14 * 4.9 * 3600 * 3.6))  # 3.6 V nominal


def test_the_growth_of_the_resistance_by_hand(tmp_path: Path) -> None:
    figure = row(made(tmp_path, log()), "resistance over that when new").figure
    assert figure
    # step from 58.10 V to 57.40 V at 20 A; new cells: 0.625 of the table at the start, at 20 °C
    inputs = figure.working.inputs
    assert inputs["R"].value == pytest.approx((58.10 - 57.40) / 20, rel=1e-6)  # type: ignore[union-attr]
    without = inputs["R_w"].value  # type: ignore[union-attr]
    expected = (inputs["R"].value - without) / (inputs["R_t"].value - without)  # type: ignore[union-attr]
    assert figure.value == pytest.approx(expected)


def test_a_log_that_is_not_trusted_counts_nothing_but_keeps_its_hot_cells(tmp_path: Path) -> None:
    text = log(hottest=75.0).replace("\n0,58.10", "\n0,50.10")
    dossier = made(tmp_path, text)
    assert not dossier.capacity_logs.logs[0].acceptance.accepted
    assert row(dossier, "capacity").outcome is Outcome.NOT_SHOWN
    assert row(dossier, "highest temperature").outcome is Outcome.REJECTED


def test_a_rejected_fitted_battery_is_a_warning_with_the_number(tmp_path: Path) -> None:
    told = [one for one in made(tmp_path, log(apart=0.4)).findings if one.code == "L012"]
    assert [one.severity for one in told] == [Severity.WARNING]
    assert "400.0\u00a0mV" in told[0].message


def test_nothing_asked_judges_nothing(tmp_path: Path) -> None:
    assert made(tmp_path, log(apart=0.4), asked={}).capacity_logs.logs[0].verdict is None


def test_a_limit_of_another_kind_refuses_the_record(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, log(), asked={"hottest_limit": "apart"})
    assert "P011" in {one.code for one in refused.value.findings}


def test_a_limit_that_is_not_there_refuses_the_record(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, log(), asked={"hottest_limit": "hotest"})
    assert "P010" in {one.code for one in refused.value.findings}


def test_some_of_the_cells_refuse_the_record(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, log(), cells=CELLS[:5])
    assert "P045" in {one.code for one in refused.value.findings}


# --- retirement of the fitted battery


@pytest.mark.parametrize(("capacity", "expected"), [
    ("41.2 Ah ± 0.8 Ah", Outcome.REJECTED),  # 60 % of 14 x 4.9 Ah
    ("58.3 Ah ± 1 Ah", Outcome.CLOSE),  # 85.0 %
    ("66 Ah ± 1 Ah", Outcome.ACCEPTED),  # 96 %
])  # fmt: skip
def test_the_fitted_battery_is_held_against_its_retirement(
    tmp_path: Path, capacity: str, expected: Outcome
) -> None:
    dossier = fitted(tmp_path, measured_capacity=capacity)
    held = next(pack.retirement for pack in dossier.packs if pack.retirement)
    assert held.outcome is expected
    assert ("C007" in {one.code for one in dossier.findings}) is (expected is not Outcome.ACCEPTED)


def test_a_health_of_60_percent_without_uncertainty_is_below(tmp_path: Path) -> None:
    assert "C007" in {one.code for one in fitted(tmp_path, health="60 %").findings}


def test_a_good_health_without_uncertainty_is_not_shown(tmp_path: Path) -> None:
    held = next(pack.retirement for pack in fitted(tmp_path, health="97 %").packs if pack.retirement)
    assert held.outcome is Outcome.NOT_SHOWN
    assert "no uncertainty" in held.why


def test_a_battery_that_nobody_measured_is_not_shown(tmp_path: Path) -> None:
    held = next(pack.retirement for pack in fitted(tmp_path).packs if pack.retirement)
    assert (held.outcome, held.why) == (Outcome.NOT_SHOWN, "nobody measured its capacity")


def test_without_a_limit_the_habit_of_80_percent_is_named_as_such(tmp_path: Path) -> None:
    dossier = fitted(tmp_path, use=False, measured_capacity="41.2 Ah ± 0.8 Ah")
    held = next(pack.retirement for pack in dossier.packs if pack.retirement)
    assert held.limit == 0.8
    assert "common practice, no source" in held.limit_words


# --- demonstrations


@pytest.mark.parametrize("project", NAMES)
def test_every_fitted_battery_of_the_demonstrations_is_accepted_by_its_latest_test(project: str) -> None:
    for dossier in demo(project).values():
        latest = [dossier.capacity_logs.latest[str(one.pack)].verdict for one in dossier.state.packs]
        assert latest
        assert all(one and one.outcome is Outcome.ACCEPTED for one in latest)


def test_the_retired_battery_of_a_demonstration_was_rejected_for_capacity_and_spread() -> None:
    logs = [one for one in demo("quillet-e1")["0002"].capacity_logs.logs if str(one.event.pack) == "FM-L-003"]
    last = logs[-1].verdict
    assert last
    assert {one.name for one in last.rows if one.outcome is Outcome.REJECTED} == {
        "capacity", "spread of the cells at rest"
    }  # fmt: skip


def test_results_hold_every_criterion_with_its_figure(tmp_path: Path) -> None:
    data = as_data(made(tmp_path, log()))
    rows = next(table["rows"] for table in data["tables"] if table["name"] == "battery_acceptance")
    assert len(rows) == len(ALL)
    assert all(one["figure"] in data["figures"] for one in rows)


# --- on the cover


def test_a_fitted_battery_below_its_retirement_stands_on_the_cover_as_known_to_be_wrong(
    tmp_path: Path,
) -> None:
    items = [
        one
        for one in open_items(fitted(tmp_path, measured_capacity="41.2 Ah ± 0.8 Ah"))
        if "P-1" in one.subject
    ]
    assert [(one.state, one.fails) for one in items] == [("below the limit", True)]


def test_one_too_close_to_its_retirement_stands_there_as_open(tmp_path: Path) -> None:
    items = [
        one
        for one in open_items(fitted(tmp_path, measured_capacity="58.3 Ah ± 1 Ah"))
        if "P-1" in one.subject
    ]
    assert [(one.state, one.fails) for one in items] == [("too close to tell", False)]


def test_what_a_test_rejects_stands_on_the_cover(tmp_path: Path) -> None:
    items = [one for one in open_items(made(tmp_path, log(apart=0.4))) if "latest test" in one.subject]
    assert [(one.state, one.fails) for one in items] == [("rejected", True)]
