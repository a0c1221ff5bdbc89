"""The life of one aircraft through its record: weighings, changes, batteries in and out, cut at a date."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from sample_project import Draft, Tree, event, item, pack_fitted, pack_removed, support, weighing

from dossier.dossier import Dossier
from dossier.model.events import EquipmentChange, Inspection, Weighing

BARE = "empty_mass.without_battery"


def weighed(mass: float, arm: float, on: str) -> Tree:
    return weighing(support("all", f"{mass} kg", arm=f"{arm} m"), on=on)


def fitted(mass: float, arm: float, on: str, **more: str) -> Tree:
    return event("equipment-change", on, fitted=[item("thing", f"{mass} kg", f"{arm} m")], **more)


def removed(mass: float, arm: float, on: str, **more: str) -> Tree:
    return event("equipment-change", on, removed=[item("thing", f"{mass} kg", f"{arm} m")], **more)


def life(folder: Path, *events: Tree, as_of: str | None = None) -> Dossier:
    draft = Draft()
    draft.events.extend(events)
    return draft.make(folder, as_of)


# --- weighings and changes of equipment


def test_a_second_weighing_supersedes_the_first(tmp_path: Path) -> None:
    made = life(tmp_path, weighed(100, 0.5, "2026-03-01"), weighed(104, 0.6, "2026-04-01"))
    assert made.figures[BARE].value == pytest.approx(104)
    assert made.figures["empty_cg.without_battery"].value == pytest.approx(0.6)


def test_a_second_weighing_closes_the_chain_of_changes(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        weighed(100, 0.5, "2026-03-01"),
        fitted(3, 1.0, "2026-03-02"),
        weighed(104, 0.6, "2026-04-01"),
    )
    assert made.state.changes == ()
    assert made.figures[BARE].value == pytest.approx(104)


def test_something_fitted_adds_its_mass_and_moment(tmp_path: Path) -> None:
    made = life(tmp_path, weighed(100, 0.5, "2026-03-01"), fitted(25, 1.0, "2026-03-02"))
    assert made.figures[BARE].value == pytest.approx(125)
    assert made.figures["empty_cg.without_battery"].value == pytest.approx((50 + 25) / 125)


def test_something_removed_takes_its_mass_and_moment_away(tmp_path: Path) -> None:
    made = life(tmp_path, weighed(100, 0.5, "2026-03-01"), removed(20, 1.0, "2026-03-02"))
    assert made.figures[BARE].value == pytest.approx(80)
    assert made.figures["empty_cg.without_battery"].value == pytest.approx((50 - 20) / 80)


def test_changes_add_up_after_a_weighing(tmp_path: Path) -> None:
    made = life(
        tmp_path, weighed(100, 0.5, "2026-03-01"), fitted(5, 1.0, "2026-03-02"), removed(2, 0.1, "2026-03-03")
    )
    assert made.figures[BARE].value == pytest.approx(103)
    assert made.empty is not None
    assert [row.mass.value for row in made.empty.rows] == [5, -2]


def test_a_change_before_the_weighing_is_in_the_readings_and_counts_no_second_time(tmp_path: Path) -> None:
    made = life(tmp_path, fitted(5, 1.0, "2026-02-01"), weighed(100, 0.5, "2026-03-01"))
    assert made.figures[BARE].value == pytest.approx(100)


def test_a_fitted_item_of_the_type_joins_the_list_of_the_design(tmp_path: Path) -> None:
    draft = Draft()
    draft.record["items_left_out"] = ["parachute"]
    draft.events.extend([weighed(100, 0.5, "2026-03-01"), fitted(9.5, 0.3, "2026-03-02", item="parachute")])
    with_it = draft.make(tmp_path)
    without_it = draft.make(tmp_path, as_of="2026-03-01")
    gained = (
        with_it.figures["designed_mass.without_battery"].value
        - without_it.figures["designed_mass.without_battery"].value
    )
    assert gained == pytest.approx(9.5)


def test_a_removed_item_of_the_type_leaves_the_list_of_the_design(tmp_path: Path) -> None:
    made = life(tmp_path, weighed(100, 0.5, "2026-03-01"), removed(9.5, 0.3, "2026-03-02", item="parachute"))
    assert made.state.left_out == {"parachute"}


# --- batteries


def test_the_battery_aboard_when_weighed_is_taken_off_the_bare_mass(tmp_path: Path) -> None:
    made = life(tmp_path, pack_fitted("P-1", "18 kg"), weighed(118, 0.5, "2026-03-01"))
    assert made.figures[BARE].value == pytest.approx(100)
    assert made.figures["empty_mass"].value == pytest.approx(118)


def test_a_battery_that_comes_out_leaves_the_bare_aircraft(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        pack_fitted("P-1", "18 kg"),
        weighed(118, 0.5, "2026-03-01"),
        pack_removed("P-1", "2026-03-02"),
    )
    assert made.state.packs == ()
    assert "empty_mass" not in made.figures
    assert made.figures[BARE].value == pytest.approx(100)


def test_a_battery_in_the_place_of_another_counts_with_its_own_mass(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        pack_fitted("P-1", "18 kg"),
        weighed(118, 0.5, "2026-03-01"),
        pack_removed("P-1", "2026-03-02"),
        pack_fitted("P-2", "19 kg", "2026-03-02"),
    )
    assert made.figures["empty_mass"].value == pytest.approx(119)


def test_a_battery_fitted_after_the_weighing_is_not_taken_off(tmp_path: Path) -> None:
    made = life(tmp_path, weighed(100, 0.5, "2026-03-01"), pack_fitted("P-1", "18 kg", "2026-03-02"))
    assert made.figures[BARE].value == pytest.approx(100)
    assert made.figures["empty_mass"].value == pytest.approx(118)


def test_a_battery_at_its_own_arm_moves_the_centre(tmp_path: Path) -> None:
    made = life(
        tmp_path, weighed(100, 0.5, "2026-03-01"), pack_fitted("P-1", "25 kg", "2026-03-02", arm="1.0 m")
    )
    assert made.figures["empty_cg"].value == pytest.approx((50 + 25) / 125)


def test_a_battery_that_was_moved_in_the_bay_counts_at_its_new_arm(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        weighed(100, 0.5, "2026-03-01"),
        pack_fitted("P-1", "25 kg", "2026-03-02", arm="1.0 m"),
        pack_removed("P-1", "2026-03-03"),
        pack_fitted("P-1", "25 kg", "2026-03-03", arm="0.5 m"),
    )
    assert made.figures["empty_cg"].value == pytest.approx(0.5)


def test_a_battery_without_its_own_arm_counts_at_the_arm_of_the_design(tmp_path: Path) -> None:
    made = life(tmp_path, weighed(100, 0.5, "2026-03-01"), pack_fitted("P-1", "25 kg", "2026-03-02"))
    assert made.figures["empty_cg"].value == pytest.approx((50 + 25 * 0.25) / 125)


def test_the_error_of_a_battery_that_stays_aboard_cancels(tmp_path: Path) -> None:
    made = life(tmp_path, pack_fitted("P-1", "18 kg ± 0.4 kg"), weighed(118, 0.5, "2026-03-01"))
    assert made.figures[BARE].standard_uncertainty == pytest.approx(0.2)
    assert made.figures["empty_mass"].standard_uncertainty == pytest.approx(0, abs=1e-12)


def test_the_error_of_a_battery_that_was_swapped_out_and_back_cancels(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        pack_fitted("P-1", "18 kg ± 0.4 kg"),
        weighed(118, 0.5, "2026-03-01"),
        pack_removed("P-1", "2026-03-02"),
        pack_fitted("P-2", "19 kg ± 0.4 kg", "2026-03-02"),
        pack_removed("P-2", "2026-03-03"),
        pack_fitted("P-1", "18 kg ± 0.4 kg", "2026-03-03"),
    )
    assert made.figures["empty_mass"].standard_uncertainty == pytest.approx(0, abs=1e-12)


def test_the_errors_of_two_batteries_do_not_cancel(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        pack_fitted("P-1", "18 kg ± 0.4 kg"),
        weighed(118, 0.5, "2026-03-01"),
        pack_removed("P-1", "2026-03-02"),
        pack_fitted("P-2", "18 kg ± 0.4 kg", "2026-03-02"),
    )
    assert made.figures["empty_mass"].standard_uncertainty == pytest.approx(0.2 * 2**0.5)


def test_a_battery_weighed_anew_has_a_new_error(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        pack_fitted("P-1", "18 kg ± 0.4 kg"),
        weighed(118, 0.5, "2026-03-01"),
        pack_removed("P-1", "2026-03-02"),
        pack_fitted("P-1", "18.1 kg ± 0.4 kg", "2026-03-03"),
    )
    assert made.figures["empty_mass"].standard_uncertainty == pytest.approx(0.2 * 2**0.5)


def test_a_retired_battery_is_remembered(tmp_path: Path) -> None:
    made = life(tmp_path, pack_fitted("P-1", "18 kg"), pack_removed("P-1", "2026-03-02", retired=True))
    assert made.state.retired == ("P-1",)


def test_a_battery_that_was_only_taken_out_is_not_retired(tmp_path: Path) -> None:
    made = life(tmp_path, pack_fitted("P-1", "18 kg"), pack_removed("P-1", "2026-03-02"))
    assert made.state.retired == ()


# --- dates


@pytest.mark.parametrize(
    ("as_of", "mass"), [("2026-03-01", 100), ("2026-03-14", 100), ("2026-03-15", 105), ("2026-04-01", 200)]
)
def test_a_date_cuts_the_life_after_itself(as_of: str, mass: float, tmp_path: Path) -> None:
    made = life(
        tmp_path,
        weighed(100, 0.5, "2026-03-01"),
        fitted(5, 1.0, "2026-03-15"),
        weighed(200, 0.5, "2026-04-01"),
        as_of=as_of,
    )
    assert made.figures[BARE].value == pytest.approx(mass)


def test_before_the_first_weighing_there_is_no_mass_and_a_warning(tmp_path: Path) -> None:
    made = life(tmp_path, weighed(100, 0.5, "2026-03-01"), as_of="2026-02-28")
    assert BARE not in made.figures
    assert "W005" in {finding.code for finding in made.findings}


def test_the_usual_date_is_that_of_the_last_event(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        weighed(100, 0.5, "2026-03-01"),
        event("inspection", "2026-05-06", what="all", result="good"),
    )
    assert made.state.as_of == date(2026, 5, 6)


def test_the_usual_date_of_an_aircraft_without_events_is_the_start_of_its_build(tmp_path: Path) -> None:
    assert life(tmp_path).state.as_of == date(2026, 1, 12)


def test_the_usual_date_of_an_aircraft_without_events_is_the_end_of_its_build_if_there_is_one(
    tmp_path: Path,
) -> None:
    draft = Draft()
    draft.record["build"]["completed"] = "2026-02-20"
    assert draft.make(tmp_path).state.as_of == date(2026, 2, 20)


def test_events_of_one_day_keep_the_order_of_the_file(tmp_path: Path) -> None:
    made = life(tmp_path, pack_fitted("P-1", "18 kg", "2026-03-01"), weighed(118, 0.5, "2026-03-01"))
    assert [pack.pack for pack in made.state.packs_at_weighing] == ["P-1"]


def test_events_are_listed_by_kind_with_the_oldest_first(tmp_path: Path) -> None:
    made = life(
        tmp_path,
        weighed(100, 0.5, "2026-03-01"),
        fitted(5, 1.0, "2026-03-15"),
        weighed(106, 0.5, "2026-04-01"),
    )
    assert [one.date for one in made.state.of_kind(Weighing)] == [date(2026, 3, 1), date(2026, 4, 1)]
    assert len(made.state.of_kind(EquipmentChange)) == 1
    assert made.state.of_kind(Inspection) == ()


# --- flight tests, editions, handover


def flown(on: str, speed: str) -> Tree:
    result = {"quantity": "stall_speed", "value": speed, "basis": "CAS", "configuration": "motor off"}
    return event("flight-test", on, results=[result])


def test_the_latest_flight_test_of_a_quantity_counts(tmp_path: Path) -> None:
    made = life(tmp_path, flown("2026-03-01", "22 kt"), flown("2026-04-01", "23 kt"))
    assert made.figures["stall_speed"].value == pytest.approx(23 * 1852 / 3600)
    assert made.state.measured["stall_speed"].test.date == date(2026, 4, 1)


def test_the_latest_edition_and_the_handover_are_known(tmp_path: Path) -> None:
    editions = [
        event("edition", f"2026-0{month}-01", letter=letter, reason="issue")
        for month, letter in ((3, "A"), (4, "B"))
    ]
    made = life(tmp_path, *editions, event("handover", "2026-05-01", to="An owner (invented)"))
    assert made.state.edition is not None
    assert made.state.edition.letter == "B"
    assert made.state.handover is not None
    assert made.state.handover.to == "An owner (invented)"


def test_an_edition_after_z_has_two_letters(tmp_path: Path) -> None:
    editions = [
        event("edition", on, letter=letter, reason="issue")
        for on, letter in (("2026-03-01", "Z"), ("2026-04-01", "AA"))
    ]
    made = life(tmp_path, *editions)
    assert made.state.edition is not None
    assert made.state.edition.letter == "AA"
