"""A cell refuses what its solvers could not work on."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from battery_cells import CHEN
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.cell import CellLimits
from dossier.compute.curve import curve, held_to
from dossier.figures import OutsideRange


def test_common_points_lose_nothing_of_either_table() -> None:
    z, U, R = CHEN.nodes()
    assert set(CHEN.rest.x) | set(CHEN.resistance.x) == set(z)
    assert list(U[np.isin(z, CHEN.rest.x)]) == list(CHEN.rest.y)
    assert list(R[np.isin(z, CHEN.resistance.x)]) == list(CHEN.resistance.y)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            {"rest": curve([0, 0.5, 1], [3.0, 3.5, 3.4])},
            "the rest voltage of the table must rise from row to row",
        ),
        ({"resistance": curve([0.1, 1], [0.05, 0.05])}, "do not cover the same states of charge"),
        (
            {"resistance": curve([0, 1], [0.05, -0.01])},
            "the resistance of the table is -0.01 Ω, and must not be negative",
        ),
        ({"capacity": 0.0}, "the capacity is 0 C, and must be positive"),
        ({"nominal_voltage": 0.0}, "the nominal energy is 0 J, and must be positive"),
        ({"limits": CellLimits(2.1)}, "must be above 2.1 V, half of the highest rest voltage"),
        ({"limits": CellLimits(4.2)}, "and below 4.2 V"),
    ],
)
def test_a_cell_that_cannot_be_solved_is_refused(change: dict[str, object], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        replace(CHEN, **change)  # type: ignore[arg-type]
    assert message in str(refused.value)


def test_a_curve_of_one_point_is_refused() -> None:
    with pytest.raises(OutsideRange, match="at least two points, and has 1 and 1"):
        curve([0.0], [1.0])


def test_a_curve_goes_on_along_its_last_line() -> None:
    assert curve([0, 1, 2], [0, 1, 3]).along(np.array([-1.0, 0.5, 3.0])) == pytest.approx([-1.0, 0.5, 5.0])


def test_a_curve_is_held_to_its_ends_and_not_cut() -> None:
    held = held_to(curve([0.2, 0.8], [5.0, 7.0]), 0.0, 1.0)
    assert (held.x, held.y) == ((0.0, 0.2, 0.8, 1.0), (5.0, 5.0, 7.0, 7.0))
    assert held_to(held, 0.1, 0.9) == held


@given(st.floats(0, 1))
def test_one_value_and_many_agree(z: float) -> None:
    assert CHEN.rest.along(np.array([z]))[0] == pytest.approx(CHEN.rest.at(z, "state of charge"), rel=1e-14)
