"""The tables of ``results.json``: every value in its column, every gap with its reason, true
to the figures."""

from __future__ import annotations

import json
from datetime import date
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from demos import SERIALS, demo
from jsonschema import Draft202012Validator
from sample_project import Draft

from dossier.results_file import as_data, as_json
from dossier.units import KINDS

EVERY_SERIAL = pytest.mark.parametrize(("project", "serial"), SERIALS)
SCHEMA = json.loads(Path(__file__).with_name("results_file.schema.json").read_text("utf-8"))
NAMES = [
    "loading",
    "worst_loading",
    "ballast_for_lightest_pilot",
    "energy_by_phase",
    "endurance",
    "cold_and_age",
    "gauge_card",
    "gauge_card_measured",
    "phases_by_model",
    "heat_and_cooling",
    "heat_by_phase",
    "part_filled",
    "trade_rules",
    "battery_by_year",
    "end_of_battery_life",
    "charging_after_flight",
    "capacity_tests",
    "battery_retirement",
    "battery_acceptance",
    "cycles_by_rate",
    "currents_by_phase",
    "wiring_comparisons",
    "energy_of_tests",
    "resistance_of_tests",
    "glide",
    "polar",
    "rate_of_climb",
    "climb_to_height",
    "reach_in_wind",
    "air",
    "power_by_speed",
    "flight_by_pilot",
    "take_off_run",
    "flight_test_runs",
    "sink_curves",
    "measured_and_computed",
    "due_by_calendar",
    "due_by_flight_time",
    "due_by_flights",
    "packed_trailer",
    "road_limits",
]
TYPES: dict[str, tuple[type, ...]] = {"number": (int, float), "text": (str,), "flag": (bool,), "date": (str,)}
NOT_SI = {"d": "a day of the calendar", "a": "a year"}


@cache
def results(project: str, serial: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(as_json(demo(project)[serial]))
    return found


def rows(data: dict[str, Any], name: str) -> list[dict[str, Any]]:
    return next(table["rows"] for table in data["tables"] if table["name"] == name)


def value(data: dict[str, Any], figure: str) -> float:
    return float(data["figures"][figure]["value"])


# --- form


def test_the_schema_is_a_valid_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)


@EVERY_SERIAL
def test_the_whole_file_follows_the_schema(project: str, serial: str) -> None:
    assert list(Draft202012Validator(SCHEMA).iter_errors(results(project, serial))) == []


def test_a_table_that_is_empty_without_a_reason_breaks_the_schema() -> None:
    spoiled = json.loads(json.dumps(results(*SERIALS[0])))
    spoiled["tables"][0]["rows"] = []
    assert list(Draft202012Validator(SCHEMA).iter_errors(spoiled))


@EVERY_SERIAL
def test_all_tables_are_in_every_file_in_one_order(project: str, serial: str) -> None:
    assert [table["name"] for table in results(project, serial)["tables"]] == NAMES


@EVERY_SERIAL
def test_every_value_is_of_the_sort_that_its_column_says(project: str, serial: str) -> None:
    for table in results(project, serial)["tables"]:
        for column in table["columns"]:
            for row in table["rows"]:
                found = row[column["key"]]
                assert found is None or isinstance(found, TYPES[column["holds"]]), (
                    table["name"],
                    column["key"],
                )
                assert isinstance(found, bool) <= (column["holds"] == "flag")


@EVERY_SERIAL
def test_every_row_has_a_value_for_each_column_in_their_order(project: str, serial: str) -> None:
    for table in results(project, serial)["tables"]:
        keys = [column["key"] for column in table["columns"]]
        assert len(set(keys)) == len(keys)
        assert all(list(row) == keys for row in table["rows"])


@EVERY_SERIAL
def test_every_date_is_one_of_the_calendar(project: str, serial: str) -> None:
    for table in results(project, serial)["tables"]:
        for column in table["columns"]:
            for row in table["rows"] if column["holds"] == "date" else ():
                assert row[column["key"]] is None or date.fromisoformat(row[column["key"]])


@EVERY_SERIAL
def test_every_null_has_one_reason_and_every_reason_a_null(project: str, serial: str) -> None:
    for table in results(project, serial)["tables"]:
        gaps = [
            (at, key) for at, row in enumerate(table["rows"]) for key, found in row.items() if found is None
        ]
        assert [(null["row"], null["key"]) for null in table["nulls"]] == gaps, table["name"]


def test_every_unit_is_that_of_a_kind_or_is_named_here() -> None:
    units = {column["unit"] for table in results(*SERIALS[0])["tables"] for column in table["columns"]}
    assert units - {None} - {kind.si for kind in KINDS.values()} == set(NOT_SI)


@EVERY_SERIAL
def test_every_figure_that_a_row_names_is_in_the_file(project: str, serial: str) -> None:
    data = results(project, serial)
    named = {row["figure"] for table in data["tables"] for row in table["rows"] if "figure" in row}
    assert named - {None} <= set(data["figures"])


# --- true to the figures


@EVERY_SERIAL
def test_a_measured_value_less_the_computed_one_is_the_difference(project: str, serial: str) -> None:
    data = results(project, serial)
    found = [row for name in ("energy_of_tests", "resistance_of_tests") for row in rows(data, name)]
    assert found
    for row in found:
        assert row["difference"] == pytest.approx(row["measured"] - row["computed"], rel=1e-9)
        assert row["agrees"] == (abs(row["difference"]) <= 2 * row["difference_standard_uncertainty"])


@EVERY_SERIAL
def test_the_largest_current_of_the_table_is_what_the_conductors_are_held_against(
    project: str, serial: str
) -> None:
    data = results(project, serial)
    most = max(row["current"] for row in rows(data, "currents_by_phase"))
    held = [
        row["value"]
        for row in rows(data, "wiring_comparisons")
        if row["group"] == "Conductors" and row["question"] in ("Lasting current", "Short current")
    ]
    assert most == pytest.approx(max(held), rel=1e-12)


@EVERY_SERIAL
def test_a_loading_is_the_empty_aircraft_with_its_battery_and_what_is_on_board(
    project: str, serial: str
) -> None:
    data = results(project, serial)
    for row in rows(data, "loading"):
        empty = value(data, f"empty_mass.{row['option']}")
        assert row["mass"] == pytest.approx(empty + row["pilot"] + row["ballast"] + row["baggage"], rel=1e-12)


@EVERY_SERIAL
def test_a_worst_loading_has_the_margin_of_its_figure(project: str, serial: str) -> None:
    data = results(project, serial)
    for row in rows(data, "worst_loading"):
        margin = row["margin_of_mass"] if row["limit"] == "mass" else row["margin_of_arm"]
        assert margin == pytest.approx(value(data, row["figure"]), rel=1e-9, abs=1e-12)


@EVERY_SERIAL
def test_the_energies_of_a_flight_add_up_to_what_the_battery_gives_for_flying(
    project: str, serial: str
) -> None:
    data = results(project, serial)
    flights: dict[tuple[str, float], float] = {}
    for row in rows(data, "energy_by_phase"):
        assert row["energy"] == pytest.approx(row["power"] * row["duration"], rel=1e-12)
        at = row["option"], row["pilot"]
        flights[at] = flights.get(at, 0.0) + row["energy"]
    assert flights
    for (option, _), energy in flights.items():
        assert energy == pytest.approx(value(data, f"usable_energy.{option}"), rel=1e-9)


@EVERY_SERIAL
def test_an_endurance_is_that_of_its_figure(project: str, serial: str) -> None:
    data = results(project, serial)
    assert rows(data, "endurance")
    for row in rows(data, "endurance"):
        assert row["by_energy"] == value(data, row["figure"])


@EVERY_SERIAL
def test_what_stands_between_the_plain_share_and_the_endurance_adds_up(project: str, serial: str) -> None:
    found = rows(results(project, serial), "part_filled")
    assert found[0]["share_of_energy"] == 1
    for row in found:
        if row["by_energy"] is not None:
            steps = sum(row[key] for key in ("plain_share", "by_reserve", "by_phases", "by_mass"))
            assert steps == pytest.approx(row["by_energy"], rel=1e-9)
        if row["by_discharge_model"] is not None:
            steps = row["by_energy"] + row["by_load"] + row["by_power"]
            assert steps == pytest.approx(row["by_discharge_model"], rel=1e-9)


@EVERY_SERIAL
def test_cycles_at_the_rate_of_the_use_lie_between_the_figures_of_the_life(project: str, serial: str) -> None:
    data = results(project, serial)
    found = [row for row in rows(data, "cycles_by_rate") if row["in_use"] and row["cycles"] is not None]
    assert found
    for row in found:
        least, most = (value(data, f"cycle_life_{end}.{row['option']}") for end in ("least", "most"))
        assert least * (1 - 1e-9) <= row["cycles"] <= most * (1 + 1e-9)
        assert row["discharged_in"] * row["rate"] == pytest.approx(3600)


@EVERY_SERIAL
def test_what_was_measured_agrees_where_the_difference_is_within_what_is_allowed(
    project: str, serial: str
) -> None:
    found = rows(results(project, serial), "measured_and_computed")
    for row in found:
        if row["agrees"] is not None:
            assert row["difference"] == pytest.approx(row["measured"] - row["computed"], rel=1e-9)
            assert row["agrees"] == (abs(row["difference"]) <= row["allowed"])


def test_some_measured_flight_of_the_demonstrations_is_compared() -> None:
    found = [row for one in SERIALS for row in rows(results(*one), "measured_and_computed")]
    assert {row["agrees"] for row in found} >= {True, False}


@EVERY_SERIAL
def test_minutes_and_energy_on_the_gauge_card_fall_with_the_charge(project: str, serial: str) -> None:
    lines = rows(results(project, serial), "gauge_card")
    assert lines
    for above, below in pairwise(lines):
        if above["option"] == below["option"]:
            assert above["charge"] > below["charge"]
            assert above["time_left"] > below["time_left"]
            assert above["energy_left"] > below["energy_left"]


@EVERY_SERIAL
def test_the_range_of_capacity_by_year_holds_the_likely_value(project: str, serial: str) -> None:
    years = rows(results(project, serial), "battery_by_year")
    assert years
    for row in years:
        health = [row[key] for key in ("lowest_health", "health", "highest_health") if row[key] is not None]
        assert health == sorted(health)


@EVERY_SERIAL
def test_what_is_left_by_the_calendar_is_counted_from_the_date_of_the_dossier(
    project: str, serial: str
) -> None:
    data = results(project, serial)
    as_of = date.fromisoformat(data["as_of"])
    for row in rows(data, "due_by_calendar"):
        if row["due"] is not None:
            assert row["left"] == (date.fromisoformat(row["due"]) - as_of).days


@EVERY_SERIAL
def test_the_margin_to_a_limit_on_the_road_is_the_limit_less_the_size(project: str, serial: str) -> None:
    data = results(project, serial)
    sizes = {row["measure"]: row["size"] for row in rows(data, "packed_trailer")}
    assert rows(data, "road_limits")
    for row in rows(data, "road_limits"):
        assert row["size"] == sizes[row["measure"]]
        assert row["margin"] == row["limit"] - row["size"]


def test_a_flight_beyond_the_discharge_model_is_null_with_its_reason() -> None:
    blanks = [
        null["reason"]
        for project, serial in SERIALS
        for table in results(project, serial)["tables"]
        if table["name"] == "cold_and_age"
        for null in table["nulls"]
        if null["key"] == "shortest"
    ]
    assert "beyond the rate that the model holds for" in blanks


# --- what is not there


def test_without_a_weighing_the_tables_of_loads_say_so(tmp_path: Path) -> None:
    data = as_data(Draft().make(tmp_path))
    empty = {table["name"]: table["empty"] for table in data["tables"]}
    assert empty["loading"] == "the aircraft has not been weighed"
    assert empty["energy_by_phase"] == "the aircraft has not been weighed"


def test_without_the_optional_files_their_tables_say_so(tmp_path: Path) -> None:
    empty = {table["name"]: table["empty"] for table in as_data(Draft().make(tmp_path))["tables"]}
    assert empty["due_by_calendar"] == "the type has no maintenance.yaml"
    assert empty["packed_trailer"] == "the type has no trailer.yaml"
    assert empty["road_limits"] == "the type has no trailer.yaml"
    assert empty["capacity_tests"] == "no test has a log"
