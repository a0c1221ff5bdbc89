"""A box with part of its strings beside the whole battery, and each other battery beside the largest."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest
from demos import SERIALS, demo
from sample_project import Draft, pack_fitted, support, weighing

from dossier.compose.energy import pages
from dossier.figures import OutsideRange
from dossier.results import part_filled
from dossier.results.part_filled import Filling, PartFilled

EVERY_SERIAL = pytest.mark.parametrize(("project", "serial"), SERIALS)


def draft(parallel: int = 14, **phases: dict[str, str]) -> Draft:
    """Write a weighed aircraft whose profile is the phases named, each with its kind as its name."""
    made = Draft()
    made.battery["options"]["standard-pack"]["parallel"] = str(parallel)
    made.aircraft["profile"] = [
        {"name": kind, "kind": kind.replace("_", "-"), **more} for kind, more in phases.items()
    ]
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


def filled(folder: Path, made: Draft) -> PartFilled:
    return made.make(folder).part_filled


def half_of(folder: Path, made: Draft) -> Filling:
    half = filled(folder, made).half
    assert half is not None
    return half


def test_half_of_the_strings_are_half_of_the_energy_at_the_same_voltage(tmp_path: Path) -> None:
    half = half_of(tmp_path, draft(cruise={"power": "2 kW"}))
    assert (half.strings, half.of) == (7, 14)
    assert half.share == pytest.approx(0.5, rel=1e-12)


def test_with_level_flight_of_one_power_alone_half_the_energy_is_half_the_time(tmp_path: Path) -> None:
    # energy over power, by hand: nothing else is taken from either battery
    half = half_of(tmp_path, draft(cruise={"power": "2 kW"}))
    assert half.by_energy == pytest.approx(half.plain, rel=1e-12)
    assert (half.by_phases, half.by_mass) == pytest.approx((0, 0), abs=1e-9)


def test_twice_the_rate_leaves_less_than_half_by_the_discharge_model(tmp_path: Path) -> None:
    found = filled(tmp_path, draft(cruise={"power": "2 kW"}))
    largest, half = found.fillings[:2]
    share = half.share_modelled(largest)
    assert share is not None
    # 2 kW are 2.9 A of each cell, and 5.8 A with half of them: 0.1 V and 0.2 V of 3.7 V are lost in 35 mΩ
    assert 0.45 < share < 0.499
    assert half.by_load is not None
    assert largest.by_load is not None
    assert half.by_load < largest.by_load / 2


def test_a_climb_takes_as_much_from_half_a_battery_as_from_a_whole_one(tmp_path: Path) -> None:
    # 5 kW for 120 s are 600 kJ; half of them are missing from the plain half, and 2 kW burn 300 kJ in 150 s
    half = half_of(tmp_path, draft(take_off={"power": "5 kW", "duration": "120 s"}, cruise={"power": "2 kW"}))
    assert half.by_phases == pytest.approx(-150, rel=1e-9)


def test_cells_that_are_left_out_leave_their_mass_behind(tmp_path: Path) -> None:
    # 7 strings of 14 cells of 69 g
    whole, half = filled(tmp_path, draft(cruise={})).fillings[:2]
    assert whole.battery_mass - half.battery_mass == pytest.approx(7 * 14 * 0.069, rel=1e-9)
    assert whole.flying_mass - half.flying_mass == pytest.approx(7 * 14 * 0.069, rel=1e-9)
    assert half.by_mass is not None
    assert half.by_mass > 0


def test_of_an_odd_number_of_strings_the_smaller_half_is_fitted(tmp_path: Path) -> None:
    half = half_of(tmp_path, draft(15, cruise={"power": "2 kW"}))
    assert (half.strings, half.of) == (7, 15)
    assert half.share == pytest.approx(7 / 15, rel=1e-12)


def test_one_string_has_no_half(tmp_path: Path) -> None:
    made = filled(tmp_path, draft(1, cruise={"power": "0.1 kW"}))
    assert len(made.fillings) == 1
    assert made.half is None


def test_a_half_that_cannot_give_the_power_gets_words_and_the_fewest_strings_that_can(tmp_path: Path) -> None:
    found = filled(tmp_path, draft(take_off={"power": "9 kW", "duration": "60 s"}, cruise={"power": "2 kW"}))
    half, enough = found.fillings[1:3]
    assert half.modelled is None
    assert half.why
    assert half.strings < enough.strings < enough.of
    assert enough.modelled is not None


def test_a_half_that_the_climb_uses_up_gets_words(tmp_path: Path) -> None:
    half = half_of(
        tmp_path, draft(take_off={"power": "2 kW", "duration": "40 min"}, cruise={"power": "2 kW"})
    )
    assert half.by_energy is None
    assert half.by_mass is None
    assert half.why


def test_without_a_weighing_there_is_a_reason(tmp_path: Path) -> None:
    made = filled(tmp_path, Draft())
    assert made.fillings == ()
    assert made.why == "the aircraft has not been weighed"


def test_without_a_resistance_the_energy_stands_alone(tmp_path: Path) -> None:
    made = draft(cruise={"power": "2 kW"})
    del made.battery["cells"]["cell-a"]["resistance"]
    half = half_of(tmp_path, made)
    assert half.by_energy is not None
    assert half.modelled is None
    assert half.why == "no resistance of its cell is stated"


@EVERY_SERIAL
def test_whole_batteries_last_as_long_as_in_the_table_of_cold_and_age(project: str, serial: str) -> None:
    made = demo(project)[serial]
    compared = 0
    for filling, outlook in product(made.part_filled.fillings, made.modelled.outlooks):
        flight = outlook.flight
        same = filling.option == flight.option and flight.pilot == pytest.approx(made.part_filled.pilot)
        if filling.whole and same and outlook.age.health is None:
            # steps of time are shared by the flights that are flown together, so the last digits differ
            shortest = outlook.lasts[0].shortest
            assert filling.modelled == (None if shortest is None else pytest.approx(shortest, rel=1e-5))
            compared += 1
    assert compared


@EVERY_SERIAL
def test_the_page_shows_every_battery_and_every_reason(project: str, serial: str) -> None:
    made = demo(project)[serial]
    text = pages(made)[0].text
    for one in made.part_filled.fillings:
        assert one.name in text
        assert not one.why or one.why[1:] in text


def test_a_largest_battery_that_has_no_flight_gets_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(_: object) -> Iterator[Filling]:
        raise OutsideRange("the power is too high")

    monkeypatch.setattr(part_filled._Fillings, "all", refused)
    made = filled(tmp_path, draft(cruise={"power": "2 kW"}))
    assert made.fillings == ()
    assert made.why == "the largest battery cannot be flown: the power is too high"
