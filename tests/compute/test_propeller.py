"""The ideal disc: momentum theory from its own equations, limits, borders."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import propeller
from dossier.figures import OutsideRange

POWERS, DIAMETERS, DENSITIES = st.floats(1000, 30000), st.floats(0.6, 2.5), st.floats(0.7, 1.3)


@given(POWERS, DIAMETERS, st.floats(0, 50), DENSITIES)
def test_the_disc_keeps_power_and_momentum(P: float, D: float, v: float, rho: float) -> None:
    found = propeller.disc(P, D, v, rho)
    thrust, inflow = found.one("thrust"), found.one("inflow")
    assert thrust * (v + inflow) == pytest.approx(P)
    assert thrust == pytest.approx(2 * rho * pi * D**2 / 4 * inflow * (v + inflow))


@given(POWERS, DIAMETERS, DENSITIES)
def test_a_disc_that_stands_still_has_the_static_thrust(P: float, D: float, rho: float) -> None:
    assert propeller.disc(P, D, 0.0, rho).one("thrust") == pytest.approx(
        propeller.static_thrust(P, D, rho, 1.0)
    )


def test_ten_kilowatts_on_1_5_m_stand_still_with_757_newtons() -> None:
    # worked out apart from this code
    assert propeller.static_thrust(10000.0, 1.5, 1.225, 1.0) == pytest.approx(757, abs=0.5)


@pytest.mark.parametrize(("diameter", "ideal"), [(1.8, 0.81), (1.3, 0.73), (1.0, 0.66)])
def test_the_ideal_at_16_m_s_and_9_kw_is_the_worked_one(diameter: float, ideal: float) -> None:
    assert propeller.disc_efficiency(9000.0, diameter, 16.0, 1.225) == pytest.approx(ideal, abs=0.005)


@given(POWERS, DIAMETERS, st.floats(1, 50), st.floats(1.05, 2))
def test_a_larger_disc_is_never_worse(P: float, D: float, v: float, by: float) -> None:
    small, large = propeller.disc(P, [D, by * D], v, 1.225).computed["efficiency"]
    assert small < large < 1


@given(POWERS, DIAMETERS, st.floats(0, 50), st.floats(0.4, 0.95))
def test_a_disc_that_gets_less_of_the_power_has_less_thrust(P: float, D: float, v: float, k: float) -> None:
    part, whole = propeller.disc(P, D, v, 1.225, quality=[k, 1.0]).computed["thrust"]
    assert part < whole


def test_very_fast_the_ideal_nears_one() -> None:
    assert propeller.disc_efficiency(1000.0, 3.0, 500.0, 1.225) == pytest.approx(1.0, abs=1e-5)


def test_a_table_over_diameters_and_speeds_has_their_shape() -> None:
    found = propeller.disc(9000.0, np.array([1.0, 1.3])[:, None], np.array([0.0, 10.0, 20.0]), 1.225)
    assert found.computed["thrust"].shape == (2, 3)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: propeller.static_thrust(0.0, 1.3, 1.2, 1.0), "shaft power is 0 W"),
        (lambda: propeller.static_thrust(9e3, 1.3, 1.2, 1.1), "efficiency is 1.1"),
        (lambda: propeller.disc_efficiency(9e3, 1.3, 0.0, 1.2), "speed is 0 m/s"),
        (lambda: propeller.disc(9e3, 0.0, 10.0, 1.2), "diameter of the propeller is 0 m"),
        (lambda: propeller.disc(9e3, 1.3, -1.0, 1.2), "speed is -1 m/s"),
        (lambda: propeller.disc(9e3, 1.3, 10.0, 1.2, quality=1.2), "quality is 1.2"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
