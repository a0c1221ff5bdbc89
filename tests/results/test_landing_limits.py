"""Limits at which to land beside the reserve: on a demonstration aircraft none gives the reserve away."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from demos import demo
from sample_project import Draft, pack_fitted, support, weighing

from dossier.compose.cover_figures import cards
from dossier.compose.gauge_card import pages
from dossier.compose.printer import Printer
from dossier.dossier import Dossier
from dossier.findings import Rejected
from dossier.results.landing_limits import LandingLimit

ALL = pytest.mark.parametrize("project", ["quillet-e1", "barrow-t2"])


def landing_at(folder: Path, **limits: str) -> Dossier:
    """Make the starter project, weighed, with limits at which to land: ``charge`` or ``voltage``."""
    made = Draft()
    use: dict[str, Any] = {
        "hours_per_year": "40 h", "flights_per_year": 60, "charge_before_flight": "95 %",
        "charge_after_flight": "20 %", "storage_charge": "50 %", "storage_temperature": "15 °C",
    }  # fmt: skip
    for kind, value in limits.items():
        made.aircraft["limits"][f"land_{kind}"] = {"name": f"Land by {kind}", "value": value, "reason": "own"}
        use[f"landing_{kind}_limit"] = f"land_{kind}"
    made.aircraft["use"] = use
    made.record["events"] = [
        pack_fitted("P-1", "18.4 kg"),
        weighing(
            support("left", "54 kg", arm="0.35 m"),
            support("right", "54 kg", arm="0.35 m"),
            support("tail", "11 kg", arm="3.6 m"),
        ),
    ]
    return made.make(folder)


def only(dossier: Dossier) -> LandingLimit:
    (one,) = dossier.modelled.landing
    return one


def codes(dossier: Dossier) -> list[str]:
    return [finding.code for finding in dossier.findings if finding.code in ("D010", "D011")]


@ALL
def test_no_limit_of_a_demonstration_aircraft_gives_the_reserve_away(project: str) -> None:
    found = [one for dossier in demo(project).values() for one in dossier.modelled.landing]
    assert found
    assert [one for one in found if one.gives_away] == []


def test_both_limits_of_the_barrow_are_reached_together() -> None:
    by_charge, by_voltage = demo("barrow-t2")["T2-007"].modelled.landing
    assert by_voltage.charge == pytest.approx(by_charge.charge, abs=0.005)


def test_a_limit_below_the_reserve_is_a_warning(tmp_path: Path) -> None:
    assert codes(landing_at(tmp_path, charge="20 %")) == ["D010"]


def test_a_limit_above_the_reserve_is_a_note_with_the_minutes(tmp_path: Path) -> None:
    dossier = landing_at(tmp_path, charge="60 %")
    assert codes(dossier) == ["D011"]
    (card,) = dossier.modelled.gauges
    row = next(line for line in card.lines if line.name == "land")
    assert only(dossier).early == pytest.approx(row.time_to_reserve)


def test_a_limit_on_the_reserve_is_told_by_no_finding(tmp_path: Path) -> None:
    reserve = only(landing_at(tmp_path / "first", charge="60 %")).reserve
    assert codes(landing_at(tmp_path / "second", charge=f"{100 * reserve:.1f} %")) == []


def test_a_limit_on_the_reserve_shares_its_row(tmp_path: Path) -> None:
    reserve = only(landing_at(tmp_path / "first", charge="60 %")).reserve
    (card,) = landing_at(tmp_path / "second", charge=f"{100 * reserve:.1f} %").modelled.gauges
    assert [line.name for line in card.lines if "land" in line.name] == ["reserve, land"]


def test_a_voltage_is_looked_up_in_level_flight(tmp_path: Path) -> None:
    (card,) = landing_at(tmp_path / "first", charge="60 %").modelled.gauges
    row = next(line for line in card.lines if line.name == "land")
    volts = f"{row.loaded_voltage:.4f} V"
    assert only(landing_at(tmp_path / "second", voltage=volts)).charge == pytest.approx(0.6, abs=0.02)


def test_a_voltage_below_the_card_leaves_no_reserve(tmp_path: Path) -> None:
    one = only(landing_at(tmp_path, voltage="20 V"))
    assert one.gives_away


@pytest.mark.parametrize("limits", [{"charge": "40 V"}, {"voltage": "40 %"}, {"charge": "100 %"}])
def test_a_limit_of_another_kind_is_refused(limits: dict[str, str], tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        landing_at(tmp_path, **limits)
    assert [finding.code for finding in refused.value.findings] == ["P011"]


def test_a_limit_that_is_not_there_is_refused(tmp_path: Path) -> None:
    made = Draft()
    made.aircraft["use"] = {
        "hours_per_year": "40 h", "flights_per_year": 60, "charge_before_flight": "95 %",
        "charge_after_flight": "20 %", "storage_charge": "50 %", "storage_temperature": "15 °C",
        "landing_charge_limit": "nowhere",
    }  # fmt: skip
    with pytest.raises(Rejected, match="1 problem"):
        made.make(tmp_path)


def test_the_card_says_where_the_limit_lies() -> None:
    (page,) = pages(demo("barrow-t2")["T2-007"])
    words = page.text.replace("\u00a0", " ")
    assert "Charge at which to land, 35 %: on this card at 35 % and 80.9 V in level flight, 3 min" in words


def test_the_card_shows_what_the_ammeter_shows() -> None:
    dossier = demo("barrow-t2")["T2-007"]
    (page,) = pages(dossier)
    (card,) = dossier.modelled.gauges
    assert "In level flight, A" in page.text
    assert f">{card.power / card.lines[0].loaded_voltage:.0f}<" in page.text


def test_the_cover_says_how_much_of_the_endurance_lies_below_the_limit() -> None:
    dossier = demo("barrow-t2")["T2-007"]
    conditions = " ".join(one.condition for one in cards(Printer(dossier, "index.md")))
    assert "the last 3 min below the limit: Charge at which to land, 35 %" in conditions
