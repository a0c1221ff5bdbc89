"""What a serial has to say to the rules of thumb of the trade."""

from __future__ import annotations

from pathlib import Path

import pytest
from demos import demo
from sample_project import Draft, pack_fitted, support, weighing

from dossier.compose.claims import pages
from dossier.dossier import Dossier
from dossier.judge.trade_facts import Agreement, HeldRule

HOUR = 3600.0


@pytest.fixture(scope="module")
def barrow() -> Dossier:
    return demo("barrow-t2")["T2-007"]


def rule(made: Dossier, key: str) -> HeldRule:
    return next(one for one in made.trade_rules if one.rule.key == key)


def weighed() -> Draft:
    made = Draft()
    made.events.extend([pack_fitted("P-1", "18.4 kg"), weighing(support("a", "82 kg", arm="0.35 m"))])
    return made


def test_marks_are_those_of_18_of_its_cells(barrow: Dossier) -> None:
    # 4.15 V and 3.20 V a cell stand in battery.yaml
    assert rule(barrow, "full_of_18").own.low == pytest.approx(18 * 4.15)
    assert rule(barrow, "empty_of_18").own.low == pytest.approx(18 * 3.20)


def test_sustaining_is_held_by_level_power_over_full_throttle(barrow: Dossier) -> None:
    one = rule(barrow, "sustain_share")
    assert one.own.low == pytest.approx(barrow.figures[one.own.figure].value / 24e3)


def test_half_a_box_is_held_by_the_energy_where_the_model_has_no_answer(barrow: Dossier) -> None:
    one = rule(barrow, "half_pack")
    largest, half = barrow.part_filled.fillings[:2]
    assert half.modelled is None
    assert half.by_energy is not None
    assert largest.by_energy is not None
    assert one.own.low == pytest.approx(half.by_energy / largest.by_energy)
    assert half.why in one.own.words


def test_800_cycles_of_two_hours_are_1600_hours_at_the_stated_hours_of_a_year(barrow: Dossier) -> None:
    use = barrow.project.aircraft.use
    assert use is not None
    years = 1600 / (use.hours_per_year.value / HOUR)
    assert rule(barrow, "cycles_in_years").own.low == pytest.approx(years * 365 * 86400)


def test_what_remains_is_the_range_of_the_table_of_years(barrow: Dossier) -> None:
    one = rule(barrow, "remaining")
    of = next(each for each in barrow.battery_years.years if each.option == barrow.battery_of_lists)
    row = next(each for each in of.rows if each.year == 7)
    assert (one.own.low, one.own.high) == (row.worst or 0.0, row.best)


def test_half_a_box_that_flies_is_held_by_the_discharge_model(tmp_path: Path) -> None:
    draft = weighed()
    draft.aircraft["profile"] = [{"name": "Cruise", "kind": "cruise", "power": "2 kW"}]
    one = rule(draft.make(tmp_path), "half_pack")
    assert one.own.words.endswith("by the discharge model")
    assert one.result is Agreement.INSIDE


def test_time_in_the_air_over_the_plain_quotient(tmp_path: Path) -> None:
    # level flight alone: of the nameplate energy what lies between the limits is left, less the losses
    draft = weighed()
    draft.aircraft["profile"] = [{"name": "Cruise", "kind": "cruise", "power": "2 kW"}]
    made = draft.make(tmp_path)
    energy = [
        made.figures[f"{name}.standard-pack"].value for name in ("deliverable_energy", "nameplate_energy")
    ]
    assert rule(made, "flight_of_quotient").own.low == pytest.approx(energy[0] / energy[1])


def test_a_record_without_weighing_and_use_says_what_is_missing(tmp_path: Path) -> None:
    made = Draft().make(tmp_path)
    missing = {one.rule.key: one.own.missing for one in made.trade_rules if one.own.missing}
    assert missing["sustain_share"] == "no flight of the profile can be computed"
    assert missing["half_pack"] == "the aircraft has not been weighed"
    assert missing["cycles_in_years"] == "the type states no use (use: in aircraft.yaml)"
    assert {"remaining", "cycles_by_rate", "petrol"} <= set(missing)


def test_the_page_has_every_rule_and_says_that_none_has_a_source(barrow: Dossier) -> None:
    text = pages(barrow)[0].text
    assert "Rules of thumb of the trade, each common practice, no source" in text
    assert all(one.rule.says in text for one in barrow.trade_rules)
