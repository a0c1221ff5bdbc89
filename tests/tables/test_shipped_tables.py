"""The shipped tables: read whole, labelled as what they are."""

from __future__ import annotations

import pytest
from published import numbers, read

from dossier.sources import SOURCES
from dossier.tables.cells import generic_cells
from dossier.tables.wires import column_for, wire_of_area, wire_source, wires

PAIRS = {"nmc-energy": "chen2020", "nmc-power": "mohtat2020"}


@pytest.mark.parametrize(("name", "stored"), PAIRS.items())
def test_a_generic_cell_is_its_published_table(name: str, stored: str) -> None:
    cell, table = generic_cells()[name].cell, read("battery")["tables"][stored]
    z = numbers(table["soc"])
    assert [cell.rest.at(one, "") for one in z] == numbers(table["ocv_v"])
    assert [cell.resistance.at(one, "") for one in z] == numbers(table["r_quasi_steady_ohm"])
    charge = table.get("capacity_ah_between_ocv_limits") or table["capacity_ah"]
    assert cell.capacity == pytest.approx(3600 * float(charge), abs=0.2)


def test_the_finer_points_of_the_energy_cell_are_the_published_ones() -> None:
    extra = read("battery")["tables"]["chen2020"]["ocv_extra_nodes"]
    cell = generic_cells()["nmc-energy"].cell
    assert [cell.rest.at(float(z), "") for z in extra["soc"]] == numbers(extra["ocv_v"])


@pytest.mark.parametrize("name", PAIRS)
def test_a_generic_cell_says_that_it_is_generic_and_second_hand(name: str) -> None:
    one = generic_cells()[name]
    assert one.title.startswith("Generic")
    assert "read (secondary)" in str(one.source)


def test_no_chemistry_without_a_source_is_shipped() -> None:
    assert {one.chemistry for one in generic_cells().values()} == {"lithium-nmc"}


def test_the_wires_are_cited_and_go_from_thin_to_thick() -> None:
    assert wire_source().source is SOURCES["ac-43-13-1b"]
    ohms = [wire.ohm_per_1000_ft for wire in wires().values()]
    assert ohms == sorted(ohms, reverse=True)
    amperes = [wire.ampacity[150] for wire in wires().values()]
    assert amperes == sorted(amperes)


@pytest.mark.parametrize(
    ("square_millimetres", "gauge"),
    # gauge 2 has 33.7 mm², 2/0 67.4, 3/0 84.4 and 4/0 106.9: the next thinner one is taken
    [(35, "2"), (70, "2/0"), (95, "3/0"), (120, "4/0"), (0.25, "24")],
)
def test_a_metric_wire_is_taken_as_the_next_thinner_gauge(square_millimetres: float, gauge: str) -> None:
    wire = wire_of_area(square_millimetres * 1e-6)
    assert wire
    assert wire.gauge == gauge
    assert wire.area <= square_millimetres * 1e-6


def test_a_wire_thinner_than_the_table_has_no_gauge() -> None:
    assert wire_of_area(0.2e-6) is None


@pytest.mark.parametrize(("rating", "column"), [(105, 105), (180, 150), (200, 200), (260, 200), (90, None)])
def test_insulation_between_two_columns_is_taken_as_the_cooler_one(rating: float, column: int | None) -> None:
    assert column_for(wires()["2"], rating) == column
