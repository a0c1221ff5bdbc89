"""Facts of the trade, all common practice, no source: the formulas say them as well."""

from __future__ import annotations

import pytest
from invented_glider import POUND

from dossier.compute.energy import STANDARD_GRAVITY as G
from dossier.compute.energy import endurance, level_power
from dossier.compute.life import LARGEST_LOSS, Use, after
from dossier.judge.identities_of_battery import (
    Marks,
    calendar_life_claim,
    cycle_life_claim,
    half_pack_claim,
    series_count_claim,
)
from dossier.judge.identities_of_energy import climb_rate_claim, fuel_mass_claim, sustain_share_claim
from dossier.judge.identity import Standing

KWH, HOUR = 3.6e6, 3600.0
US_GALLON = 3.785411784e-3


def test_76_v_full_67_v_half_and_54_v_empty_are_18_cells_in_series() -> None:
    # common practice, no source
    found = series_count_claim(Marks(full=76.0, middle=67.0, low=54.0), series=18)
    assert found.candidates == (18,)
    assert found.claimed is not None
    assert found.claimed.standing is Standing.SOUND


def test_6_7_kwh_at_3_kw_with_a_short_climb_at_15_kw_last_a_little_over_two_hours() -> None:
    # common practice, no source; the climb lasts two minutes
    climb = 120.0
    whole = endurance(6.7 * KWH, [15e3 * climb], 3e3) + climb
    assert 2.0 * HOUR < whole < 2.25 * HOUR


def test_sustaining_takes_about_a_fifth_of_take_off_power() -> None:
    # common practice, no source: 3 kW of 15 kW
    assert sustain_share_claim(3e3, take_off_power=15e3).standing is Standing.SOUND


def test_an_aircraft_that_sustains_on_3_kw_and_climbs_on_15_kw_belongs_together() -> None:
    # 215 kg, 0.8 m/s of sink, one efficiency for both: the climb is four times the sink
    eta = 215 * G * 0.8 / 3e3
    assert level_power(215, 0.8, G, eta) == pytest.approx(3e3)
    found = climb_rate_claim(4 * 0.8, mass=215, sink=0.8, power=15e3)
    assert found.implied == pytest.approx(eta)
    assert found.standing is Standing.SOUND


def test_a_half_filled_box_lasts_about_half_as_long() -> None:
    # common practice, no source
    assert half_pack_claim(1.0 * HOUR, whole=2.0 * HOUR).standing is Standing.SOUND


def test_five_us_gallons_of_petrol_weigh_about_30_lb() -> None:
    # common practice, no source; 0.72 kg/L was read, and a US gallon is 231 cubic inches
    held = fuel_mass_claim(30 * POUND, volume=5 * US_GALLON)
    assert held.standing is Standing.SOUND
    assert held.would_be_true / POUND == pytest.approx(30, abs=0.5)
    assert fuel_mass_claim(42 * POUND, volume=5 * US_GALLON).standing is Standing.IMPOSSIBLE  # as water


@pytest.mark.parametrize("years", [7.0, 8.0])
def test_800_cycles_of_two_hours_outlast_the_calendar_life_of_an_ordinary_owner(years: float) -> None:
    # common practice, no source; an ordinary owner flies less than 100 hours a year
    found = calendar_life_claim(years, cycles=800, cycle_time=2.0, flown=100.0)
    assert found.standing is Standing.SOUND
    assert found.would_be_true > years


def test_over_two_hours_a_battery_lives_many_more_cycles_than_in_twenty_minutes() -> None:
    # common practice, no source
    fast = 1200.0
    assert cycle_life_claim(20e3, time=2 * HOUR).standing is Standing.SOUND
    assert cycle_life_claim(20e3, time=fast).standing is Standing.DOUBTFUL
    most = [cycle_life_claim(20e3, time=time).would_be_true for time in (2 * HOUR, fast)]
    assert most[0] > 2 * most[1]


def test_800_cycles_of_two_hours_are_not_more_than_published_models_give() -> None:
    # common practice, no source
    assert cycle_life_claim(800, time=2 * HOUR).standing is Standing.SOUND


@pytest.mark.parametrize("years", [7.0, 8.0])
def test_that_50_to_60_percent_may_remain_after_7_to_8_years_is_not_excluded(years: float) -> None:
    # common practice, no source. Models of ageing end at 70 %: the worst end of the band is beyond it, and
    # the tool says so instead of a number
    aged = after(Use(50, 0.1, 0.95, 0.9, 293.15), years)
    assert aged.worst_health is None
    assert aged.health is not None
    assert 1 - LARGEST_LOSS <= aged.health < 0.85
