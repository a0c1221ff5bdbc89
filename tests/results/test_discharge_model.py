"""The discharge model from records: beside the energy, cold and old, in words where there is no answer."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from demos import NAMES, demo
from sample_project import Draft, pack_fitted, support, weighing

from dossier.dossier import Dossier
from dossier.results.discharge_table import COLD, WARM


def draft() -> Draft:
    made = Draft()
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


def cell(made: Draft) -> dict[str, object]:
    one: dict[str, object] = made.battery["cells"]["cell-a"]
    return one


def codes(dossier: Dossier) -> set[str]:
    return {finding.code for finding in dossier.findings}


@pytest.mark.parametrize("project", NAMES)
def test_the_discharge_model_and_the_energy_agree_on_the_demonstrations(project: str) -> None:
    # common practice, no source: two ways to one cruise that differ by more than a tenth are not both right
    flights = [one for made in demo(project).values() for one in made.modelled.flights]
    assert flights
    for one in flights:
        assert one.modelled.value == pytest.approx(one.flight.endurance.value, rel=0.1)


@pytest.mark.parametrize("project", NAMES)
def test_quadrature_and_stepping_agree_when_warm(project: str) -> None:
    compared = 0
    for made in demo(project).values():
        new = {one.flight.endurance.name: one for one in made.modelled.outlooks if one.age.health is None}
        for one in made.modelled.flights:
            lasts = new[one.flight.endurance.name].lasts[0]
            if lasts.shortest is not None:
                # the stepped flight pays for its climb by the resistance, the other by one efficiency
                assert lasts.shortest == pytest.approx(one.modelled.value, rel=0.07)
                compared += 1
    assert compared


@pytest.mark.parametrize("project", NAMES)
def test_colder_and_older_is_never_longer(project: str) -> None:
    for made in demo(project).values():
        for one in made.modelled.outlooks:
            warm = [
                lasts.shortest
                for lasts in one.lasts
                if lasts.temperature in WARM and lasts.shortest is not None
            ]
            assert all(after <= before for before, after in pairwise(warm))


@pytest.mark.parametrize("project", NAMES)
def test_below_five_degrees_there_is_a_band_or_no_answer(project: str) -> None:
    lasts = [
        one for made in demo(project).values() for each in made.modelled.outlooks
        for one in each.lasts if one.temperature in COLD
    ]  # fmt: skip
    assert any(one.longest is not None for one in lasts)
    assert all((one.longest is None) == (one.shortest is None) for one in lasts)


def test_without_a_table_of_resistance_there_is_a_note_and_no_answer(tmp_path: Path) -> None:
    made = draft()
    cell(made).pop("resistance")
    dossier = made.make(tmp_path)
    assert "D001" in codes(dossier)
    assert dossier.modelled.flights == ()
    assert dossier.modelled.gauges == ()
    assert not [name for name in dossier.figures if name.startswith("endurance_modelled")]


def test_a_power_that_the_battery_cannot_give_is_a_warning(tmp_path: Path) -> None:
    made = draft()
    cell(made)["resistance"] = [
        {"state_of_charge": "10 %", "resistance": "400 mΩ"},
        {"state_of_charge": "90 %", "resistance": "400 mΩ"},
    ]
    assert "D002" in codes(made.make(tmp_path))


def test_more_wiring_shortens_the_flight(tmp_path: Path) -> None:
    thin, thick = draft(), draft()
    thin.battery["options"]["standard-pack"]["wiring_resistance"] = "20 mΩ"
    one, other = (made.make(tmp_path / str(number)) for number, made in enumerate((thin, thick)))
    name = "endurance_modelled.standard-pack"
    assert one.figures[name].value < other.figures[name].value


def test_a_point_of_one_table_between_two_of_the_other_changes_nothing(tmp_path: Path) -> None:
    plain, split = draft(), draft()
    points = [
        {"state_of_charge": "0 %", "resistance": "40 mΩ"},
        {"state_of_charge": "100 %", "resistance": "20 mΩ"},
    ]
    cell(plain)["resistance"] = points
    cell(split)["resistance"] = [points[0], {"state_of_charge": "35 %", "resistance": "33 mΩ"}, points[1]]
    one, other = (made.make(tmp_path / str(number)) for number, made in enumerate((plain, split)))
    name = "endurance_modelled.standard-pack"
    assert one.figures[name].value == pytest.approx(other.figures[name].value, rel=1e-9)


@pytest.mark.parametrize("project", NAMES)
def test_a_gauge_falls_from_full_to_nothing(project: str) -> None:
    gauges = [one for made in demo(project).values() for one in made.modelled.gauges]
    assert gauges
    for one in gauges:
        for column in ("charge", "rest_voltage", "loaded_voltage", "time_left", "energy_left"):
            values = [getattr(line, column) for line in one.lines]
            assert all(after < before for before, after in pairwise(values))
        assert all(line.loaded_voltage < line.rest_voltage for line in one.lines)
        assert one.lines[-1].time_left == 0
        reserve = next(line for line in one.lines if line.name == "reserve")
        assert reserve.time_to_reserve == 0 < reserve.time_left


@pytest.mark.parametrize("project", NAMES)
def test_the_endurance_of_the_headline_is_that_of_the_phases(project: str) -> None:
    """The stepper flies the same profile with a part of the resistance that comes with a delay: own band."""
    held = 0
    for made in demo(project).values():
        rows = {(one.flight.option, one.flight.pilot): one for one in made.modelled.flights}
        for outlook in made.modelled.outlooks:
            flown, warm = rows.get((outlook.flight.option, outlook.flight.pilot)), outlook.lasts[0]
            if outlook.age.health is not None or flown is None or warm.shortest is None:
                continue
            assert flown.modelled.value == pytest.approx(warm.shortest, rel=0.02)
            held += 1
    assert held
