"""Each phase by the discharge model: current, rate, voltage and heat follow from one another; heat is an
estimate."""

from __future__ import annotations

import pytest
from demos import demo

from dossier.results.heat import Heat
from dossier.results.phases_flown import FlownRow, PhasesFlown
from dossier.results_file import as_data

AIRCRAFT = demo("barrow-t2")["T2-007"]
LONG = [one for one in AIRCRAFT.modelled.phases if one.case.flight.option == "long-pack"]
STANDARD = [one for one in AIRCRAFT.modelled.phases if one.case.flight.option == "standard-pack"]


def row(one: PhasesFlown, name: str) -> FlownRow:
    return next(line for line in one.rows if line.name == name)


@pytest.mark.parametrize("one", LONG, ids=lambda one: f"{one.case.flight.pilot:.0f}")
def test_the_largest_current_is_the_power_over_the_lowest_voltage(one: PhasesFlown) -> None:
    for line in one.rows:
        assert line.current == pytest.approx(line.power / line.voltage, rel=1e-9)


@pytest.mark.parametrize("one", LONG, ids=lambda one: f"{one.case.flight.pilot:.0f}")
def test_the_rate_is_the_current_over_the_capacity_that_is_left(one: PhasesFlown) -> None:
    capacity = one.case.model.result.figures["capacity"].value
    for line in one.rows:
        assert line.rate == pytest.approx(line.current * 3600 / capacity, rel=1e-9)


def test_every_phase_of_the_profile_is_flown_in_its_order() -> None:
    profile = [str(phase.name) for phase in AIRCRAFT.project.aircraft.profile]
    assert [line.name for line in LONG[-1].rows] == profile


def test_level_flight_lasts_as_long_as_the_table_of_cold_and_age_says_when_warm() -> None:
    flight = LONG[-1].case.flight
    warm = next(
        one.lasts[0] for one in AIRCRAFT.modelled.outlooks if one.flight is flight and one.age.health is None
    )
    level = next(line for line in LONG[-1].rows if line.kind == "cruise")
    assert level.time == pytest.approx(warm.shortest)


def test_level_flight_says_what_ends_it_and_when() -> None:
    level = next(line for line in LONG[-1].rows if line.kind == "cruise")
    minutes = sum(line.time for line in LONG[-1].rows[: LONG[-1].rows.index(level) + 1]) / 60
    assert level.ends.endswith(f"{minutes:.1f} min after the start")


def test_a_heavier_pilot_makes_more_heat_in_level_flight() -> None:
    light, heavy = (next(line for line in one.rows if line.kind == "cruise") for one in (LONG[0], LONG[-1]))
    assert heavy.heat_rate > light.heat_rate


def test_the_heat_of_the_take_off_is_near_i_squared_r() -> None:
    # take-off of 25 s from full: 0.65 of the cells' resistance acts at once, the rest within minutes; 6 mΩ
    # of wiring
    one, line = LONG[-1], row(LONG[-1], "Take-off")
    grown = one.case.model.growth.high
    cells = 24 / 24 * 0.0400 * grown
    least, most = line.current**2 * (0.6 * cells + 0.006), line.current**2 * (0.9 * cells + 0.006)
    assert least < line.heat_rate < most


def test_a_battery_beyond_the_model_has_no_rows_and_says_why() -> None:
    assert all(not one.rows and one.why for one in STANDARD)


def heat() -> Heat:
    return next(one for one in AIRCRAFT.modelled.heats if one.option == "long-pack")


def test_the_heat_of_the_profile_is_the_sum_of_its_phases() -> None:
    assert heat().lost.value == pytest.approx(sum(line.heat for line in LONG[-1].rows), rel=1e-9)


def test_the_rise_follows_from_heat_and_mass_of_the_cells_by_hand() -> None:
    # 24 x 24 cells of 70 g and 950 J/(kg K)
    assert heat().rise.value == pytest.approx(heat().lost.value / (576 * 0.070 * 950), rel=1e-9)


def test_the_estimate_carries_its_doubt() -> None:
    # 30 % rectangular: 17.3 %; with the 9.1 % of the specific heat and the mass of a cell
    assert heat().lost.standard_uncertainty / heat().lost.value == pytest.approx(0.3 / 3**0.5, rel=1e-6)
    assert heat().rise.standard_uncertainty / heat().rise.value == pytest.approx(
        (0.03 + (150 / 3**0.5 / 950) ** 2 + (0.5 / 70) ** 2) ** 0.5, rel=2e-2
    )


def test_the_air_takes_the_heat_of_the_hottest_phase_at_10_k() -> None:
    hottest = max(line.heat_rate for line in LONG[-1].rows)
    assert heat().air.value == pytest.approx(hottest / (1005 * 10), rel=1e-9)
    assert heat().air_volume.value == pytest.approx(hottest / (1005 * 10 * 1.225), rel=1e-9)


def test_results_hold_every_phase_that_was_flown() -> None:
    data = as_data(AIRCRAFT)
    rows = next(table["rows"] for table in data["tables"] if table["name"] == "phases_by_model")
    assert len(rows) == sum(len(one.rows) for one in AIRCRAFT.modelled.phases)


def test_the_figures_of_heat_are_figures_of_the_dossier() -> None:
    assert {one.name for made in AIRCRAFT.modelled.heats for one in made.figures} <= set(AIRCRAFT.figures)
