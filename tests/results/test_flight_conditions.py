"""Flight against height, temperature, speed and pilot, held against published air and against each other."""

from __future__ import annotations

from dataclasses import replace

import pytest
from demos import demo
from flight_examples import flight_example
from invented_glider import FOOT

from dossier.compute.atmosphere import geopotential_height
from dossier.results.flight import Performance
from dossier.results.flight_conditions import _air_rows, air_table, pilot_rows, power_rows, sink_curves
from dossier.results.flight_tables import HEIGHTS

G = 9.80665


def flown() -> Performance:
    made = demo("barrow-t2")["T2-007"].performance
    assert made is not None
    return made


@pytest.mark.parametrize(("name", "metres"), [("isa-z1000", 1000.0), ("isa-z2000", 2000.0)])
def test_a_standard_row_has_the_air_of_the_printed_standard(name: str, metres: float) -> None:
    # the table goes by geopotential heights: 1000 m printed as geometric are 999.8 m of them
    table, printed = flown().air, flight_example(name)
    assert table is not None
    row = next(one for one in table.rows if one.height == metres and not one.offset)
    gap = metres - geopotential_height(metres)
    assert row.temperature + 0.0065 * gap == pytest.approx(float(printed.expect["T_K"]), abs=0.006)
    assert row.density_altitude == pytest.approx(metres, abs=0.01)


def test_a_warm_row_has_the_density_altitude_of_the_printed_rule(monkeypatch: pytest.MonkeyPatch) -> None:
    rule = flight_example("da-rule-120-hot")
    height = rule["pressure_altitude_ft"]
    offset = rule["oat_C"] + 273.15 - (288.15 - 0.0065 * height * FOOT)
    monkeypatch.setitem(HEIGHTS, False, ("ft", (height,)))
    monkeypatch.setattr("dossier.results.flight_conditions.OFFSETS", (offset,))
    (row,) = _air_rows(demo("barrow-t2")["T2-007"].project.aircraft, (20.0,))
    assert row.density_altitude / FOOT == rule.near("density_altitude_ft")


def test_a_true_speed_is_the_calibrated_one_over_the_root_of_the_relative_density() -> None:
    # below 60 m/s and 3000 m within 0.2 %, as the sheet of true_from_density has it
    table = flown().air
    assert table is not None
    for row in table.rows:
        for calibrated, true in zip(table.calibrated, row.true, strict=True):
            assert true == pytest.approx(calibrated * (1.225 / row.density) ** 0.5, rel=2e-3)


def test_the_shaft_gives_what_the_drag_takes_over_the_efficiency_of_the_propeller() -> None:
    for row in flown().powers:  # Barrow: 62 % propeller, 91 % motor, 97 % controller
        assert isinstance(row.air, float)
        assert row.shaft == pytest.approx(row.air / 0.62)
        assert row.pack == pytest.approx(row.air / 0.62 / 0.91 / 0.97)


def test_the_least_power_of_the_table_lies_near_the_speed_of_the_longest_flight() -> None:
    made = flown()
    for option in made.options:
        rows = [row for row in made.powers if (row.option, row.pilot) == (option.option, option.pilots[-1])]
        least = min(rows, key=lambda row: float(row.pack))
        step = rows[1].speed - rows[0].speed
        assert abs(least.speed - option.endurance_speed.value) <= step
        assert option.level_power is not None
        assert float(least.pack) >= option.level_power.value * (1 - 1e-9)


def test_without_an_efficiency_there_is_no_row_of_power_and_climbs_say_why() -> None:
    made, aircraft = flown(), demo("barrow-t2")["T2-007"].project.aircraft
    bare = replace(made.options[0], drive=None)
    assert list(power_rows(bare, made.polar, aircraft, made.fastest)) == []
    assert {row.rate for row in pilot_rows(bare, made.polar, aircraft)} == {
        "the efficiency of the drive is not known"
    }


def test_the_rate_of_climb_is_the_excess_power_over_the_weight() -> None:
    made = flown()
    option = made.options[0]
    for row in (one for one in made.pilots if one.option == option.option):
        assert isinstance(row.rate, float)
        thrust = 24000 * 0.62 * 0.91 * 0.97
        assert row.rate == pytest.approx(thrust / (row.mass * G) - row.sink, rel=1e-9)


def test_the_gradient_is_the_rate_over_the_true_speed() -> None:
    for row in flown().pilots:
        assert isinstance(row.rate, float)
        assert isinstance(row.climb_speed, float)
        assert row.gradient == pytest.approx(row.rate / row.climb_speed)


def test_the_lighter_pilot_climbs_faster_and_sinks_slower_at_every_height() -> None:
    made = flown()
    light, heavy = (
        [row for row in made.pilots if row.option == "long-pack" and row.pilot == pilot]
        for pilot in sorted({row.pilot for row in made.pilots if row.option == "long-pack"})
    )
    for one, other in zip(light, heavy, strict=True):
        assert float(one.rate) > float(other.rate)
        assert one.sink < other.sink


def test_the_row_at_sea_level_with_the_heaviest_pilot_is_the_figure() -> None:
    made = flown()
    for option in made.options:
        row = next(
            one for one in made.pilots
            if (one.option, one.pilot, one.height) == (option.option, option.pilots[-1], 0.0)
        )  # fmt: skip
        assert option.climb_rate
        assert option.climb_gradient
        assert row.rate == pytest.approx(option.climb_rate.value, rel=1e-6)
        assert row.gradient == pytest.approx(option.climb_gradient.value, rel=1e-6)
        assert row.glide_speed == pytest.approx(option.range_speed.value, rel=1e-6)


def test_a_heavier_sink_curve_is_the_lighter_one_drawn_larger() -> None:
    # at one lift coefficient speed and sink both go with the root of the mass
    made = flown()
    light, heavy = made.curves
    larger = (heavy.mass / light.mass) ** 0.5
    assert heavy.points[0] == pytest.approx([value * larger for value in light.points[0]])


def test_without_a_flight_there_is_no_sink_curve() -> None:
    assert sink_curves((), flown().polar, None) == ()


def test_without_a_limit_of_speed_the_table_of_the_air_has_the_two_speeds_of_the_polar() -> None:
    made, aircraft = flown(), demo("barrow-t2")["T2-007"].project.aircraft
    assert air_table(made.options[0], aircraft, None).names == (
        "speed of the least sink",
        "speed of the best glide",
    )
