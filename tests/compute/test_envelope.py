"""Envelope limits and margins against the handbooks (tests/references/weight_and_balance.yaml)."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, column, example, number, numbers

from dossier.compute.envelope import (
    Envelope,
    aft_margin,
    bends_outward,
    forward_margin,
    limit_arm,
    margins,
    mass_margin,
)
from dossier.figures import OutsideRange

ENVELOPE = Envelope((150.0, 200.0, 250.0), (0.30, 0.31, 0.35), (0.50, 0.50, 0.48))
"""Invented."""


def rows_up(table: Any, limits: str) -> tuple[list[float], list[float], list[float]]:
    """Return masses, forward and aft limits of a printed envelope, lowest first. Books list downwards."""
    rows = table.given[limits][::-1]
    return column(rows, "weight_lb"), column(rows, "fwd_in"), column(rows, "aft_in")


@pytest.mark.parametrize("mass", [2500, 3090, 3400, 3700])
def test_the_forward_limit_lies_on_straight_lines_between_the_printed_corners(mass: int) -> None:
    # the book prints the corners; the values between them are worked out from its rule of straight lines
    table = example("weight_and_balance", "WB-014")
    masses, forward, _ = rows_up(table, "limits")
    assert limit_arm(mass, masses, forward) == as_printed(table.expect[f"fwd_at_{mass}_in"])


def limit_table(limit: int, column_name: str) -> list[tuple[float, float, float]]:
    """Return (weight, computed, printed) moments / 100 of the placard of WB-038."""
    table = example("weight_and_balance", "WB-038")
    corners = rows_up(table, "cg_limits")
    start, stop, step = (int(table.given["weights_lb"][key]) for key in ("start", "stop", "step"))
    printed = numbers(table.given[column_name])
    weights = [float(weight) for weight in range(start, stop + 1, step)]
    computed = [weight * limit_arm(weight, corners[0], corners[limit]) / 100 for weight in weights]
    return list(zip(weights, computed, printed, strict=True))


@pytest.mark.parametrize(
    ("limit", "name", "misprints"),
    [(1, "printed_min_moment_per_100", {2470.0}), (2, "printed_max_moment_per_100", {2860.0, 2900.0})],
)
def test_a_printed_table_of_56_moment_limits_agrees_except_for_its_misprints(
    limit: int, name: str, misprints: set[float]
) -> None:
    # the three entries that do not follow from the corners are two slips of a digit and one of 2.5 units
    rows = limit_table(limit, name)
    assert {weight for weight, computed, printed in rows if abs(computed - printed) > 1.5} == misprints
    assert len(rows) == 56


@pytest.mark.parametrize("row", range(3))
def test_the_misprinted_moment_limits_have_their_recomputed_values(row: int) -> None:
    misprint = example("weight_and_balance", "WB-038").expect["misprints_found"][row]
    limit, name = (
        (1, "printed_min_moment_per_100")
        if misprint["column"] == "min"
        else (2, "printed_max_moment_per_100")
    )
    computed = {weight: value for weight, value, _ in limit_table(limit, name)}
    assert computed[number(misprint["weight_lb"])] == as_printed(misprint["computed"])


def test_the_printed_sample_loading_is_inside_its_envelope() -> None:
    table = example("weight_and_balance", "WB-038")
    sample = table.given["sample"]
    weight, moment = number(sample["weight_lb"]), 100 * number(sample["moment_per_100"])
    arm = moment / weight
    assert margins(weight, arm, Envelope(*map(tuple, rows_up(table, "cg_limits")))).inside.item() is True


@pytest.mark.parametrize(("name", "limits"), [("WB-017", "cg_limits_in"), ("WB-030", "cg_range_in")])
def test_a_loading_that_the_book_calls_within_limits_has_positive_margins(name: str, limits: str) -> None:
    table = example("weight_and_balance", name)
    forward, aft = numbers(table.given[limits])
    mass, arm = number(table.expect["total_weight_lb"]), number(table.expect["cg_in"])
    assert forward_margin(mass, arm, [mass], [forward]) > 0
    assert aft_margin(mass, arm, [mass], [aft]) > 0


def test_limits_are_constant_below_the_lowest_corner() -> None:
    assert limit_arm(1.0, ENVELOPE.masses, ENVELOPE.forward) == 0.30


def test_the_highest_corner_belongs_to_the_envelope() -> None:
    assert limit_arm(250.0, ENVELOPE.masses, ENVELOPE.forward) == 0.35


@pytest.mark.parametrize("mass", [250.0000001, 0.0, -1.0])
def test_no_limit_is_laid_down_above_the_mass_limit_or_without_mass(mass: float) -> None:
    with pytest.raises(OutsideRange, match="not between 0 and the mass limit of 250 kg"):
        limit_arm(mass, ENVELOPE.masses, ENVELOPE.forward)


def test_corners_that_do_not_rise_in_mass_are_refused() -> None:
    with pytest.raises(OutsideRange, match="row 2 has 150 behind 200"):
        limit_arm(100.0, [200.0, 150.0], [0.3, 0.3])


def test_margins_by_hand() -> None:
    # at 225 kg, half way between corners, the limits are 0.33 m and 0.49 m
    assert forward_margin(225.0, 0.40, ENVELOPE.masses, ENVELOPE.forward) == pytest.approx(0.07)
    assert aft_margin(225.0, 0.40, ENVELOPE.masses, ENVELOPE.aft) == pytest.approx(0.09)


def test_a_mass_margin_is_negative_over_the_limit() -> None:
    # the highest take-off mass of WB-033's ramp: 5,224 lb allowed, 5,062 lb loaded
    table = example("weight_and_balance", "WB-033")
    allowed = number(table.given["limits_lb"]["ramp"])
    loaded = number(table.expect["ramp"]["weight_lb"])
    assert mass_margin(allowed, loaded) == 162
    assert mass_margin(loaded, allowed) == -162


def test_margins_of_many_loadings_agree_with_the_single_formulas() -> None:
    masses, arms = np.array([120.0, 150.0, 175.0, 249.0]), np.array([0.2, 0.3, 0.6, 0.4])
    measured = margins(masses, arms, ENVELOPE)
    pairs = list(zip(masses, arms, strict=True))
    forward = [forward_margin(m, x, ENVELOPE.masses, ENVELOPE.forward) for m, x in pairs]
    aft = [aft_margin(m, x, ENVELOPE.masses, ENVELOPE.aft) for m, x in pairs]
    assert measured.forward == pytest.approx(forward, abs=1e-15)
    assert measured.aft == pytest.approx(aft, abs=1e-15)
    assert measured.mass == pytest.approx([130.0, 100.0, 75.0, 1.0])


def test_loadings_are_inside_on_the_border_and_outside_beyond_it() -> None:
    measured = margins([150.0, 150.0, 150.0, 150.0, 250.0], [0.30, 0.2999, 0.50, 0.5001, 0.35], ENVELOPE)
    assert measured.inside.tolist() == [True, False, True, False, True]


def test_a_loading_over_the_mass_limit_has_no_margin_of_arm_and_is_not_inside() -> None:
    measured = margins(251.0, 0.4, ENVELOPE)
    assert np.isnan(measured.forward)
    assert np.isnan(measured.aft)
    assert measured.mass == -1.0
    assert not measured.inside


def test_margins_keep_the_shape_of_the_loadings() -> None:
    assert margins(np.full((2, 3), 160.0), np.full((2, 3), 0.4), ENVELOPE).inside.shape == (2, 3)


@pytest.mark.parametrize(
    ("corners", "message"),
    [
        (((), (), ()), "needs a corner"),
        (((1.0,), (0.3,), ()), "needs a corner"),
        (((0.0, 1.0), (0.3, 0.3), (0.5, 0.5)), "lowest corner has a mass of 0 kg"),
        (((2.0, 1.0), (0.3, 0.3), (0.5, 0.5)), "must rise from row to row"),
        (((1.0, 2.0), (0.3, 0.5), (0.5, 0.5)), "at 2 kg the forward limit 0.5 m is not ahead"),
    ],
)
def test_what_is_no_envelope_is_refused(corners: tuple[Any, Any, Any], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Envelope(*corners)


def test_an_envelope_cut_at_a_lower_mass_keeps_its_shape_below() -> None:
    cut = ENVELOPE.up_to(225.0)
    assert cut.masses == (150.0, 200.0, 225.0)
    assert cut.forward == pytest.approx((0.30, 0.31, 0.33))
    assert cut.aft == pytest.approx((0.50, 0.50, 0.49))


def test_an_envelope_cut_at_a_corner_ends_there() -> None:
    assert ENVELOPE.up_to(200.0) == Envelope((150.0, 200.0), (0.30, 0.31), (0.50, 0.50))


def test_an_envelope_cannot_be_cut_above_its_top() -> None:
    with pytest.raises(OutsideRange):
        ENVELOPE.up_to(260.0)


def test_the_pieces_of_a_limit_meet_its_corners() -> None:
    ends = [
        (line.start + line.slope * line.low, line.start + line.slope * line.high)
        for line in ENVELOPE.lines(ENVELOPE.forward)
    ]
    assert ends == [pytest.approx(pair) for pair in [(0.30, 0.30), (0.30, 0.31), (0.31, 0.35)]]


@given(st.floats(1, 250), st.floats(0, 1), st.floats(-5, 5))
def test_margins_do_not_see_the_datum(mass: float, arm: float, by: float) -> None:
    moved = Envelope(
        ENVELOPE.masses, tuple(x + by for x in ENVELOPE.forward), tuple(x + by for x in ENVELOPE.aft)
    )
    here, there = margins(mass, arm, ENVELOPE), margins(mass, arm + by, moved)
    assert there.forward == pytest.approx(here.forward, abs=1e-12)
    assert there.aft == pytest.approx(here.aft, abs=1e-12)


@given(st.floats(1, 250), st.floats(0, 1))
def test_both_margins_add_up_to_the_width_of_the_envelope(mass: float, arm: float) -> None:
    forward = limit_arm(mass, ENVELOPE.masses, ENVELOPE.forward)
    aft_limit = limit_arm(mass, ENVELOPE.masses, ENVELOPE.aft)
    fore = forward_margin(mass, arm, ENVELOPE.masses, ENVELOPE.forward)
    aft = aft_margin(mass, arm, ENVELOPE.masses, ENVELOPE.aft)
    assert fore + aft == pytest.approx(aft_limit - forward, abs=1e-12)


@given(st.floats(100, 250), st.floats(100, 250))
def test_a_rising_limit_rises_with_mass(one: float, other: float) -> None:
    low, high = sorted((one, other))
    ends = [limit_arm(mass, ENVELOPE.masses, ENVELOPE.forward) for mass in (low, high)]
    assert ends[0] <= ends[1]


# --- whether loadings between two that are inside are inside as well


def test_an_envelope_whose_forward_limit_moves_aft_with_mass_bends_outward() -> None:
    assert bends_outward(Envelope((150.0, 190.0, 250.0), (0.30, 0.30, 0.35), (0.50, 0.50, 0.48)))


def test_a_forward_limit_that_moves_forward_with_mass_bends_inward() -> None:
    assert not bends_outward(Envelope((150.0, 250.0), (0.30, 0.28), (0.50, 0.50)))


def test_an_aft_limit_that_moves_aft_with_mass_bends_inward() -> None:
    assert not bends_outward(Envelope((150.0, 250.0), (0.30, 0.30), (0.50, 0.52)))


def test_a_forward_limit_that_rises_less_steeply_further_up_bends_inward() -> None:
    assert not bends_outward(Envelope((150.0, 190.0, 250.0), (0.30, 0.35, 0.36), (0.50, 0.50, 0.50)))


@given(
    steps=st.lists(st.floats(0, 0.001), min_size=1, max_size=4),
    falls=st.lists(st.floats(0, 0.0005), min_size=4, max_size=4),
    mix=st.floats(0, 1),
    ends=st.tuples(st.floats(150, 300), st.floats(0, 1), st.floats(150, 300), st.floats(0, 1)),
)
def test_between_two_loadings_inside_an_envelope_that_bends_outward_every_one_is_inside(
    steps: list[float], falls: list[float], mix: float, ends: tuple[float, float, float, float]
) -> None:
    masses, forward, aft = [150.0], [0.2], [0.6]
    for up, down in zip(sorted(steps), sorted(falls), strict=False):
        masses.append(masses[-1] + 40)
        forward.append(forward[-1] + 40 * up)
        aft.append(aft[-1] - 40 * down)
    envelope = Envelope(tuple(masses), tuple(forward), tuple(aft))
    assert bends_outward(envelope)
    loads = []
    for drawn, share in (ends[:2], ends[2:]):
        mass = min(drawn, masses[-1])
        low, high = (limit_arm(mass, envelope.masses, limit) for limit in (envelope.forward, envelope.aft))
        loads.append((mass, low + share * (high - low)))
    mass = mix * loads[0][0] + (1 - mix) * loads[1][0]
    arm = (mix * loads[0][0] * loads[0][1] + (1 - mix) * loads[1][0] * loads[1][1]) / mass
    measured = margins(mass, arm, envelope)
    assert min(measured.forward.item(), measured.aft.item()) > -1e-9
