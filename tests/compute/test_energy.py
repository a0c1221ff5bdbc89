"""Power, climb and endurance against worked examples (tests/references) and the balance of energy."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, example, number, read

from dossier.compute import energy
from dossier.figures import OutsideRange

G = energy.STANDARD_GRAVITY
HP, POUND, KWH = 745.6998715822702, 0.45359237, 3.6e6


def flight(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    found = example("flight" if name in read("flight")["examples"] else "flight_computed", name)
    return found.given, found.expect


def packs(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    found = example("packs", name)
    return found.given, found.expect


def test_the_climb_of_the_class_exercise_is_the_printed_one() -> None:
    # 120 hp of excess power lift 3,000 lb; without drag in the sum the sink is 0
    given_, expect = flight("climb-excess-power")
    power, mass = number(given_["excess_hp"]) * HP, number(given_["weight_lb"]) * POUND
    assert energy.climb_rate(power, 1.0, 0.0, m=mass, g=G) == as_printed(expect["RC_mps"])


def test_the_square_root_of_mass_gives_the_printed_speed() -> None:
    # at one angle of attack sink scales as speed does: 181 kt at 5.7 t, printed 154 kt at 4.1 t
    given_, expect = flight("stall-mass-scaling")
    speed = energy.sink_at_mass(*(number(given_[key]) for key in ("V1_kt", "m2_t", "m1_t")))
    assert speed == as_printed(expect["V2_kt"])


@pytest.mark.parametrize("name", ["aircraftX-A110", "aircraftX-B110"])
def test_an_invented_aircraft_sinks_with_the_root_of_its_mass(name: str) -> None:
    # from the lightest case with every digit; the heavier ones were computed from the polar
    given_, expect = flight(name)
    assert energy.sink_at_mass(0.658033622, number(given_["m_kg"]), 181.5) == as_printed(expect["w_min"])


@pytest.mark.parametrize("name", ["aircraftX-A55", "aircraftX-A110", "aircraftX-B110"])
def test_an_invented_aircraft_climbs_as_worked(name: str) -> None:
    given_, expect = flight(name)
    mass = number(given_["m_kg"])
    sink = energy.sink_at_mass(0.658033622, mass, 181.5)
    rate = energy.climb_rate(number(given_["P_climb_W"]), number(given_["eta_climb"]), sink, m=mass, g=G)
    assert rate == as_printed(expect["RC"])


@pytest.mark.parametrize("name", ["claim-sustain-ok", "claim-sustain-bad"])
def test_a_claimed_power_implies_the_worked_efficiency(name: str) -> None:
    given_, expect = flight(name)
    mass, sink, power = (number(given_[key]) for key in ("m_kg", "w_mps", "P_elec_W"))
    assert energy.implied_efficiency(mass, sink, G, power) == as_printed(expect["eta_total"])


def test_a_claimed_climb_implies_the_worked_efficiency() -> None:
    given_, expect = flight("claim-climb-bad")
    lift = number(given_["RC"]) + number(given_["w_min"])
    implied = energy.implied_efficiency(number(given_["m_kg"]), lift, G, number(given_["P_shaft"]))
    assert implied == as_printed(expect["eta_implied"])


def test_level_power_through_a_chain_is_the_worked_one() -> None:
    given_, expect = packs("BAT-X03-POWER")
    chain = energy.efficiency_chain([number(given_[key]) for key in ("eta_p", "eta_m", "eta_c")])
    power = energy.level_power(*(number(given_[key]) for key in ("m_kg", "w", "g")), chain)
    assert power == as_printed(expect["P_el_w"])


def test_the_power_lost_in_a_glide_is_the_worked_one() -> None:
    given_, expect = packs("BAT-X03-POWER")
    lost = energy.level_power(*(number(given_[key]) for key in ("m_kg", "w", "g")), 1.0)
    assert lost == as_printed(expect["mgw_w"])


def test_the_power_of_a_climb_is_the_worked_one() -> None:
    given_, expect = packs("BAT-X12-CLIMB")
    mass, gravity, climb, sink = (number(given_[key]) for key in ("m_kg", "g", "w_climb", "w_sink"))
    power = energy.climb_power(mass, gravity, climb, sink, eta=number(given_["eta"]))
    assert power == as_printed(expect["P_w"])


@pytest.mark.parametrize("row", [0, 1])
def test_a_claimed_level_power_implies_the_worked_efficiency(row: int) -> None:
    given_, expect = packs("BAT-X03-POWER")
    mass, sink, gravity = (number(given_[key]) for key in ("m_kg", "w", "g"))
    implied = energy.implied_efficiency(mass, sink, gravity, number(given_["claim_kw"][row]) * 1e3)
    assert implied == as_printed(expect["implied_eta"][row])


def test_the_endurance_is_the_worked_one() -> None:
    given_, expect = packs("BAT-X01-ENDURANCE")
    usable = number(given_["E_kwh"] if "E_kwh" in given_ else given_["E_nom_kwh"]) * KWH
    for factor in ("usable", "SoH", "k_rate"):
        usable *= number(given_[factor])
    assert energy.endurance(usable, [], number(given_["P_kw"]) * 1e3) / 60 == as_printed(expect["t_min"])


def test_a_whole_battery_climbs_to_the_worked_height() -> None:
    given_, expect = flight("claim-height-from-battery")
    battery, mass, climb, sink = (number(given_[key]) for key in ("E_Wh", "m_kg", "RC", "w"))
    chain = energy.efficiency_chain([number(given_["eta_p"]), number(given_["eta_elec"])])
    power = energy.climb_power(mass, G, climb, sink, eta=chain)
    height = battery * 3600 / power * climb
    assert height == as_printed(expect["h_max_m"])
    assert energy.climb_energy(power, height, climb) == pytest.approx(battery * 3600)


def test_a_climb_by_hand() -> None:
    # 300 m at 1.5 m/s take 200 s; 9 kW for 200 s are 1.8 MJ, 500 Wh
    assert energy.climb_time(300.0, 1.5) == pytest.approx(200.0)
    assert energy.climb_energy(9000.0, 300.0, 1.5) == pytest.approx(1.8e6)


def test_a_phase_by_hand() -> None:
    # ten minutes at 5 kW are 3 MJ
    assert energy.phase_energy(5000.0, 600.0) == pytest.approx(3.0e6)


def test_endurance_by_hand() -> None:
    # 6 kWh usable, 0.5 kWh climb, 0.5 kWh reserve, 2.5 kW: 2 h
    assert energy.endurance(6 * KWH, [0.5 * KWH, 0.5 * KWH], 2500.0) == pytest.approx(7200.0)


def test_no_fixed_phase_leaves_all() -> None:
    assert energy.remaining_energy(6 * KWH, []) == 6 * KWH


def test_phases_may_use_up_the_energy_but_no_more() -> None:
    assert energy.remaining_energy(5.0, [2.0, 3.0]) == 0.0
    with pytest.raises(OutsideRange, match=r"the fixed phases need 5\.1 J, and only 5 J are usable"):
        energy.remaining_energy(5.0, [2.0, 3.1])
    with pytest.raises(OutsideRange, match=r"the fixed phases need 5\.1 J, and only 5 J are usable"):
        energy.endurance(5.0, [2.0, 3.1], 1.0)


def test_an_aircraft_that_does_not_climb_is_told_so_in_a_sentence() -> None:
    # 2 kW at 0.5 lift 250 kg by 0.408 m/s
    with pytest.raises(OutsideRange) as refused:
        energy.climb_rate(2000.0, 0.5, 0.7, m=250.0, g=G)
    assert str(refused.value) == (
        "the aircraft does not climb: 2000 W at an efficiency of 0.5 lift 250 kg by 0.4079 m/s, "
        "and it sinks 0.7 m/s"
    )


def test_power_for_level_flight_gives_no_climb() -> None:
    level = energy.level_power(250.0, 0.5, G, 0.5)
    with pytest.raises(OutsideRange, match="does not climb"):
        energy.climb_rate(level, 0.5, 0.5, m=250.0, g=G)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: energy.efficiency_chain([0.9, 1.1]), "efficiency is 1.1, and must be above 0 and at most 1"),
        (lambda: energy.level_power(1.0, 1.0, G, 0.0), "efficiency is 0, and must be above 0 and at most 1"),
        (lambda: energy.climb_power(1.0, G, 1.0, 1.0, eta=1.1), "efficiency is 1.1, and must be"),
        (lambda: energy.climb_rate(1.0, -0.1, 0.0, m=1.0, g=G), "efficiency is -0.1, and must be"),
        (lambda: energy.climb_rate(1.0, 0.5, 0.0, m=0.0, g=G), "mass is 0 kg, and must be positive"),
        (lambda: energy.implied_efficiency(1.0, 1.0, G, 0.0), "power is 0 W, and must be positive"),
        (lambda: energy.sink_at_mass(0.7, 0.0, 200.0), "mass is 0 kg, and must be positive"),
        (lambda: energy.sink_at_mass(0.7, 200.0, 0.0), "reference mass is 0 kg, and must be positive"),
        (lambda: energy.climb_time(-1.0, 1.0), "height to gain is -1 m, and must not be negative"),
        (lambda: energy.climb_energy(1.0, 1.0, 0.0), "rate of climb is 0 m/s, and must be positive"),
        (lambda: energy.phase_energy(1.0, -1.0), "time is -1 s, and must not be negative"),
        (lambda: energy.endurance(1.0, [], 0.0), "power is 0 W, and must be positive"),
        (lambda: energy.endurance(1.0, [], float("nan")), "power is nan W, and must be positive"),
    ],
)
def test_each_border_of_validity_is_named(call: Any, message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)


def test_standard_gravity_carries_its_source() -> None:
    assert energy.GRAVITY.value == 9.80665
    assert "General Conference on Weights and Measures" in str(energy.GRAVITY.origin)


MASS, SINK, ETA = st.floats(100, 600), st.floats(0.2, 3), st.floats(0.2, 1)


@given(SINK, MASS, MASS, MASS)
def test_scaling_over_a_third_mass_changes_nothing(
    sink: float, first: float, between: float, last: float
) -> None:
    twice = energy.sink_at_mass(energy.sink_at_mass(sink, between, first), last, between)
    assert twice == pytest.approx(energy.sink_at_mass(sink, last, first))


@given(MASS, SINK, ETA)
def test_level_power_implies_its_own_efficiency(mass: float, sink: float, eta: float) -> None:
    power = energy.level_power(mass, sink, G, eta)
    assert energy.implied_efficiency(mass, sink, G, power) == pytest.approx(eta)


@given(MASS, SINK, ETA, st.floats(0.1, 5))
def test_the_power_of_a_climb_gives_the_climb_back(mass: float, sink: float, eta: float, rate: float) -> None:
    power = energy.climb_power(mass, G, rate, sink, eta=eta)
    assert energy.climb_rate(power, eta, sink, m=mass, g=G) == pytest.approx(rate)


@given(MASS, SINK, ETA, st.floats(0.1, 5), st.floats(0, 1000))
def test_the_thrust_energy_of_a_climb_is_height_gained_and_height_lost(
    mass: float, sink: float, eta: float, rate: float, height: float
) -> None:
    power = energy.climb_power(mass, G, rate, sink, eta=eta)
    lost = mass * G * sink * energy.climb_time(height, rate)
    assert eta * energy.climb_energy(power, height, rate) == pytest.approx(mass * G * height + lost, abs=1e-6)


@given(MASS, SINK, ETA, st.floats(1.01, 1.5))
def test_a_heavier_aircraft_needs_power_with_its_mass_to_three_halves(
    mass: float, sink: float, eta: float, by: float
) -> None:
    heavier = energy.level_power(by * mass, energy.sink_at_mass(sink, by * mass, mass), G, eta)
    assert heavier == pytest.approx(by**1.5 * energy.level_power(mass, sink, G, eta))


@given(st.lists(ETA, min_size=1, max_size=5))
def test_a_chain_is_no_better_than_its_weakest_link(links: list[float]) -> None:
    assert energy.efficiency_chain(links) <= min(links)


@given(st.lists(st.tuples(st.floats(0, 2e4), st.floats(0, 600)), max_size=6), st.floats(1000, 1e4))
def test_phases_and_cruise_use_exactly_the_usable_energy(
    phases: list[tuple[float, float]], power: float
) -> None:
    spent = [energy.phase_energy(*phase) for phase in phases]
    usable = 1e8
    cruise = energy.phase_energy(power, energy.endurance(usable, spent, power))
    assert sum(spent) + cruise == pytest.approx(usable)
    assert energy.remaining_energy(usable, spent) == pytest.approx(cruise)


@given(st.floats(0, 5e7), st.floats(0, 1e6))
def test_a_larger_reserve_never_lengthens_the_flight(reserve: float, more: float) -> None:
    assert energy.endurance(1e8, [reserve + more], 2500.0) <= energy.endurance(1e8, [reserve], 2500.0)
