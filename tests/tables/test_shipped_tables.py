"""The shipped tables: read whole, labelled as what they are."""

from __future__ import annotations

import pytest
from published import numbers, read

from dossier.sources import SOURCES
from dossier.tables.cells import generic_cells
from dossier.tables.wires import wire_source, wires

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
    ohms = [wire.ohm_per_metre for wire in wires().values()]
    assert ohms == sorted(ohms, reverse=True)
    amperes = [wire.ampacity[150] for wire in wires().values()]
    assert amperes == sorted(amperes)
