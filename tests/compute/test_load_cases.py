"""Combinations of loads and their corners. The aircraft is invented."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.envelope import Envelope, margins
from dossier.compute.load_cases import Load, combine, corners, pilot_masses_to_check
from dossier.compute.weights import centre_of_gravity

ENVELOPE = Envelope((150.0, 250.0), (0.30, 0.34), (0.50, 0.50))
PACKS = (Load("short pack", 115.0, 0.62), Load("long pack", 125.0, 0.58))
PILOTS = (Load("light pilot", 55.0, 0.10), Load("heavy pilot", 110.0, 0.10))
BALLAST = (Load("no ballast", 0.0, 0.0), Load("nose ballast", 5.0, -0.80))


def test_every_combination_is_there() -> None:
    assert combine(PACKS, PILOTS, BALLAST).masses.tolist() == [
        [[170.0, 175.0], [225.0, 230.0]],
        [[180.0, 185.0], [235.0, 240.0]],
    ]


def test_a_combination_has_the_centre_of_gravity_of_its_loads() -> None:
    cases = combine(PACKS, PILOTS, BALLAST)
    loads = cases.loads((1, 0, 1))
    assert [load.name for load in loads] == ["long pack", "light pilot", "nose ballast"]
    arm = centre_of_gravity([load.mass for load in loads], [load.arm for load in loads])
    assert cases.arms[1, 0, 1] == pytest.approx(arm)


def test_the_corners_are_the_cases_closest_to_each_limit() -> None:
    found = corners(combine(PACKS, PILOTS, BALLAST), ENVELOPE)
    assert [(corner.limit, [load.name for load in corner.loads]) for corner in found] == [
        ("forward", ["long pack", "heavy pilot", "nose ballast"]),
        ("aft", ["short pack", "light pilot", "no ballast"]),
        ("mass", ["long pack", "heavy pilot", "nose ballast"]),
    ]


def test_a_corner_tells_mass_arm_and_margin() -> None:
    # by hand: 115 x 0.62 + 55 x 0.10 = 76.8 kg m over 170 kg, 0.4518 m; the aft limit is 0.50 m
    aft = corners(combine(PACKS, PILOTS, BALLAST), ENVELOPE)[1]
    assert (aft.mass, aft.arm, aft.margin) == pytest.approx((170.0, 0.45176, 0.04824), abs=5e-6)


def test_cases_over_the_mass_limit_show_as_a_negative_margin_of_mass() -> None:
    found = corners(combine(PACKS, (Load("very heavy pilot", 150.0, 0.1),)), ENVELOPE)
    assert [(corner.limit, corner.margin) for corner in found] == [("mass", -25.0)]


def test_cases_over_the_mass_limit_do_not_hide_the_corners_of_the_others() -> None:
    found = corners(combine(PACKS, (*PILOTS, Load("very heavy pilot", 150.0, 0.1))), ENVELOPE)
    assert [corner.limit for corner in found] == ["forward", "aft", "mass"]
    assert found[0].loads[1].name == "heavy pilot"


def test_an_empty_axis_is_refused() -> None:
    with pytest.raises(ValueError, match="every axis needs at least one load"):
        combine(PACKS, ())


def test_no_axis_is_refused() -> None:
    with pytest.raises(ValueError, match="every axis needs at least one load"):
        combine()


def test_a_combination_without_mass_is_refused() -> None:
    with pytest.raises(ValueError, match="no positive mass"):
        combine((Load("nothing", 0.0, 0.0),))


def test_a_bend_of_a_limit_between_two_pilots_is_checked_too() -> None:
    without = Load("aircraft", 115.0, 0.62)
    assert pilot_masses_to_check(without, 0.10, (30.0, 110.0), ENVELOPE) == (30.0, 35.0, 110.0)


def test_an_end_that_is_a_bend_is_checked_once() -> None:
    without = Load("aircraft", 115.0, 0.62)
    assert pilot_masses_to_check(without, 0.10, (35.0, 135.0), ENVELOPE) == (35.0, 135.0)


SAGGING = Envelope((150.0, 250.0), (0.42, 0.34), (0.60, 0.60))
"""Invented: the forward limit moves forward with mass, so the margin has a minimum between the bends."""


def test_the_smallest_margin_between_two_bends_is_checked_too() -> None:
    # the margin is 0.1 + 59.8/m - (0.54 - 0.0008 m), smallest at m² = 59.8/0.0008: m = 273.4, too high
    assert pilot_masses_to_check(Load("aircraft", 115.0, 0.62), 0.10, (40.0, 130.0), SAGGING) == (40.0, 130.0)
    # with 30 kg m in place of 59.8: m² = 37500, m = 193.65
    stops = pilot_masses_to_check(Load("aircraft", 115.0, 0.1 + 30 / 115), 0.10, (40.0, 130.0), SAGGING)
    assert stops == pytest.approx((40.0, 78.649, 130.0), abs=5e-4)


@given(
    st.floats(90, 140),
    st.floats(0.2, 0.8),
    st.floats(-0.3, 0.5),
    st.tuples(st.floats(0.1, 0.45), st.floats(0.1, 0.45), st.floats(0.46, 0.7), st.floats(0.46, 0.7)),
)
def test_no_pilot_between_the_checked_ones_has_a_smaller_margin(
    m_0: float, x_0: float, x_P: float, bend: tuple[float, float, float, float]
) -> None:
    envelope = Envelope((150.0, 200.0, 250.0), (0.30, *bend[:2]), (0.50, *bend[2:]))
    without = Load("aircraft", m_0, x_0)

    def smallest(pilots: np.ndarray) -> tuple[float, float]:
        loaded = m_0 + pilots
        measured = margins(loaded, (m_0 * x_0 + pilots * x_P) / loaded, envelope)
        return float(measured.forward.min()), float(measured.aft.min())

    checked = smallest(np.array(pilot_masses_to_check(without, x_P, (50.0, 250.0 - 140.0), envelope)))
    swept = smallest(np.linspace(50.0, 110.0, 601))
    assert checked[0] <= swept[0] + 1e-12
    assert checked[1] <= swept[1] + 1e-12
