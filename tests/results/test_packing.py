"""The size of a packed trailer, and the limits of the road."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.model.road_limits import RoadLimit, RoadLimits, RoadPlace
from dossier.model.trailer import PackedPart, Trailer
from dossier.quantities import Quantity, parse
from dossier.results.packing import Size, packed, sizes
from dossier.results.road import judge_road


def length(text: str) -> Quantity:
    return parse(text, "length")


def part(name: str = "wing", **lengths: str) -> PackedPart:
    usual = {
        "length": "6 m",
        "width": "0.4 m",
        "height": "1 m",
        "behind": "0 m",
        "right": "0 m",
        "above": "0.5 m",
    }
    return PackedPart.model_construct(
        name=name, **{key: length(text) for key, text in {**usual, **lengths}.items()}
    )


def trailer(*parts: PackedPart, **changed: Any) -> Trailer:
    usual: dict[str, Any] = {
        "length": length("6.5 m"), "width": length("2 m"), "height": length("2.2 m"),
        "drawbar": length("1.2 m"),
        "towing_vehicle": length("4.5 m"), "places": ["here"], "kind": "open", "name": "Trailer",
    }  # fmt: skip
    return Trailer.model_construct(
        parts={f"part-{number}": one for number, one in enumerate(parts)}, **{**usual, **changed}
    )


def size(found: Trailer, measure: str) -> Size:
    return next(one for one in sizes(found) if one.measure == measure)


def test_parts_inside_the_body_leave_its_size() -> None:
    found = {one.measure: round(one.value, 6) for one in sizes(trailer(part()))}
    assert found == {
        "width": 2.0,
        "height": 2.2,
        "body length": 6.5,
        "trailer length": 7.7,
        "combination length": 12.2,
    }


def test_a_part_over_the_rear_counts_in_every_length() -> None:
    found = trailer(part(behind="1 m"))
    assert [
        round(size(found, name).value, 6) for name in ("body length", "trailer length", "combination length")
    ] == [7.0, 8.2, 12.7]
    assert size(found, "body length").set_by == "the body and wing"


def test_a_part_over_the_drawbar_lengthens_what_is_without_drawbar_alone() -> None:
    found = trailer(part(behind="-0.8 m"))
    assert round(size(found, "body length").value, 6) == 7.3
    assert round(size(found, "trailer length").value, 6) == 7.7


def test_a_part_ahead_of_the_coupling_counts_with_the_drawbar() -> None:
    assert round(size(trailer(part(behind="-1.5 m")), "trailer length").value, 6) == 8.0


def test_a_part_on_one_side_widens_that_side_alone() -> None:
    found = size(trailer(part(right="1 m")), "width")
    assert (round(found.value, 6), found.set_by) == (2.2, "the body and wing")


def test_the_highest_place_is_the_height() -> None:
    found = size(trailer(part(above="1.5 m")), "height")
    assert (found.value, found.set_by) == (2.5, "wing")


def test_without_a_towing_vehicle_there_is_no_combination() -> None:
    assert "combination length" not in {one.measure for one in sizes(trailer(part(), towing_vehicle=None))}


@given(st.lists(st.tuples(st.integers(-20, 60), st.integers(1, 80), st.integers(-15, 15)), max_size=5))
def test_another_part_never_makes_it_smaller(parts: list[tuple[int, int, int]]) -> None:
    packed = [part(behind=f"{a / 10} m", length=f"{b / 10} m", right=f"{c / 10} m") for a, b, c in parts]
    before = [one.value for one in sizes(trailer(*packed))]
    after = [one.value for one in sizes(trailer(*packed, part()))]
    assert all(more >= less for less, more in zip(before, after, strict=True))


def limit(text: str, measure: str = "width") -> RoadLimits:
    one = RoadLimit.model_construct(measure=measure, limit=length(text), clause="1", source="law")
    place = RoadPlace.model_construct(name="Here", scope="All.", limits=[one])
    return RoadLimits.model_construct(places={"here": place}, sources={}, last_checked=None)


@pytest.mark.parametrize(("width", "state"), [
    ("2.55 m", "within the limit"), ("2.56 m", "beyond the limit"), ("2.54 m", "within the limit"),
    ("2.54 m ± 0.02 m", "too close to tell"), ("2.52 m ± 0.02 m", "within the limit"),
    ("2.60 m ± 0.02 m", "beyond the limit"),
])  # fmt: skip
def test_a_size_is_held_against_its_limit(width: str, state: str) -> None:
    (verdict,) = judge_road(trailer(width=length(width)), limit("2.55 m")).verdicts
    assert verdict.state == state


def test_a_measure_that_the_file_does_not_give_is_not_shown() -> None:
    found = judge_road(trailer(towing_vehicle=None), limit("18.75 m", "combination length"))
    assert [(one.state, one.margin) for one in found.verdicts] == [("not shown", None)]


def test_the_error_of_a_width_that_sets_both_sides_counts_once() -> None:
    # half of the width lies on each side, with half of its error: 0.01 m + 0.01 m = 0.02 m, k = 2
    assert size(trailer(width=length("2.00 m ± 0.02 m")), "width").expanded_uncertainty == pytest.approx(0.02)


def test_the_place_of_a_part_that_sets_both_sides_cancels() -> None:
    found = size(trailer(part(width="2.4 m ± 0.02 m", right="0 m ± 0.1 m")), "width")
    assert (round(found.value, 9), found.set_by) == (2.4, "wing")
    assert found.expanded_uncertainty == pytest.approx(0.02)


def test_independent_lengths_that_set_a_size_add_in_squares() -> None:
    found = size(trailer(part(behind="1 m ± 0.03 m", length="6 m ± 0.04 m")), "body length")
    assert found.expanded_uncertainty == pytest.approx(0.05)


def test_the_sheet_of_a_reach_lists_everything_that_was_considered() -> None:
    reach = next(
        one for one in packed(trailer(part(above="1.5 m"))).reaches if one.name == "packed_reach.top"
    )
    assert [(step.label, round(step.value, 9)) for step in reach.working.steps] == [
        ("the body", 2.2),
        ("wing", 2.5),
    ]


def test_a_margin_is_a_figure_from_limit_and_size() -> None:
    (verdict,) = judge_road(trailer(width=length("2.52 m ± 0.02 m")), limit("2.55 m")).verdicts
    assert verdict.left is not None
    assert verdict.left.value == pytest.approx(0.03)
    assert verdict.left.standard_uncertainty == pytest.approx(0.01)


def test_a_place_that_is_named_twice_is_judged_once() -> None:
    assert len(judge_road(trailer(places=["here", "here"]), limit("2.55 m")).verdicts) == 1
