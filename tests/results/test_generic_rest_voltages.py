"""A cell without rest voltages of its own: a generic table stands in, and every page says so."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from sample_project import Draft, pack_fitted, support, weighing

from dossier.compose import battery as battery_page
from dossier.compose import gauge_card
from dossier.compute.gauge import change_over
from dossier.dossier import Dossier
from dossier.figures import Input
from dossier.findings import Rejected, Severity
from dossier.published_work import Citation
from dossier.results.gauge import HYSTERESIS, Gauge
from dossier.schemas import schemas
from dossier.tables.rest_voltages import generic_rest_voltages

LIMITS = {"lfp": ("3.5 V", "2.8 V"), "nca": ("4.15 V", "3.1 V")}
CHEMISTRY = {"lfp": "lithium-iron-phosphate", "nca": "lithium-nca"}


def draft(table: str, series: int = 14) -> Draft:
    """The starter with a generic cell; its limits are those of its chemistry."""
    made = Draft()
    cell: dict[str, Any] = made.battery["cells"]["cell-a"]
    del cell["open_circuit_voltage"]
    cell |= {"generic_open_circuit_voltage": table, "chemistry": CHEMISTRY[table], "empty_voltage": "2.5 V"}
    cell["resistance"] = [{"state_of_charge": charge, "resistance": "20 mΩ"} for charge in ("10 %", "90 %")]
    full, empty = LIMITS[table]
    option = made.battery["options"]["standard-pack"]
    option |= {"full_cell_voltage": full, "empty_cell_voltage": empty, "series": str(series)}
    made.events.extend(
        [
            pack_fitted("P-1", "18.4 kg"),
            weighing(
                support("left", "40.0 kg", arm="0.35 m"),
                support("right", "40.0 kg", arm="0.35 m"),
                support("tail", "2.0 kg", arm="3.80 m"),
            ),
        ]
    )
    return made


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Dossier]:
    return {name: draft(name).make(tmp_path_factory.mktemp(name)) for name in LIMITS}


def findings(dossier: Dossier, code: str) -> list[str]:
    return [finding.message for finding in dossier.findings if finding.code == code]


def gauge(dossier: Dossier) -> Gauge:
    (one,) = dossier.modelled.gauges
    return one


# --- what is computed


@pytest.mark.parametrize("name", LIMITS)
def test_the_energy_of_a_cell_is_the_area_below_the_generic_table(
    name: str, made: dict[str, Dossier]
) -> None:
    rest = generic_rest_voltages()[name].rest
    low, high = (float(text.removesuffix(" V")) for text in reversed(LIMITS[name]))
    z = np.linspace(*np.interp([low, high], rest.y, rest.x), 200001)
    area = float(np.trapezoid(np.interp(z, rest.x, rest.y), z))
    energy = made[name].figures["cell_energy.standard-pack"].value
    assert energy == pytest.approx(4.9 * 3600 * area, rel=1e-7)


@pytest.mark.parametrize("name", LIMITS)
def test_the_working_names_the_source_of_each_voltage(name: str, made: dict[str, Dossier]) -> None:
    volts = made[name].figures["cell_energy.standard-pack"].working.inputs["U_i"]
    assert not isinstance(volts, Input)
    origins = {one.origin for one in volts}
    assert origins == {generic_rest_voltages()[name].source}
    assert all(isinstance(origin, Citation) for origin in origins)


# --- what is said


@pytest.mark.parametrize("name", LIMITS)
def test_a_warning_says_how_far_other_cells_lie_away(name: str, made: dict[str, Dossier]) -> None:
    (message,) = findings(made[name], "D006")
    table = generic_rest_voltages()[name]
    assert f"the generic table {name} stands in for it" in message
    far = f"{table.spread_voltage:g} V and {100 * table.spread_energy:.1f} % of the energy away"
    assert f"lie up to {far}" in message
    (one,) = [finding for finding in made[name].findings if finding.code == "D006"]
    assert one.severity is Severity.WARNING
    assert one.place is not None
    assert one.place.file == "battery.yaml"


@pytest.mark.parametrize("name", LIMITS)
def test_the_battery_page_says_which_table_and_of_what(name: str, made: dict[str, Dossier]) -> None:
    (page,) = battery_page.pages(made[name])
    table = generic_rest_voltages()[name]
    assert table.title in page.text
    assert str(table.source) in page.text.replace("&#39;", "'")
    assert "For a new cell at 25 °C, of no make; measure your own" in page.text


@pytest.mark.parametrize("name", LIMITS)
def test_the_gauge_card_says_that_its_voltages_are_not_those_of_this_battery(
    name: str, made: dict[str, Dossier]
) -> None:
    (page,) = gauge_card.pages(made[name])
    assert "These voltages are those of a generic cell, not of this battery." in page.text
    assert "Voltages of a generic cell, not of this battery." in page.text.partition('class="placard ')[2]


def test_a_cell_with_voltages_of_its_own_says_so_and_gets_no_warning(tmp_path: Path) -> None:
    dossier = Draft().make(tmp_path)
    (page,) = battery_page.pages(dossier)
    assert "of this cell, as the record states them" in page.text
    assert findings(dossier, "D006") == []


# --- the record


def refused(made: Draft, folder: Path) -> list[str]:
    with pytest.raises(Rejected) as error:
        made.make(folder)
    return [finding.message for finding in error.value.findings if finding.code in ("P027", "P021")]


def test_a_cell_without_any_rest_voltages_is_refused(tmp_path: Path) -> None:
    made = draft("nca")
    del made.battery["cells"]["cell-a"]["generic_open_circuit_voltage"]
    assert refused(made, tmp_path) == ["the cell Sample cell has no rest voltages"]


def test_two_tables_are_one_too_many(tmp_path: Path) -> None:
    made = draft("nca")
    own = Draft().battery["cells"]["cell-a"]["open_circuit_voltage"]
    made.battery["cells"]["cell-a"]["open_circuit_voltage"] = own
    (message, *_) = refused(made, tmp_path)
    assert message == "the cell Sample cell has rest voltages of its own and names a generic table"


def test_a_table_of_another_chemistry_is_refused(tmp_path: Path) -> None:
    made = draft("nca")
    made.battery["cells"]["cell-a"]["chemistry"] = "lithium-nmc"
    (message,) = refused(made, tmp_path)
    assert message == "the table nca is of lithium-nca, and the cell Sample cell is lithium-nmc"


def test_a_limit_outside_the_generic_table_is_refused_with_its_ends(tmp_path: Path) -> None:
    made = draft("lfp")
    made.battery["options"]["standard-pack"]["full_cell_voltage"] = "3.65 V"
    assert refused(made, tmp_path) == ["3.65 V is outside the cell's table, 2.0102 V to 3.5981 V"]


def test_a_record_may_name_every_table_that_is_shipped() -> None:
    schema = schemas()["battery"]["$defs"]["Cell"]["properties"]["generic_open_circuit_voltage"]
    assert set(_words(schema)) == set(generic_rest_voltages())


def _words(schema: dict[str, Any]) -> list[str]:
    """The words that a schema allows, alone or beside nothing at all."""
    return next(one["enum"] for one in schema.get("anyOf", [schema]) if "enum" in one)


# --- the flat voltage of iron phosphate


def test_on_the_plateau_no_row_is_readable_and_the_warning_gives_the_number(made: dict[str, Dossier]) -> None:
    one = gauge(made["lfp"])
    flat = {round(line.charge, 2) for line in one.flat}
    assert {0.4, 0.5, 0.6, 0.7, 0.8, 0.9} <= flat
    (message,) = findings(made["lfp"], "D007")
    # by hand: 14 cells, (3.3511 - 3.2772) V over 68.61 % of the charge, so 0.15 V over a tenth of it
    by_hand = 14 * (3.3511 - 3.2772) / 0.6861 * 0.1
    assert by_hand == pytest.approx(0.15, abs=0.005)
    assert "a tenth of the charge changes its rest voltage there by as little as 0.15 V" in message
    assert "whether it was charged or discharged before moves it by up to 0.4 V" in message


def test_at_its_ends_iron_phosphate_is_readable(made: dict[str, Dossier]) -> None:
    lines = gauge(made["lfp"]).lines
    assert lines[-1].readable
    assert lines[-1].change > 14 * HYSTERESIS


def test_nca_is_readable_from_full_to_empty(made: dict[str, Dossier]) -> None:
    assert gauge(made["nca"]).flat == ()
    assert findings(made["nca"], "D007") == []


def test_few_cells_of_nca_are_read_too_coarsely_by_a_voltmeter_of_a_tenth(tmp_path: Path) -> None:
    # one cell changes by 0.08 to 0.12 V over a tenth of its charge, and two last digits are 0.2 V
    made = draft("nca", series=1)
    made.battery["options"]["standard-pack"]["parallel"] = "196"
    dossier = made.make(tmp_path)
    assert len(gauge(dossier).flat) > 5
    (message,) = findings(dossier, "D007")
    assert message.endswith("its last digit is 0.1 V")


def test_the_placard_marks_the_rows_that_a_voltage_does_not_tell(made: dict[str, Dossier]) -> None:
    (page,) = gauge_card.pages(made["lfp"])
    placard = page.text.partition('class="placard ')[2].partition("</table>")[0]
    rows = [row for row in placard.split("<tr")[2:] if "≈" in row]
    assert len(rows) == len(gauge(made["lfp"]).flat)
    assert all(row.count("≈") == 2 for row in rows)
    assert "Go by counted ampere-hours." in page.text
    assert "There the voltage does not tell the charge" in page.text


def test_the_change_over_a_width_is_that_of_the_table() -> None:
    rest = generic_rest_voltages()["lfp"].rest
    assert change_over(rest, 0.6, 0.1) == pytest.approx(rest.at(0.65, "") - rest.at(0.55, ""), rel=1e-12)


def test_at_an_end_the_slope_of_what_is_left_counts() -> None:
    rest = generic_rest_voltages()["nca"].rest
    assert change_over(rest, 1.0, 0.1) == pytest.approx(2 * (rest.y[-1] - rest.at(0.95, "")), rel=1e-9)


# --- iron phosphate and the discharge model


def test_the_discharge_model_says_that_it_is_not_shown_for_iron_phosphate(made: dict[str, Dossier]) -> None:
    (message,) = findings(made["lfp"], "D009")
    assert "3 % too long at a rate of 0.2, 7 % at 0.5 and 12 % at 1" in message
    assert findings(made["nca"], "D009") == []
