"""Numbers in sentences: as short as may be, and never on another side than the value."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.judge.decision import Limit
from dossier.judge.words import beside


def about(value: float, stated: float, share: float = 0.01) -> str:
    """Print a value beside "about" a number, which is held to be within a share of it."""
    return beside(value, stated, (Limit(stated * (1 + share), "<="), Limit(stated * (1 - share), ">=")))


@pytest.mark.parametrize(
    ("value", "stated", "shown"),
    [
        (52.0425, 52.0, "52.04"),
        (52.4, 52.0, "52.4"),
        (57.6, 54.0, "57.6"),
        (19.42, 20.0, "19.4"),
        (51.96, 52.0, "51.96"),
        (52.0, 52.0, "52"),
        (2.9041, 2.9, "2.904"),
        (1502.2, 1500.0, "1502"),
    ],
)
def test_a_number_is_as_fine_as_the_one_that_is_stated_and_shows_its_side(
    value: float, stated: float, shown: str
) -> None:
    assert about(value, stated) == shown


def test_a_number_just_beyond_the_end_of_about_is_printed_beyond_it() -> None:
    # 1 % of 52 is 0.52: 52.51 is still about 52 and must not read 53; 1.0104 is not about 1, as 1.01 would be
    assert about(52.51, 52.0) == "52.5"
    assert about(1.0104, 1.0) == "1.0104"


@given(st.floats(0.1, 1e4), st.floats(-0.03, 0.03))
def test_what_is_printed_lies_where_the_value_lies(stated: float, off: float) -> None:
    stated = float(f"{stated:.3g}")
    value = stated * (1 + off)
    shown = float(about(value, stated))
    ends = (Limit(stated * 1.01, "<="), Limit(stated * 0.99, ">="))
    assert [end.keeps(shown) for end in ends] == [end.keeps(value) for end in ends]
    assert shown == pytest.approx(value, rel=0.00501)
