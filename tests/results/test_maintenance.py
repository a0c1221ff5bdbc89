"""What is due when: months, flight time and flights, whichever is first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml
from sample_project import Draft, event, item

from dossier.project import load
from dossier.references import maintenance as maintenance_references
from dossier.replay import replay
from dossier.results.maintenance import DueItem, MaintenanceState, maintenance_state

PLAIN = {"name": "Inspection", "level": "builder", "source": "own"}


@dataclass
class Fleet:
    """A draft with a maintenance file."""

    maintenance: dict[str, Any]
    draft: Draft = field(default_factory=Draft)

    def due(self, folder: Path, as_of: str, *events: dict[str, Any]) -> MaintenanceState:
        self.draft.record["build"]["completed"] = "2026-01-31"
        self.draft.events.extend(events)
        project_folder = self.draft.write(folder)
        (project_folder / "maintenance.yaml").write_text(yaml.safe_dump(self.maintenance), "utf-8")
        project = load(project_folder)
        record = project.serials["0001"]
        state = replay(record, project.battery.options, date.fromisoformat(as_of))
        assert project.maintenance
        return maintenance_state(project.maintenance, project.aircraft.limits, record, state)


def task(**every: Any) -> Fleet:
    return Fleet({"tasks": {"look": {**PLAIN, "every": every}}})


def inspection(on: str, *tasks: str, **totals: Any) -> dict[str, Any]:
    return event("inspection", on, what="all", result="good", tasks=list(tasks), **totals)


def only(state: MaintenanceState) -> DueItem:
    (one,) = state.items
    return one


def lefts(one: DueItem) -> Sequence[float | None]:
    return [measure.left for measure in one.measures]


def test_a_first_month_after_the_last_of_january_ends_with_february(tmp_path: Path) -> None:
    assert only(task(months=1).due(tmp_path, "2026-02-01")).measures[0].due == date(2026, 2, 28)


def test_the_last_day_is_not_overdue(tmp_path: Path) -> None:
    one = only(task(months=1).due(tmp_path, "2026-02-28"))
    assert (lefts(one), one.state) == ([0], "not yet due")


def test_the_day_after_is_overdue(tmp_path: Path) -> None:
    state = task(months=1).due(tmp_path, "2026-03-01")
    assert only(state).state == "overdue"
    assert [(finding.code, finding.message) for finding in state.findings] == [
        ("S001", "Inspection is overdue by 1 day")
    ]


def test_a_task_runs_on_from_the_day_it_was_done(tmp_path: Path) -> None:
    one = only(task(months=12).due(tmp_path, "2026-06-01", inspection("2026-05-14", "look")))
    assert one.measures[0].due == date(2027, 5, 14)


def test_an_inspection_that_does_not_name_the_task_moves_nothing(tmp_path: Path) -> None:
    one = only(task(months=12).due(tmp_path, "2026-06-01", inspection("2026-05-14")))
    assert (one.measures[0].due, one.last) == (date(2027, 1, 31), None)


def test_a_task_done_after_the_date_was_not_done_then(tmp_path: Path) -> None:
    assert only(task(months=12).due(tmp_path, "2026-05-13", inspection("2026-05-14", "look"))).last is None


def test_sums_of_tenths_of_an_hour_come_out_even(tmp_path: Path) -> None:
    """24.6 h and 50 h make 74.6 h, and not a little less."""
    done = inspection("2026-03-01", "look", flight_hours="24.6 h")
    one = only(
        task(flight_hours="50 h").due(
            tmp_path, "2026-06-01", done, inspection("2026-05-01", flight_hours="74.6 h")
        )
    )
    assert (lefts(one), one.state) == ([0], "not yet due")


def test_whichever_comes_first_decides(tmp_path: Path) -> None:
    flown = inspection("2026-03-01", flight_hours="5 h", cycles="31")
    one = only(task(months=12, flight_hours="25 h", cycles="30").due(tmp_path, "2026-03-01", flown))
    assert lefts(one) == [336, 20 * 3600, -1]
    assert one.state == "overdue"


def test_totals_that_nobody_wrote_down_are_not_known(tmp_path: Path) -> None:
    one = only(task(flight_hours="25 h").due(tmp_path, "2026-03-01"))
    assert (lefts(one), one.state) == ([None], "not known")


def test_the_first_interval_may_be_shorter(tmp_path: Path) -> None:
    fleet = Fleet({"tasks": {"look": {**PLAIN, "every": {"months": 12}, "first": {"months": 6}}}})
    assert only(fleet.due(tmp_path / "a", "2026-03-01")).measures[0].due == date(2026, 7, 31)
    assert only(fleet.due(tmp_path / "b", "2026-08-01", inspection("2026-07-31", "look"))).measures[
        0
    ].due == date(2027, 7, 31)


def test_an_interval_may_be_a_limit_of_the_type(tmp_path: Path) -> None:
    fleet = task(limit="inspection_interval")
    fleet.draft.aircraft["limits"]["inspection_interval"] = {
        "name": "Interval",
        "value": "50 h",
        "reason": "own",
    }
    assert lefts(
        only(fleet.due(tmp_path, "2026-03-01", inspection("2026-03-01", flight_hours="12.5 h")))
    ) == [37.5 * 3600]


def test_a_life_runs_from_the_making_of_the_piece(tmp_path: Path) -> None:
    fleet = Fleet(
        {
            "life_limits": {
                "rocket": {
                    "component": "parachute",
                    "name": "Rocket",
                    "life": {"months": 72},
                    "source": "own",
                }
            }
        }
    )
    fleet.draft.record["fitted"] = {"parachute": {"made": "2024-02-29"}}
    one = only(fleet.due(tmp_path, "2030-03-01"))
    assert (one.measures[0].due, one.state) == (date(2030, 2, 28), "overdue")


def test_a_replaced_component_begins_its_life_anew(tmp_path: Path) -> None:
    fleet = Fleet(
        {
            "life_limits": {
                "motor": {
                    "component": "motor",
                    "name": "Motor",
                    "life": {"flight_hours": "100 h"},
                    "source": "own",
                }
            }
        }
    )
    change = event("equipment-change", "2026-04-01", item="motor", removed=[item("Motor", "9 kg", "1 m")],
                   fitted=[item("Motor", "9 kg", "1 m")], flight_hours="80 h")  # fmt: skip
    one = only(fleet.due(tmp_path, "2026-05-01", change, inspection("2026-05-01", flight_hours="95 h")))
    assert lefts(one) == [85 * 3600]


def test_a_task_done_on_the_old_piece_does_not_count_for_the_new_one(tmp_path: Path) -> None:
    fleet = Fleet({"tasks": {"look": {**PLAIN, "every": {"months": 12}, "component": "parachute"}}})
    piece = [item("Parachute", "9 kg", "0.3 m")]
    swap = {"item": "parachute", "removed": piece, "fitted": piece, "made": "2026-01-15"}
    change = event("equipment-change", "2026-04-01", **swap)
    one = only(fleet.due(tmp_path, "2026-05-01", inspection("2026-03-01", "look"), change))
    assert one.measures[0].due == date(2027, 1, 15)


def test_nothing_is_due_on_a_component_that_is_not_there(tmp_path: Path) -> None:
    fleet = Fleet({"tasks": {"look": {**PLAIN, "every": {"months": 1}, "component": "parachute"}}})
    fleet.draft.record["items_left_out"] = ["parachute"]
    assert fleet.due(tmp_path, "2027-01-01").items == ()


def test_before_the_build_is_completed_no_calendar_runs(tmp_path: Path) -> None:
    fleet = task(months=1)
    state = fleet.due(tmp_path, "2027-01-01")
    fleet.draft.record["build"].pop("completed")
    assert only(state).state == "overdue"
    project_folder = fleet.draft.write(tmp_path / "open")
    (project_folder / "maintenance.yaml").write_text(yaml.safe_dump(fleet.maintenance), "utf-8")
    project = load(project_folder)
    assert project.maintenance
    record = project.serials["0001"]
    found = maintenance_state(
        project.maintenance,
        project.aircraft.limits,
        record,
        replay(record, project.battery.options, date(2027, 1, 1)),
    )
    assert only(found).state == "not known"


def test_the_worst_comes_first(tmp_path: Path) -> None:
    months = {"late": 11, "later": 2, "soon": 13, "far": 120}
    fleet = Fleet(
        {"tasks": {name: {**PLAIN, "name": name, "every": {"months": n}} for name, n in months.items()}}
    )
    fleet.maintenance["tasks"]["unknown"] = {**PLAIN, "every": {"cycles": "5"}}
    assert [one.key for one in fleet.due(tmp_path, "2027-02-01").items] == [
        "later",
        "late",
        "unknown",
        "soon",
        "far",
    ]


def test_what_is_due_by_flight_time_has_its_working_from_the_record(tmp_path: Path) -> None:
    done = inspection("2026-05-14", "look", flight_hours="49.6 h")
    later = inspection("2026-06-14", flight_hours="70.1 h")
    (measure,) = only(task(flight_hours="25 h").due(tmp_path, "2026-07-01", done, later)).measures
    due, left = measure.amounts.figures
    assert (due.name, left.name) == ("task.look.flight_time_at_due", "task.look.flight_time_left")
    assert (due.value, left.value) == (74.6 * 3600, 4.5 * 3600)
    assert left.working.inputs["t_F"].text == "70.1 h"  # type: ignore[union-attr]


def test_what_is_due_by_the_calendar_counts_days_from_the_day_it_was_done(tmp_path: Path) -> None:
    state = task(months=1).due(tmp_path, "2026-06-04", inspection("2026-05-14", "look"))
    (left,) = only(state).measures[0].amounts.figures
    # 14 May to 14 June are 31 days, and 21 are gone
    assert (left.value, left.style) == (10 * 86400, "days")


def test_a_figure_has_the_value_of_its_measure(tmp_path: Path) -> None:
    state = task(months=12, flight_hours="25 h", cycles=40).due(
        tmp_path, "2026-07-01", inspection("2026-05-14", flight_hours="5.5 h", cycles=11)
    )
    calendar, hours, flights = only(state).measures
    lefts_as_figures = [one.amounts.left.value for one in (calendar, hours, flights) if one.amounts.left]
    assert lefts_as_figures == [(calendar.left or 0) * 86400, hours.left, flights.left]


def test_without_totals_on_record_there_is_a_due_figure_and_nothing_left(tmp_path: Path) -> None:
    (measure,) = only(task(flight_hours="25 h").due(tmp_path, "2026-07-01")).measures
    assert measure.amounts.due is not None
    assert measure.amounts.left is None


def ticked(on: str, *left_open: str) -> dict[str, Any]:
    return event(
        "list-completed", on, procedure="all-round", digest="0" * 64, people=["A. Builder"], steps_done=3,
        second_checks_done=0, steps_open=list(left_open),
    )  # fmt: skip


def with_a_list() -> Fleet:
    return Fleet({"tasks": {"look": {**PLAIN, "every": {"months": 12}, "procedure": "all-round"}}})


def test_a_ticked_list_moves_no_task_and_is_told(tmp_path: Path) -> None:
    state = with_a_list().due(tmp_path, "2026-06-01", ticked("2026-05-14"))
    assert not only(state).done_before
    assert [finding.code for finding in state.findings] == ["S006"]


def test_a_ticked_list_whose_task_was_signed_off_is_not_told(tmp_path: Path) -> None:
    state = with_a_list().due(tmp_path, "2026-06-01", ticked("2026-05-14"), inspection("2026-05-14", "look"))
    assert state.findings == ()


def test_a_list_with_a_step_left_open_is_not_taken_for_the_task(tmp_path: Path) -> None:
    assert with_a_list().due(tmp_path, "2026-06-01", ticked("2026-05-14", "step 2")).findings == ()


# --- before flight

LIST = {"digest": "0" * 64, "people": ["A", "B"], "steps_done": 3, "second_checks_done": 0}


def walked(on: str, **more: Any) -> dict[str, Any]:
    return event("list-completed", on, procedure="preflight", **LIST, **more)


def looked(before: str, **more: Any) -> Fleet:
    return Fleet(
        {"tasks": {"look": {**PLAIN, "every": {"before_flight": before, **more}, "procedure": "preflight"}}}
    )


def test_a_daily_look_that_was_never_made_is_due_before_the_flight_of_the_day(tmp_path: Path) -> None:
    one = only(looked("daily").due(tmp_path, "2026-06-01"))
    assert (one.state, one.due_day, one.before_flight) == (
        "due before flight", date(2026, 6, 1), "the first flight of each day")  # fmt: skip


def test_it_is_never_overdue_however_long_it_was_not_made(tmp_path: Path) -> None:
    state = looked("daily").due(tmp_path, "2026-06-01", inspection("2026-02-01", "look"))
    assert (only(state).state, state.findings) == ("due before flight", ())


@pytest.mark.parametrize(("before", "state", "due"), [
    ("daily", "not yet due", date(2026, 6, 2)), ("each", "due before flight", date(2026, 6, 1)),
])  # fmt: skip
def test_a_list_ticked_whole_on_the_day_is_a_look_of_that_day(
    tmp_path: Path, before: str, state: str, due: date
) -> None:
    made = looked(before).due(tmp_path, "2026-06-01", walked("2026-06-01"))
    assert (only(made).state, only(made).due_day, only(made).last) == (state, due, date(2026, 6, 1))
    assert made.findings == ()


def test_a_list_with_a_step_open_is_no_look(tmp_path: Path) -> None:
    made = looked("daily").due(tmp_path, "2026-06-01", walked("2026-06-01", steps_open=["step 2"]))
    assert only(made).state == "due before flight"


def test_a_look_before_flight_may_be_due_by_months_as_well(tmp_path: Path) -> None:
    one = only(looked("daily", months=1).due(tmp_path, "2026-06-01"))
    assert (one.state, len(one.measures)) == ("overdue", 1)


def test_a_life_is_no_matter_of_one_flight(tmp_path: Path) -> None:
    life = {"component": "motor", "name": "Motor", "life": {"before_flight": "daily"}, "source": "own"}
    fleet = Fleet({"life_limits": {"motor": life}}, Draft())
    folder = fleet.draft.write(tmp_path)
    (folder / "maintenance.yaml").write_text(yaml.safe_dump(fleet.maintenance), "utf-8")
    assert "the life of a component is no matter of one flight" in [
        finding.message for finding in maintenance_references.check(load(folder))
    ]
