"""What counts against a limit. Allowances as third parties report them from AC 103-7: 24 lb and 30 lb."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute import allowances
from dossier.figures import OutsideRange


def test_254_lb_with_two_floats_and_a_parachute_weigh_338_lb() -> None:
    # 338 = 254 + 24 + 2 x 30, reported second-hand from the circular
    assert allowances.counted_mass(338.0, [24.0, 30.0, 30.0], [24.0, 30.0, 30.0]) == pytest.approx(254.0)


def test_what_exceeds_its_allowance_counts() -> None:
    assert allowances.counted_mass(280.0, [26.5], [24.0]) == pytest.approx(256.0)


def test_a_lighter_item_leaves_out_no_more_than_itself() -> None:
    assert allowances.counted_mass(280.0, [18.0], [24.0]) == pytest.approx(262.0)


def test_more_cannot_be_left_out_than_there_is() -> None:
    assert allowances.counted_mass(24.0, [24.0], [24.0]) == 0.0
    with pytest.raises(OutsideRange, match=r"what is left out, 24 kg, is more than the empty mass of 23 kg"):
        allowances.counted_mass(23.0, [24.0], [24.0])


@pytest.mark.parametrize(("items", "caps"), [([-1.0], [24.0]), ([1.0], [-24.0])])
def test_a_negative_mass_is_refused(items: list[float], caps: list[float]) -> None:
    with pytest.raises(OutsideRange, match="must not be negative"):
        allowances.counted_mass(100.0, items, caps)


def test_an_item_without_an_allowance_is_refused() -> None:
    with pytest.raises(ValueError, match="shorter"):
        allowances.counted_mass(100.0, [1.0, 2.0], [1.0])


ITEMS = st.lists(st.tuples(st.floats(0, 30), st.floats(0, 30)), max_size=5)


@given(st.floats(200, 400), ITEMS)
def test_the_counted_mass_lies_between_full_allowance_and_none(
    empty: float, items: list[tuple[float, float]]
) -> None:
    masses, caps = [mass for mass, _ in items], [cap for _, cap in items]
    assert empty - sum(caps) - 1e-9 <= allowances.counted_mass(empty, masses, caps) <= empty
