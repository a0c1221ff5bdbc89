"""Ballast and pilot masses against the handbooks and against brute force."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from published import as_printed, example, number

from dossier.compute import loading
from dossier.compute.envelope import Envelope, margins
from dossier.compute.weights import centre_of_gravity
from dossier.figures import OutsideRange

TAPERED = Envelope((150.0, 250.0), (0.30, 0.34), (0.50, 0.50))
"""Invented: the forward limit moves aft with mass."""


def ballast() -> tuple[float, float, float, float]:
    table = example("weight_and_balance", "WB-019").given
    keys = ("total_weight_lb", "cg_in", "limit_in", "ballast_arm_in")
    mass, arm, limit, at = (number(table[key]) for key in keys)
    return mass, arm, limit, at


def test_ballast_is_the_printed_one() -> None:
    printed = example("weight_and_balance", "WB-019").expect["ballast_lb"]
    assert loading.ballast_mass(*ballast()) == as_printed(printed)


def test_ballast_is_rounded_up_as_printed() -> None:
    rounded = math.ceil(loading.ballast_mass(*ballast()))
    assert rounded == number(example("weight_and_balance", "WB-019").expect["ballast_lb_rounded_up"])


def test_the_printed_recheck_starts_from_the_unrounded_centre_of_gravity() -> None:
    # the new table of the book adds the ballast to the moment of 99.5585 in, not to that of 99.60 in
    expect = example("weight_and_balance", "WB-019").expect
    mass, _, _, at = ballast()
    added = number(expect["ballast_lb_rounded_up"])
    assert centre_of_gravity([mass, added], [99.558504, at]) == as_printed(expect["new_cg_in"])


def test_ballast_from_the_unrounded_centre_of_gravity_is_3_lb_less_than_printed() -> None:
    # the book rounds 99.5585 in to 99.60 before use and prints 46.68 lb; unrounded it is 43.45 lb
    mass, _, limit, at = ballast()
    assert loading.ballast_mass(mass, 99.558504, limit, at) == as_printed("43.45")


def test_the_same_formula_serves_a_pilot() -> None:
    # by hand: 115 kg at 0.62 m, pilot at 0.10 m, aft limit 0.50 m: 115 x 0.12 / 0.40 = 34.5 kg
    assert loading.pilot_mass_at_limit(115.0, 0.62, 0.50, 0.10) == pytest.approx(34.5)


def test_an_aircraft_at_the_limit_needs_no_ballast() -> None:
    assert loading.ballast_mass(200.0, 0.5, 0.5, 0.1) == 0.0


@pytest.mark.parametrize(("limit", "at"), [(0.5, 0.8), (0.5, 0.5)])
def test_ballast_on_the_wrong_side_of_the_limit_is_refused(limit: float, at: float) -> None:
    with pytest.raises(OutsideRange, match=r"no mass at .* brings .* from 0\.6 m to 0\.5 m"):
        loading.ballast_mass(200.0, 0.6, limit, at)


def test_a_pilot_on_the_wrong_side_of_the_limit_is_refused() -> None:
    with pytest.raises(OutsideRange, match=r"brings the centre of gravity from 0\.4 m to 0\.5 m"):
        loading.pilot_mass_at_limit(115.0, 0.4, 0.5, 0.1)


def test_the_mass_limit_leaves_the_rest_to_the_pilot() -> None:
    assert loading.pilot_mass_under_mass_limit(230.0, 128.4) == pytest.approx(101.6)


def test_an_aircraft_at_its_mass_limit_leaves_nothing_and_a_heavier_one_is_refused() -> None:
    assert loading.pilot_mass_under_mass_limit(230.0, 230.0) == 0.0
    with pytest.raises(OutsideRange, match="the mass is 231 kg, more than the limit of 230 kg"):
        loading.pilot_mass_under_mass_limit(230.0, 231.0)


def smallest(m_0: float, x_0: float, x_P: float, envelope: Envelope) -> float:
    corners = {"m_j": envelope.masses, "x_fj": envelope.forward, "x_aj": envelope.aft}
    return loading.minimum_pilot_mass(m_0, x_0, x_P, **corners)


def largest(m_0: float, x_0: float, x_P: float, envelope: Envelope) -> float:
    corners = {"m_j": envelope.masses, "x_fj": envelope.forward, "x_aj": envelope.aft}
    return loading.maximum_pilot_mass(m_0, x_0, x_P, **corners)


def test_the_minimum_pilot_under_a_constant_aft_limit_is_that_of_the_simple_formula() -> None:
    assert smallest(115.0, 0.62, 0.10, TAPERED) == pytest.approx(34.5)


def test_the_maximum_pilot_mass_under_a_sloping_forward_limit_meets_it_exactly() -> None:
    # by hand, m the loaded mass: 0.10 + 115 x 0.52 / m = 0.24 + 0.0004 m, so 0.0004 m² + 0.14 m - 59.8 = 0
    loaded = (-0.14 + math.sqrt(0.14**2 + 4 * 0.0004 * 59.8)) / (2 * 0.0004)
    assert largest(115.0, 0.62, 0.10, TAPERED) == pytest.approx(loaded - 115.0, abs=1e-9)


def test_the_maximum_pilot_mass_is_cut_by_the_mass_limit() -> None:
    assert largest(115.0, 0.62, 0.10, TAPERED.up_to(220.0)) == pytest.approx(105.0)


def test_an_aircraft_inside_its_envelope_without_pilot_has_no_minimum() -> None:
    assert smallest(115.0, 0.45, 0.10, TAPERED) == 0.0


@pytest.mark.parametrize("limit", [0.3, 0.5])
def test_a_pilot_at_the_centre_of_gravity_changes_only_the_mass(limit: float) -> None:
    # the centre of gravity stands exactly on one of the limits throughout
    square = Envelope((150.0, 250.0), (0.3, 0.3), (0.5, 0.5))
    assert loading.pilot_mass_ranges(100.0, limit, limit, square) == ((0.0, 150.0),)


def test_no_pilot_fits_an_aircraft_that_is_too_tail_heavy() -> None:
    with pytest.raises(OutsideRange, match=r"no pilot at 0\.1 m brings the aircraft of 115 kg at 2 m inside"):
        smallest(115.0, 2.0, 0.10, TAPERED)


def test_no_pilot_fits_an_aircraft_over_its_mass_limit() -> None:
    assert loading.pilot_mass_ranges(251.0, 0.4, 0.1, TAPERED) == ()


NOTCHED = Envelope((150.0, 170.0, 190.0, 250.0), (0.30, 0.46, 0.20, 0.20), (0.50, 0.50, 0.50, 0.50))
"""Invented and odd: a forward limit with a tooth."""


def test_a_broken_range_of_pilot_masses_is_told_and_not_hidden() -> None:
    ranges = loading.pilot_mass_ranges(115.0, 0.62, 0.1, NOTCHED)
    assert len(ranges) == 2
    with pytest.raises(OutsideRange, match=r"no single range of pilot masses, it allows 34\.5 to .* and "):
        largest(115.0, 0.62, 0.1, NOTCHED)


@pytest.mark.parametrize("corner", [160.0, 170.0, 180.3, 199.9])
def test_touching_a_limit_at_a_corner_does_not_break_the_range(corner: float) -> None:
    touched = 0.1 + 115.0 * (0.62 - 0.1) / corner
    envelope = Envelope((150.0, corner, 220.0), (0.20, touched, 0.20), (0.50, 0.50, 0.50))
    assert len(loading.pilot_mass_ranges(115.0, 0.62, 0.1, envelope)) == 1


LOADINGS = {
    "m_0": st.floats(90, 180),
    "x_0": st.floats(0.2, 0.9),
    "x_P": st.floats(-0.3, 0.9),
    "bend": st.tuples(st.floats(0.1, 0.45), st.floats(0.1, 0.45), st.floats(0.46, 0.7), st.floats(0.46, 0.7)),
}


def bent(limits: tuple[float, float, float, float]) -> Envelope:
    return Envelope((150.0, 200.0, 250.0), (0.30, *limits[:2]), (0.50, *limits[2:]))


@given(**LOADINGS)
def test_a_fine_sweep_of_pilots_finds_the_same_ranges(
    m_0: float, x_0: float, x_P: float, bend: tuple[float, float, float, float]
) -> None:
    envelope = bent(bend)
    ranges = loading.pilot_mass_ranges(m_0, x_0, x_P, envelope)
    borders = [border for pair in ranges for border in pair]
    for step in range(0, 1601, 7):
        pilot = step / 10
        if any(abs(pilot - border) < 1e-6 for border in borders):
            continue
        loaded = m_0 + pilot
        arm = centre_of_gravity([m_0, pilot], [x_0, x_P])
        near = margins(loaded, arm, envelope)
        if min(abs(near.forward), abs(near.aft)) < 1e-12:
            continue  # on a limit to the last digits
        assert bool(near.inside) == any(low <= pilot <= high for low, high in ranges), pilot


@given(**LOADINGS)
def test_every_border_of_a_range_lies_on_a_limit(
    m_0: float, x_0: float, x_P: float, bend: tuple[float, float, float, float]
) -> None:
    envelope = bent(bend)
    ranges = loading.pilot_mass_ranges(m_0, x_0, x_P, envelope)
    assume(ranges)
    for border in (border for pair in ranges for border in pair if border > 0):
        on = margins(min(m_0 + border, 250.0), centre_of_gravity([m_0, border], [x_0, x_P]), envelope)
        assert min(abs(on.forward), abs(on.aft), abs(on.mass)) < 1e-9


@given(st.floats(100, 300), st.floats(0.51, 1.0), st.floats(-1.0, 0.49))
def test_ballast_brings_the_centre_of_gravity_to_the_limit(mass: float, arm: float, at: float) -> None:
    added = loading.ballast_mass(mass, arm, 0.5, at)
    assert centre_of_gravity([mass, added], [arm, at]) == pytest.approx(0.5, abs=1e-12)


@given(st.floats(100, 300), st.floats(0.51, 1.0), st.floats(-1.0, 0.4), st.floats(-2, 2))
def test_ballast_does_not_see_the_datum(mass: float, arm: float, at: float, by: float) -> None:
    here = loading.ballast_mass(mass, arm, 0.5, at)
    assert loading.ballast_mass(mass, arm + by, 0.5 + by, at + by) == pytest.approx(here, rel=1e-9, abs=1e-9)


@given(st.floats(100, 140), st.floats(0.55, 0.7), st.floats(1.0, 1.2))
def test_a_heavier_aircraft_of_the_same_balance_needs_a_heavier_pilot(
    m_0: float, x_0: float, by: float
) -> None:
    assert smallest(by * m_0, x_0, 0.0, TAPERED) >= smallest(m_0, x_0, 0.0, TAPERED)


def test_who_fits_in_every_case_is_heavier_than_the_lightest_of_each_and_lighter_than_the_heaviest() -> None:
    assert loading.lightest_in_every_case([34.5, 36.0, 35.1]) == 36.0
    assert loading.heaviest_in_every_case([101.6, 97.1, 99.0]) == 97.1


@given(masses=st.lists(st.floats(0, 200), min_size=1, max_size=4), more=st.floats(0, 200))
def test_another_case_never_makes_room_for_another_pilot(masses: list[float], more: float) -> None:
    assert loading.lightest_in_every_case([*masses, more]) >= loading.lightest_in_every_case(masses)
    assert loading.heaviest_in_every_case([*masses, more]) <= loading.heaviest_in_every_case(masses)
