"""Energy of a test and resistance of a step by the model: by hand, by their laws, at their borders."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.log_capacity import capacity_beyond
from dossier.compute.log_energy import (
    accuracy,
    energy_beyond,
    energy_of_test,
    resistance_beyond,
    resistance_of_step,
)
from dossier.figures import OutsideRange

AH, WH = 3600.0, 3600.0
WARM = 298.15
PACK: dict[str, Any] = {
    "N_s": 14, "N_p": 10, "T_b": WARM, "G": 1.0, "b": 3000.0, "R_w": 0.005,
    "z_i": [0.0, 1.0], "U_i": [3.0, 4.0], "R_i": [0.025, 0.025],
}  # fmt: skip
"""Rest voltage on one straight line, one resistance."""
STEP = {key: one for key, one in PACK.items() if key != "U_i"}


def test_the_energy_of_a_test_by_hand() -> None:
    # 50 Ah from full to empty: mean rest voltage 14 x 3.5 V = 49 V; 10 A through 14/10 x 25 mΩ + 5 mΩ = 40 mΩ
    # take 0.4 V; 50 Ah x 48.6 V = 2430 Wh
    energy = energy_of_test(50 * AH, 10.0, 1.0, 0.0, k_m=1.0, **PACK)
    assert energy / WH == pytest.approx(2430.0, rel=1e-12)


def test_half_a_test_by_hand() -> None:
    # from 100 to 50 %: 25 Ah at 14 x 3.75 V - 0.4 V = 52.1 V
    energy = energy_of_test(50 * AH, 10.0, 1.0, 0.5, k_m=1.0, **PACK)
    assert energy / WH == pytest.approx(25 * 52.1, rel=1e-12)


def test_two_halves_make_the_whole() -> None:
    whole, upper, lower = (
        energy_of_test(50 * AH, 10.0, *ends, k_m=1.0, **PACK) for ends in ((0.9, 0.1), (0.9, 0.4), (0.4, 0.1))
    )
    assert upper + lower == pytest.approx(whole, rel=1e-12)


@given(st.floats(0, 50), st.floats(0, 50))
def test_a_larger_current_never_gives_more_energy(one: float, other: float) -> None:
    gentle, hard = (energy_of_test(50 * AH, amps, 1.0, 0.0, k_m=1.0, **PACK) for amps in sorted((one, other)))
    assert hard <= gentle


def test_what_the_model_may_be_off_is_a_part_of_the_energy() -> None:
    plain, off = (energy_of_test(50 * AH, 10.0, 1.0, 0.0, k_m=k_m, **PACK) for k_m in (1.0, 1.012))
    assert off / plain == pytest.approx(1.012, rel=1e-12)


def test_a_battery_a_little_beyond_full_is_on_the_last_straight_line() -> None:
    more = energy_of_test(50 * AH, 0.0, 1.01, 1.0, k_m=1.0, **{**PACK, "R_w": 0.0})
    assert more / WH == pytest.approx(0.5 * 14 * 4.005, rel=1e-9)


def test_the_resistance_of_a_step_by_hand() -> None:
    # 0.6 x 14/10 x 25 mΩ + 5 mΩ = 26 mΩ
    assert resistance_of_step(0.5, k_s=0.6, **STEP) == pytest.approx(0.026, rel=1e-12)


def test_an_aged_battery_shows_more_resistance() -> None:
    assert resistance_of_step(0.5, k_s=1.0, **{**STEP, "G": 2.0}) == pytest.approx(0.075, rel=1e-12)


def test_differences_are_measured_less_computed() -> None:
    assert energy_beyond(10.0, 9.0) == 1.0
    assert resistance_beyond(0.05, 0.04) == pytest.approx(0.01)
    assert capacity_beyond(70 * AH, 71 * AH) == -1 * AH


@pytest.mark.parametrize(
    ("kind", "rate", "part"),
    # tests/references/battery.yaml, BAT-CP: +0.2, +0.3, -0.1 % to a rate of 1 for one set, +5.2 % for another
    [
        ("energy", 0.2, 0.012),
        ("energy", 1.0, 0.052),
        ("power", 2.9, 0.025),
        ("lithium-iron-phosphate", 0.4, 0.07),
    ],
)
def test_what_the_model_may_be_off_grows_with_the_rate(kind: str, rate: float, part: float) -> None:
    assert accuracy(kind, rate) == part


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: energy_of_test(1.0, 1.0, 1.0, 0.0, k_m=1.0, **{**PACK, "T_b": 270.0}), "below 5 °C"),
        (lambda: energy_of_test(0.0, 1.0, 1.0, 0.0, k_m=1.0, **PACK), "the capacity is 0 C"),
        (lambda: energy_of_test(1.0, -1.0, 1.0, 0.0, k_m=1.0, **PACK), "the current is -1 A"),
        (lambda: energy_of_test(1.0, 1.0, 1.03, 0.0, k_m=1.0, **PACK), "the state of charge 1.03 is outside"),
        (lambda: resistance_of_step(0.5, k_s=1.0, **{**STEP, "T_b": 270.0}), "below 5 °C"),
        (lambda: accuracy("energy", 1.2), "the rate of the test is 1.2, and the model is shown to 1"),
    ],
)
def test_each_border_of_validity_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutsideRange) as refused:
        call()
    assert message in str(refused.value)
