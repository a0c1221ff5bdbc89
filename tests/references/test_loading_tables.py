"""The printed loadings, reproduced through a project: the empty aircraft is weighed, the rest loaded
or fitted.

A book's aircraft has more places than a single-seater. One person stands in the seat, the fuel where the
battery stands (a mass that belongs to the aircraft as it flies), baggage on the shelf, one row as ballast,
and everybody else is fitted as equipment: for masses and arms this is the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from book_record import (
    INCH,
    POUND,
    book,
    fullest,
    in_inches,
    item_lb,
    limits,
    rows_of,
    weighed,
    without_battery,
)
from published import Example, as_printed, number
from sample_project import Draft, event

from dossier.dossier import Dossier
from dossier.results.loading import LoadRow

Rows = list[tuple[Any, Any]]


@dataclass(frozen=True)
class Roles:
    """Which row of a printed table stands where in the project; row 0 is weighed, a row without role is
    fitted."""

    seat: int
    battery: int | None = None
    baggage: int | None = None
    ballast: int | None = None
    gross: str = "10000"
    range: tuple[str, str] = ("-1000", "1000")


TABLES = {
    "WB-016": Roles(seat=1, battery=8, baggage=6, ballast=7),
    "WB-017": Roles(seat=1, battery=4, baggage=3, range=("89", "99")),
    "WB-030": Roles(seat=1, battery=3, baggage=4, gross="3400", range=("78", "86")),
    "WB-032": Roles(seat=4, battery=2, baggage=6, ballast=1),
    "WB-040": Roles(seat=2, battery=3, ballast=1, gross="2100", range=("8.5", "1000")),
    "WB-042": Roles(seat=2, battery=5, gross="2100"),
    "WB-051": Roles(seat=1, ballast=2),
}


def load(rows: Rows, roles: Roles, folder: Path) -> Dossier:
    """Make the dossier of an aircraft loaded with the rows of a table."""
    draft = limits(without_battery(Draft()), roles.gross, ("100", *roles.range), (roles.gross, *roles.range))
    loading = draft.aircraft["loading"]
    del loading["ballast"]
    loading["seat"] |= station(rows[roles.seat])
    if roles.battery is not None:
        mass, arm = rows[roles.battery]
        draft.battery["options"]["standard-pack"] |= {"mass": f"{mass} lb", "arm": f"{arm} in"}
    if roles.baggage is not None:
        loading["baggage"] = {"name": "Shelf", **station(rows[roles.baggage])}
    if roles.ballast is not None:
        mass, arm = rows[roles.ballast]
        loading["ballast"] = {"arm": f"{arm} in", "piece": f"{mass} lb", "pieces": "1"}
    placed = {0, roles.seat, roles.battery, roles.baggage, roles.ballast}
    others = [item_lb(f"row {n}", *row) for n, row in enumerate(rows) if n not in placed]
    draft.events.extend([weighed(rows[0]), event("equipment-change", "2026-03-02", fitted=others)])
    return draft.make(folder)


def station(row: tuple[Any, Any]) -> dict[str, str]:
    mass, arm = row
    return {"arm": f"{arm} in", "minimum": f"{mass} lb", "maximum": f"{mass} lb"}


def loaded(name: str, folder: Path) -> LoadRow:
    return fullest(load(rows_of(book(name)), TABLES[name], folder))


def moment_of(row: LoadRow) -> float:
    return row.mass * row.cg / (POUND * INCH)


@pytest.mark.parametrize("name", TABLES)
def test_a_printed_loading_has_its_printed_total(name: str, tmp_path: Path) -> None:
    assert loaded(name, tmp_path).mass / POUND == as_printed(book(name).expect["total_weight_lb"])


@pytest.mark.parametrize("name", ["WB-017", "WB-030", "WB-040", "WB-042", "WB-051"])
def test_a_printed_loading_has_its_printed_moment(name: str, tmp_path: Path) -> None:
    assert moment_of(loaded(name, tmp_path)) == as_printed(book(name).expect["total_moment_lb_in"])


@pytest.mark.parametrize("name", ["WB-016", "WB-017", "WB-030", "WB-040", "WB-051"])
def test_a_printed_loading_has_its_printed_centre_of_gravity(name: str, tmp_path: Path) -> None:
    assert loaded(name, tmp_path).cg / INCH == as_printed(book(name).expect["cg_in"])


@pytest.mark.parametrize("name", ["WB-017", "WB-030", "WB-040"])
def test_a_loading_that_is_printed_as_within_limits_is_inside(name: str, tmp_path: Path) -> None:
    assert book(name).expect["within_limits"] == "true"
    assert loaded(name, tmp_path).inside


def test_the_worst_loading_is_the_printed_one_as_a_figure(tmp_path: Path) -> None:
    table = book("WB-030")
    dossier = load(rows_of(table), TABLES["WB-030"], tmp_path)
    assert dossier.figures["loaded_mass.worst_mass"].value / POUND == as_printed(
        table.expect["total_weight_lb"]
    )
    assert in_inches(dossier, "loaded_cg.worst_mass") == as_printed(table.expect["cg_in"])


# --- printed answers that contradict their own arithmetic: the recomputed value is held


def test_the_printed_moment_of_wb_016_is_not_the_sum_of_its_rows(tmp_path: Path) -> None:
    table = book("WB-016")
    moment = moment_of(loaded("WB-016", tmp_path))
    assert table.disagrees
    assert moment != as_printed(table.expect["total_moment_lb_in"])
    assert moment == as_printed("386461.6")


def test_the_seat_that_the_text_of_wb_016_names_gives_another_centre_than_printed(tmp_path: Path) -> None:
    # 155.01 in is the arm of no seat: by the text the passenger of 160 lb moves to the seat at 118.1 in
    rows = [(mass, "118.1" if arm == "155.01" else arm) for mass, arm in rows_of(book("WB-016"))]
    centre = fullest(load(rows, TABLES["WB-016"], tmp_path)).cg / INCH
    assert centre != as_printed(book("WB-016").expect["cg_in"])
    assert centre == as_printed("90.61")


def test_the_printed_quotient_of_wb_042_is_wrong(tmp_path: Path) -> None:
    table = book("WB-042")
    centre = loaded("WB-042", tmp_path).cg / INCH
    assert table.disagrees
    assert centre != as_printed(table.expect["cg_in_printed"])
    assert centre == as_printed("18.32")


def test_the_rounded_arm_that_wb_032_prints_gives_another_centre_than_printed(tmp_path: Path) -> None:
    # 1,011.9 x 68.6 = 69,416.3 and not 69,393.0: by the printed arm the sum is 122,109.3 lb in
    table = book("WB-032")
    row = loaded("WB-032", tmp_path)
    assert table.disagrees
    assert moment_of(row) == as_printed("122109.3")
    assert row.cg / INCH != as_printed(table.expect["cg_in"])
    assert row.cg / INCH == as_printed("74.06")


def test_the_moment_that_wb_032_prints_for_the_empty_aircraft_gives_the_printed_centre(
    tmp_path: Path,
) -> None:
    table = book("WB-032")
    rows: Rows = [*rows_of(table)]
    rows[0] = (rows[0][0], number(table.expect["moments_lb_in"][0]) / number(rows[0][0]))
    row = fullest(load(rows, TABLES["WB-032"], tmp_path))
    assert moment_of(row) == as_printed(table.expect["total_moment_lb_in"])
    assert row.cg / INCH == as_printed(table.expect["cg_in"])


# --- moments instead of arms, and every stage of a flight


def by_moment(row: dict[str, str]) -> tuple[str, float]:
    return row["weight_lb"], number(row["moment_lb_in"]) / number(row["weight_lb"])


@pytest.fixture
def graph(tmp_path: Path) -> Dossier:
    """WB-022: rows read off a loading graph as mass and moment."""
    rows = [by_moment(row) for row in book("WB-022").given["rows"]]
    return load(rows, Roles(seat=1, battery=5, baggage=4), tmp_path)


def test_moments_read_off_a_graph_give_the_printed_total_and_moment(graph: Dossier) -> None:
    expect = book("WB-022").expect
    assert fullest(graph).mass / POUND == as_printed(expect["total_weight_lb"])
    assert moment_of(fullest(graph)) == as_printed(expect["total_moment_lb_in"])


def test_the_empty_moment_of_the_graph_gives_the_printed_empty_centre(graph: Dossier) -> None:
    assert in_inches(graph, "weighed_cg") == as_printed(book("WB-022").expect["empty_cg_in"])


STAGES = {"zero_fuel": "2026-03-02", "ramp": "2026-03-03", "takeoff": "2026-03-04", "landing": "2026-03-05"}


def burn(table: Example) -> Draft:
    """WB-033 as a life: the fuel goes in and out by equipment changes, and each stage is a date."""
    given = table.given
    fuel_arm = given["fuel"]["arm_in"]
    aboard = [
        item_lb(f"row {n}", row["weight_lb"], row["arm_in"])
        for n, row in enumerate(given["seats_baggage"], 1)
    ]
    draft = Draft()
    draft.events.extend(
        [
            weighed(by_moment(given["basic_empty"])),
            event("equipment-change", STAGES["zero_fuel"], fitted=aboard),
            event(
                "equipment-change",
                STAGES["ramp"],
                fitted=[item_lb("fuel", given["fuel"]["weight_lb"], fuel_arm)],
            ),
            event(
                "equipment-change",
                STAGES["takeoff"],
                removed=[item_lb("taxi fuel", given["start_taxi_fuel_lb"], fuel_arm)],
            ),
            event(
                "equipment-change",
                STAGES["landing"],
                removed=[item_lb("trip fuel", given["fuel_to_destination_lb"], fuel_arm)],
            ),
        ]
    )
    return draft


@pytest.mark.parametrize("stage", STAGES)
def test_each_stage_of_a_flight_has_its_printed_mass_moment_and_centre(stage: str, tmp_path: Path) -> None:
    table = book("WB-033")
    dossier = burn(table).make(tmp_path, as_of=STAGES[stage])
    mass = dossier.figures["empty_mass.without_battery"].value / POUND
    centre = in_inches(dossier, "empty_cg.without_battery")
    expect = table.expect[stage]
    assert mass == as_printed(expect["weight_lb"])
    assert mass * centre == as_printed(expect["moment_lb_in"])
    assert centre == as_printed(expect["cg_in"])
