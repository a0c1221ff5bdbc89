"""Batteries and flights of the demonstrations against sums made here by hand, and energy that is neither
lost nor won."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml
from demos import NAMES, PROJECTS, SERIALS, demo
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_project import Draft, pack_fitted, support, weighing

from dossier.dossier import Dossier

WATT_HOUR = 3600.0


def battery_file(project: str) -> Any:
    return yaml.load((PROJECTS / project / "battery.yaml").read_text("utf-8"), yaml.BaseLoader)


def number(text: str) -> float:
    """Read a value in its written unit; a percentage as a fraction."""
    word = text.split(" ±")[0].split()
    return float(word[0]) * (0.01 if word[1:] == ["%"] else 1)


def cell_energy(cell: Any, full: float, empty: float) -> float:
    """Area below the rest voltage over the charge, in Wh, in 200,000 slices: a sum, and no formula of
    the project."""
    points = [
        (number(row["state_of_charge"]), number(row["voltage"])) for row in cell["open_circuit_voltage"]
    ]
    slices = 200_000
    total = 0.0
    for (low, at_low), (high, at_high) in pairwise(points):
        steps = max(1, round((high - low) * slices))
        for step in range(steps):
            volt = at_low + (at_high - at_low) * (step + 0.5) / steps
            total += volt * (high - low) / steps if empty <= volt <= full else 0.0
    return total * number(cell["nominal_capacity"])


def unfitted(project: str) -> list[tuple[Dossier, str]]:
    """One serial for each battery that is not fitted in it, so that the battery is as designed."""
    found: dict[str, tuple[Dossier, str]] = {}
    for dossier in demo(project).values():
        for pack in dossier.packs:
            if pack.fitted is None:
                found.setdefault(pack.option, (dossier, pack.option))
    return list(found.values())


@pytest.mark.parametrize("project", NAMES)
def test_every_battery_of_a_demonstration_is_seen_as_designed(project: str) -> None:
    assert {option for _, option in unfitted(project)} == set(battery_file(project)["options"])


@pytest.mark.parametrize("project", NAMES)
def test_the_energy_between_the_limits_is_cells_times_the_area_below_the_curve(project: str) -> None:
    file = battery_file(project)
    for dossier, name in unfitted(project):
        option = file["options"][name]
        cells = int(option["series"]) * int(option["parallel"])
        area = cell_energy(
            file["cells"][option["cell"]],
            number(option["full_cell_voltage"]),
            number(option["empty_cell_voltage"]),
        )
        found = dossier.figures[f"energy_between_limits.{name}"].value / WATT_HOUR
        assert found == pytest.approx(cells * area, rel=1e-4)


@pytest.mark.parametrize("project", NAMES)
def test_the_usable_energy_leaves_out_the_losses_and_the_reserve(project: str) -> None:
    file = battery_file(project)
    for dossier, name in unfitted(project):
        lost = dossier.project.aircraft.propulsion.efficiency.battery.value
        between = dossier.figures[f"energy_between_limits.{name}"].value
        expected = between * lost * (1 - number(file["options"][name]["reserve"]))
        assert dossier.figures[f"usable_energy.{name}"].value == pytest.approx(expected)


@pytest.mark.parametrize("project", NAMES)
def test_nameplate_voltages_and_capacity_follow_from_series_and_parallel(project: str) -> None:
    file = battery_file(project)
    for dossier, name in unfitted(project):
        option = file["options"][name]
        cell = file["cells"][option["cell"]]
        series, parallel = int(option["series"]), int(option["parallel"])
        capacity, voltage = number(cell["nominal_capacity"]), number(cell["nominal_voltage"])
        figures = dossier.figures
        assert figures[f"full_voltage.{name}"].value == pytest.approx(
            series * number(option["full_cell_voltage"])
        )
        assert figures[f"capacity.{name}"].value == pytest.approx(parallel * capacity * 3600)
        assert figures[f"nameplate_energy.{name}"].value == pytest.approx(
            series * parallel * capacity * voltage * WATT_HOUR
        )


@pytest.mark.parametrize(
    ("option", "cells", "between_kwh"), [("long-pack", 224, "3.57"), ("short-pack", 140, "2.23")]
)
def test_the_hand_check_in_the_battery_file_holds(option: str, cells: int, between_kwh: str) -> None:
    # the comment at the head of battery.yaml, worked out there by hand
    head = (PROJECTS / "quillet-e1" / "battery.yaml").read_text("utf-8")
    assert f"= {cells} cells" in head
    assert f"{between_kwh} kWh between the limits" in head
    dossier = next(made for made, name in unfitted("quillet-e1") if name == option)
    assert dossier.figures[f"cells.{option}"].value == cells
    assert round(dossier.figures[f"energy_between_limits.{option}"].value / 3.6e6, 2) == float(between_kwh)


def test_a_measured_capacity_replaces_that_of_the_maker(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(pack_fitted("P-1", "18 kg", measured_capacity="61.6 Ah ± 0.4 Ah"))
    figures = draft.make(tmp_path).figures
    assert figures["capacity.standard-pack"].value == pytest.approx(61.6 * 3600)
    assert figures["cell_capacity.standard-pack"].value == pytest.approx(61.6 / 14 * 3600)


def test_a_health_without_a_capacity_scales_that_of_the_maker(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(pack_fitted("P-1", "18 kg", health="90 %"))
    assert draft.make(tmp_path).figures["capacity.standard-pack"].value == pytest.approx(
        0.9 * 14 * 4.9 * 3600
    )


def test_a_capacity_and_a_health_leave_the_capacity_to_count(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(pack_fitted("P-1", "18 kg", measured_capacity="61.6 Ah", health="50 %"))
    assert draft.make(tmp_path).figures["capacity.standard-pack"].value == pytest.approx(61.6 * 3600)


# --- the energy of a flight


@pytest.mark.parametrize(("project", "serial"), SERIALS)
def test_phases_and_cruise_use_up_just_the_usable_energy(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    assert dossier.energy is not None
    assert dossier.energy.flights
    for flight in dossier.energy.flights:
        usable = dossier.figures[f"usable_energy.{flight.option}"].value
        assert sum(row.energy for row in flight.rows) == pytest.approx(usable, rel=1e-9)


@pytest.mark.parametrize(("project", "serial"), SERIALS)
def test_with_the_reserve_flown_the_phases_and_the_longer_cruise_use_up_what_the_terminals_give(
    project: str, serial: str
) -> None:
    dossier = demo(project)[serial]
    assert dossier.energy is not None
    for flight in dossier.energy.flights:
        cruise = next(row for row in flight.rows if row.duration == flight.endurance.value)
        others = sum(row.energy for row in flight.rows if row is not cruise and not row.kept)
        whole = dossier.figures[f"deliverable_energy.{flight.option}"].value
        assert others + cruise.power * flight.without_reserve.value == pytest.approx(whole, rel=1e-9)


@pytest.mark.parametrize(("project", "serial"), SERIALS)
def test_the_energy_of_each_phase_is_its_power_for_its_time(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    assert dossier.energy is not None
    for flight in dossier.energy.flights:
        for row in flight.rows:
            assert row.energy == pytest.approx(row.power * row.duration)


@pytest.mark.parametrize(("project", "serial"), SERIALS)
def test_the_phases_stand_in_the_order_of_the_profile(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    assert dossier.energy is not None
    names = [str(phase.name) for phase in dossier.project.aircraft.profile]
    assert all([row.name for row in flight.rows] == names for flight in dossier.energy.flights)


@pytest.mark.parametrize(("project", "serial"), SERIALS)
def test_a_heavier_pilot_flies_for_less_time(project: str, serial: str) -> None:
    energy = demo(project)[serial].energy
    assert energy is not None
    for option in {flight.option for flight in energy.flights}:
        flights = [flight for flight in energy.flights if flight.option == option]
        for lighter, heavier in pairwise(flights):
            assert (lighter.pilot < heavier.pilot) == (lighter.endurance.value > heavier.endurance.value)


@settings(max_examples=15)
@given(lightest=st.floats(45, 80), more=st.floats(1, 40), empty=st.floats(85, 110), power=st.floats(7, 15))
def test_endurance_falls_and_energy_is_kept_for_any_aircraft(
    lightest: float, more: float, empty: float, power: float, tmp_path_factory: pytest.TempPathFactory
) -> None:
    draft = Draft()
    draft.aircraft["propulsion"]["maximum_power"] = f"{power} kW"
    draft.aircraft["loading"]["seat"] |= {"minimum": f"{lightest} kg", "maximum": f"{lightest + more} kg"}
    draft.aircraft["limits"]["take_off_mass"]["value"] = "250 kg"
    draft.aircraft["loading"]["envelope"][-1]["mass"] = "250 kg"
    draft.events.append(weighing(support("all", f"{empty} kg", arm="0.5 m")))
    dossier = draft.make(tmp_path_factory.mktemp("flown"))
    assert dossier.energy is not None
    flights = dossier.energy.flights
    endurances = [flight.endurance.value for flight in flights]
    assert len(flights) == 3
    assert endurances == sorted(endurances, reverse=True)
    assert any(row.kept for row in flights[0].rows)
    usable = dossier.figures["usable_energy.standard-pack"].value
    assert [sum(row.energy for row in flight.rows) for flight in flights] == pytest.approx(
        [usable] * 3, rel=1e-9
    )
