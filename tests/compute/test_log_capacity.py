"""The whole capacity from a test over a part of the charge."""

from __future__ import annotations

import pytest

from dossier.compute.log_capacity import whole_capacity
from dossier.figures import OutsideRange


def test_half_of_the_charge_is_half_of_the_capacity() -> None:
    assert whole_capacity(180000.0, 0.9, 0.4) == pytest.approx(360000.0)


def test_a_test_over_the_whole_table_took_the_capacity() -> None:
    assert whole_capacity(360000.0, 1.0, 0.0) == 360000.0


def test_a_short_test_tells_no_capacity() -> None:
    with pytest.raises(OutsideRange, match="must go over at least"):
        whole_capacity(36000.0, 0.9, 0.7)
