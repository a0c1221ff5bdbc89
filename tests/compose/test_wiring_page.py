"""The page of wiring and fuses, and the tests of capacity on that of the battery."""

from __future__ import annotations

from dataclasses import replace

import pytest
from packet_reading import SERIALS, composed, made, text_of

from dossier.compose import wiring

PAGE, BATTERY = "wiring.md", "battery.md"
everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])


@everyone
def test_the_page_says_that_it_is_no_approval(project: str, number: str) -> None:
    assert "Guidance from published tables, not an approval." in text_of(project, number, PAGE)


@everyone
def test_every_comparison_stands_on_the_page_with_what_it_rests_on(project: str, number: str) -> None:
    text = text_of(project, number, PAGE)
    checks = made(project, number).wiring.checks
    assert f"{len(checks)} comparisons" in text
    assert all(check.basis in text and check.subject in text for check in checks)


@everyone
def test_every_current_of_a_phase_leads_to_its_sheet(project: str, number: str) -> None:
    page = next(page for page in composed(project, number).pages if page.path == PAGE)
    for one in made(project, number).wiring.currents:
        for phase in one.phases:
            assert f'href="working/wiring.md#{phase.current.name}"' in page.text


def test_a_phase_beyond_the_model_says_that_the_most_stands_there() -> None:
    text = text_of("barrow-t2", "T2-007", PAGE)
    assert "Where a star stands the discharge model has no answer" in text


def test_a_table_that_does_not_reach_is_no_pass() -> None:
    text = text_of("barrow-t2", "T2-007", PAGE)
    assert "More than the table; its maker's rating stands for it" in text
    assert "Not covered" in text


def test_a_record_without_wiring_has_no_page() -> None:
    dossier = made("quillet-e1", "0003")
    assert [page.path for page in wiring.pages(dossier)] == [PAGE]
    bare = replace(dossier.project, battery=dossier.project.battery.model_copy(update={"wiring": None}))
    assert wiring.pages(replace(dossier, project=bare)) == ()


# --- tests of capacity


def test_measured_and_computed_energy_stand_side_by_side_with_their_difference() -> None:
    log = made("barrow-t2", "T2-007").capacity_logs.logs[0]
    energy, resistance = log.compared
    assert (energy.quantity, resistance.quantity) == ("energy", "resistance")
    page = next(page for page in composed("barrow-t2", "T2-007").pages if page.path == BATTERY)
    for pair in log.compared:
        for figure in pair.figures:
            assert f'href="working/capacity-tests.md#{figure.name}"' in page.text


def test_what_does_not_follow_is_said() -> None:
    text = text_of("barrow-t2", "T2-007", BATTERY)
    assert "of the voltage at full power it shows nothing" in text
    assert "At 18 to 23 °C by the log" in text
    assert "From 96.7 to 8.3 % of the charge" in text
