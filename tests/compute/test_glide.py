"""Glides of many cases: the clamp above the stall, stalled speeds by name, shapes."""

from __future__ import annotations

import numpy as np
import pytest
from invented_glider import POLAR, RHO

from dossier.compute.flight_outcome import CLAMPS, OBSTACLES, Clamp, Obstacle
from dossier.compute.glide import Polar, best_glide, drag, glides, least_sink
from dossier.figures import OutsideRange

SLOW_STALL = Polar(POLAR.zero_lift_drag, POLAR.induced, POLAR.area, lift_maximum=3.0)


def test_the_least_sink_of_the_invented_aircraft_is_raised_above_the_stall() -> None:
    # 201.5 kg: 14.46 m/s and 0.693 m/s on the parabola, 15.67 and 0.700 kept (worked out apart)
    at = drag(POLAR, 201.5, RHO)
    assert float(at.least_power_speed) == pytest.approx(14.46, abs=0.005)
    assert float(at.sink(at.least_power_speed)) == pytest.approx(0.693, abs=5e-4)
    kept = least_sink(POLAR, 201.5, RHO)
    assert kept.one("speed") == pytest.approx(15.67, abs=0.005)
    assert kept.one("sink") == pytest.approx(0.700, abs=5e-4)


def test_a_raised_speed_says_so_by_name() -> None:
    clamp = Clamp(int(least_sink(POLAR, 201.5, RHO).clamp))
    assert clamp is Clamp.STALL_MARGIN
    assert CLAMPS[clamp] == "raised to 1.1 times the stalling speed"


def test_a_speed_far_above_the_stall_stays_where_the_polar_has_it() -> None:
    found = least_sink(SLOW_STALL, 201.5, RHO)
    assert Clamp(int(found.clamp)) is Clamp.NONE
    assert found.one("speed") == pytest.approx(float(drag(POLAR, 201.5, RHO).least_power_speed))


def test_a_speed_below_the_stall_has_no_sink_but_a_name() -> None:
    found = glides(POLAR, [12.0, 20.0], 201.5, RHO)
    assert found.one("sink", 0) is Obstacle.STALLED
    assert isinstance(found.one("sink", 1), float)
    assert OBSTACLES[Obstacle.STALLED] == "the wing stalls at this speed and mass"


def test_a_column_holds_what_the_reader_asks_for_where_there_is_no_answer() -> None:
    column = glides(POLAR, [12.0, 20.0], 201.5, RHO).column("sink", otherwise=-1.0)
    assert column[0] == -1.0
    assert column[1] > 0


def test_the_lift_coefficient_at_the_stall_is_the_greatest() -> None:
    v = float(drag(POLAR, 201.5, RHO).stall)
    assert glides(POLAR, v * (1 + 1e-9), 201.5, RHO).one("lift_coefficient") == pytest.approx(
        POLAR.lift_maximum
    )


def test_a_table_over_masses_and_densities_has_their_shape() -> None:
    masses, densities = np.linspace(180, 250, 5)[:, None], np.array([1.225, 1.1, 1.0])
    found = best_glide(POLAR, masses, densities)
    assert found.computed["speed"].shape == (5, 3)
    assert found.one("speed", (4, 2)) == best_glide(POLAR, 250.0, 1.0).one("speed")


def test_no_answer_holds_anything_but_finite_numbers() -> None:
    found = glides(POLAR, np.linspace(1.0, 60.0, 60), 201.5, RHO)
    assert all(np.isfinite(column).all() for column in found.computed.values())


def test_pilots_from_55_to_110_kg_have_the_worked_stalls() -> None:
    # in knots at sea level: 181.5, 236.5 and 245.0 kg (worked out apart from this code)
    knots = drag(POLAR, [181.5, 236.5, 245.0], RHO).stall / (1852 / 3600)
    assert knots == pytest.approx([26.3, 30.0, 30.5], abs=0.05)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: glides(POLAR, 0.0, 200.0, RHO), "speed is 0 m/s"),
        (lambda: drag(POLAR, [200.0, -1.0], RHO), "mass is -1 kg"),
        (lambda: drag(POLAR, 200.0, 0.0), "density is 0 kg/m³"),
        (lambda: Polar(0.0, 0.02, 11.0, 1.4), "zero-lift drag coefficient is 0"),
        (lambda: Polar(0.02, 0.0, 11.0, 1.4), "induced drag factor is 0"),
        (lambda: Polar(0.02, 0.02, 0.0, 1.4), "wing area is 0 m²"),
        (lambda: Polar(0.02, 0.02, 11.0, 0.0), "maximum lift coefficient is 0"),
    ],
)
def test_what_is_outside_is_refused_with_its_value(ask: object, says: str) -> None:
    assert callable(ask)
    with pytest.raises(OutsideRange, match=says):
        ask()
