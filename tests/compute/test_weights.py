"""Weighing and balance against the handbooks (weight_and_balance.yaml) and against the laws of moments."""

from __future__ import annotations

from math import radians
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, column, example, number, numbers

from dossier.compute import weights
from dossier.figures import OutsideRange

POUND, INCH = 0.45359237, 0.0254


def book(name: str) -> Any:
    return example("weight_and_balance", name)


def pounds(masses: list[float]) -> list[float]:
    return [mass * POUND for mass in masses]


def inches(arms: list[float]) -> list[float]:
    return [arm * INCH for arm in arms]


def centre_in(masses_lb: list[float], arms_in: list[float]) -> float:
    return weights.centre_of_gravity(pounds(masses_lb), inches(arms_in)) / INCH


def moment_lb_in(masses_lb: list[float], arms_in: list[float]) -> float:
    return weights.total_moment(pounds(masses_lb), inches(arms_in)) / (POUND * INCH)


TABLES = ["WB-001", "WB-002", "WB-017", "WB-021", "WB-030", "WB-051"]


@pytest.mark.parametrize("name", TABLES)
def test_a_printed_table_of_items_gives_its_printed_total(name: str) -> None:
    table = book(name)
    masses = column(table.given["items"], "weight_lb")
    assert weights.total_mass(pounds(masses)) / POUND == as_printed(table.expect["total_weight_lb"])


@pytest.mark.parametrize("name", TABLES)
def test_a_printed_table_of_items_gives_its_printed_moment(name: str) -> None:
    table = book(name)
    masses, arms = (column(table.given["items"], key) for key in ("weight_lb", "arm_in"))
    assert moment_lb_in(masses, arms) == as_printed(table.expect["total_moment_lb_in"])


@pytest.mark.parametrize("name", [*TABLES, "WB-016", "WB-040"])
def test_a_printed_table_of_items_gives_its_printed_centre_of_gravity(name: str) -> None:
    # the centre of gravity of WB-016 follows from its table, though the table contradicts its text (below)
    table = book(name)
    masses, arms = (column(table.given["items"], key) for key in ("weight_lb", "arm_in"))
    assert centre_in(masses, arms) == as_printed(table.expect["cg_in"])


def test_the_printed_moment_of_wb_016_is_not_the_sum_of_its_rows() -> None:
    table = book("WB-016")
    masses, arms = (column(table.given["items"], key) for key in ("weight_lb", "arm_in"))
    assert table.disagrees
    assert table.expect["total_moment_lb_in"] == "386461.0"
    assert moment_lb_in(masses, arms) == as_printed("386461.6")


def test_the_text_of_wb_016_gives_another_centre_of_gravity_than_printed() -> None:
    # 155.01 in is the arm of no seat; by the text the 160 lb passenger sits at 118.1 in
    table = book("WB-016")
    masses, arms = (column(table.given["items"], key) for key in ("weight_lb", "arm_in"))
    arms[masses.index(160)] = 118.1
    assert table.expect["cg_in"] == "92.01"
    assert centre_in(masses, arms) == as_printed("90.61")


def test_the_moment_of_wb_040_differs_by_the_rounding_of_one_row() -> None:
    # the circular prints 12,391 for 1,169 x 10.6 = 12,391.4
    table = book("WB-040")
    masses, arms = (column(table.given["items"], key) for key in ("weight_lb", "arm_in"))
    assert moment_lb_in(masses, arms) == as_printed("16104.4")


def test_the_printed_quotient_of_wb_042_is_wrong() -> None:
    table = book("WB-042")
    masses, arms = (column(table.given["items"], key) for key in ("weight_lb", "arm_in"))
    assert table.disagrees
    assert table.expect["cg_in_printed"] == "18.6"
    assert centre_in(masses, arms) == as_printed("18.32")


def test_the_empty_moment_of_wb_032_does_not_follow_from_its_rounded_arm() -> None:
    table = book("WB-032")
    empty = table.given["items"][0]
    moment = weights.moment(number(empty["weight_lb"]) * POUND, number(empty["arm_in"]) * INCH)
    assert table.disagrees
    assert table.expect["moments_lb_in"][0] == "69393.0"
    assert moment / (POUND * INCH) == as_printed("69416.3")


def test_a_centre_of_gravity_from_stored_moments_is_the_printed_one() -> None:
    # WB-032: moments stored, arms printed
    table = book("WB-032")
    moment = sum(numbers(table.expect["moments_lb_in"])) * POUND * INCH
    mass = weights.total_mass(pounds(column(table.given["items"], "weight_lb")))
    assert weights.arm_of_moment(moment, mass) / INCH == as_printed(table.expect["cg_in"])


def test_the_arm_of_a_printed_empty_moment_is_the_printed_one() -> None:
    table = book("WB-022")
    empty = table.given["rows"][0]
    moment = number(empty["moment_lb_in"]) * POUND * INCH
    arm = weights.arm_of_moment(moment, number(empty["weight_lb"]) * POUND) / INCH
    assert arm == as_printed(table.expect["empty_cg_in"])


def test_a_moment_change_moves_the_centre_of_gravity_as_printed() -> None:
    table = book("WB-013")
    moment = number(table.given["moment_change_lb_in"]) * POUND * INCH
    shift = weights.arm_of_moment(moment, number(table.given["weight_lb"]) * POUND) / INCH
    assert shift == as_printed(table.expect["delta_cg_in"])


@pytest.mark.parametrize("row", [0, 1])
def test_a_mass_at_an_arm_has_the_printed_moment(row: int) -> None:
    table = book("WB-004")
    case = table.given["cases"][row]
    moment = weights.moment(number(case["weight_lb"]) * POUND, number(case["arm_in"]) * INCH)
    assert moment / (POUND * INCH) == as_printed(table.expect["moments_lb_in"][row])


@pytest.mark.parametrize("row", range(4))
def test_signs_of_mass_and_arm_give_the_printed_sign_of_the_moment(row: int) -> None:
    signs = book("WB-004").given["sign_table"][row]
    mass, arm = (1.0 if signs[key] == "+" else -1.0 for key in ("weight", "arm"))
    assert weights.moment(mass, arm) == (1.0 if signs["moment"] == "+" else -1.0)


@pytest.mark.parametrize("row", range(7))
def test_each_row_of_an_equipment_change_has_its_printed_moment(row: int) -> None:
    table = book("WB-021")
    item = table.given["items"][row]
    moment = weights.moment(number(item["weight_lb"]) * POUND, number(item["arm_in"]) * INCH)
    assert moment / (POUND * INCH) == as_printed(table.expect["moments_lb_in"][row])


def test_the_rows_of_a_weighing_add_up_to_the_printed_centre_of_gravity() -> None:
    table = book("WB-023")
    masses, arms = numbers(table.given["net_lb"]), numbers(table.given["arm_in"])
    assert centre_in(masses, arms) == as_printed(table.expect["cg_in"])


def test_the_same_formula_gives_the_lateral_centre_of_gravity_with_the_sign_of_the_text() -> None:
    # WB-024: the published table prints +0.31, the text and the arithmetic give -0.31 (left)
    table = book("WB-024")
    masses, arms = numbers(table.given["net_lb"]), numbers(table.given["arm_lateral_in"])
    assert table.disagrees
    assert centre_in(masses, arms) == as_printed(table.expect["cg_lateral_in_in_text"])


def weighing() -> tuple[list[float], list[float]]:
    table = book("WB-006").given
    supports = ("nose", "left_main", "right_main")
    nets = [
        weights.net_mass(number(table["scale_lb"][at]) * POUND, number(table["tare_lb"][at]) * POUND) / POUND
        for at in supports
    ]
    return nets, [number(table["arm_in"][at]) for at in supports]


def test_readings_less_tares_are_the_printed_net_weights() -> None:
    nets, _ = weighing()
    expected = book("WB-006").expect["net_lb"]
    assert nets == [as_printed(expected[at]) for at in ("nose", "left_main", "right_main")]


def test_a_weighing_with_all_fuel_taken_out_and_unusable_fuel_put_back_gives_the_printed_empty_arm() -> None:
    table, (nets, arms) = book("WB-006"), weighing()
    fuel = number(table.given["fuel_on_board_usgal"]) * number(table.given["fuel_density_lb_per_usgal"])
    unusable = number(table.given["unusable_fuel_lb"])
    masses = [*nets, -fuel, unusable]
    arms = [*arms, number(table.given["fuel_arm_in"]), number(table.given["unusable_fuel_arm_in"])]
    assert weights.total_mass(masses) == as_printed(table.expect["empty_weight_lb"])
    assert moment_lb_in(masses, arms) == as_printed(table.expect["empty_moment_lb_in"])
    assert centre_in(masses, arms) == as_printed(table.expect["ewcg_in"])


@pytest.mark.parametrize(
    ("name", "third", "main_arm", "third_behind_main"),
    [
        ("WB-007", "F_lb", +128, -78),
        ("WB-008", "F_lb", -75, -78),
        ("WB-009", "R_lb", +7.5, +222),
        ("WB-010", "R_lb", -80, +222),
        ("WB-011", "F_lb", 0, -78),
    ],
)
def test_one_signed_formula_gives_every_printed_gear_and_datum_case(
    name: str, third: str, main_arm: float, third_behind_main: float
) -> None:
    table = book(name)
    at_third = number(table.given[third])
    masses = [number(table.given["W_lb"]) - at_third, at_third]
    assert centre_in(masses, [main_arm, main_arm + third_behind_main]) == as_printed(table.expect["cg_in"])


def test_mixed_units_give_the_printed_place_ahead_of_the_mains() -> None:
    # kilograms with a wheelbase of 7 ft 8 in
    table = book("WB-052")
    masses = [number(table.given[at]) for at in ("nose_kg", "left_main_kg", "right_main_kg")]
    wheelbase = 12 * number(table.given["wheelbase_ft"]) + number(table.given["wheelbase_in_extra"])
    arm = weights.centre_of_gravity(masses, inches([-wheelbase, 0, 0])) / INCH
    assert -arm == as_printed(table.expect["cg_in_ahead_of_mains"])


@pytest.mark.parametrize(
    ("phase", "fuel_parts"),
    [("zero_fuel", []), ("ramp", [822]), ("takeoff", [822, -24]), ("landing", [822, -24, -450])],
)
def test_each_stage_of_a_printed_flight_has_its_printed_centre_of_gravity(
    phase: str, fuel_parts: list[float]
) -> None:
    table = book("WB-033")
    empty, seats = table.given["basic_empty"], table.given["seats_baggage"]
    empty_arm = number(empty["moment_lb_in"]) / number(empty["weight_lb"])
    masses = [number(empty["weight_lb"]), *column(seats, "weight_lb"), *fuel_parts]
    arms = [empty_arm, *column(seats, "arm_in"), *[number(table.given["fuel"]["arm_in"]) for _ in fuel_parts]]
    assert centre_in(masses, arms) == as_printed(table.expect[phase]["cg_in"])


def test_a_shifted_item_is_taken_out_here_and_put_in_there() -> None:
    table = book("WB-034")
    total, moment = number(table.given["total_weight_lb"]), number(table.given["total_moment_lb_in"])
    shifted = number(table.given["shifted_lb"])
    ends = [number(table.given["from_in"]), number(table.given["to_in"])]
    arm = centre_in([total, -shifted, shifted], [moment / total, *ends])
    assert arm == as_printed(table.expect["new_cg_in"])


def test_the_printed_weight_to_shift_brings_the_centre_of_gravity_to_the_limit() -> None:
    table = book("WB-035")
    shifted = number(table.expect["weight_to_shift_lb"])
    ends = [number(table.given["from_in"]), number(table.given["to_in"])]
    total, arm = number(table.given["total_weight_lb"]), number(table.given["cg_in"])
    assert centre_in([total, -shifted, shifted], [arm, *ends]) == as_printed(table.given["limit_in"])


def test_an_added_item_moves_the_centre_of_gravity_by_the_new_mass() -> None:
    table = book("WB-036")
    masses = [number(table.given["total_weight_lb"]), number(table.given["added_lb"])]
    arm = centre_in(masses, [number(table.given["cg_in"]), number(table.given["at_in"])])
    assert arm == as_printed(table.expect["new_cg_in"])


def test_a_place_on_the_chord_is_the_printed_percentage() -> None:
    table = book("WB-025")
    arm, edge, chord = (number(table.given[key]) * INCH for key in ("cg_in", "lemac_in", "mac_in"))
    assert 100 * weights.chord_fraction(arm, edge, chord) == as_printed(table.expect["percent_mac"])


def test_a_percentage_of_the_chord_is_the_printed_arm() -> None:
    table = book("WB-026")
    edge, chord = (number(table.given[key]) * INCH for key in ("lemac_in", "mac_in"))
    fraction = number(table.given["percent_mac"]) / 100
    arm = weights.arm_at_chord_fraction(fraction, edge, chord) / INCH
    assert arm == as_printed(table.expect["cg_in"])


def test_half_a_degree_out_of_level_with_the_centre_20_inches_up_reads_a_sixth_of_an_inch_aft() -> None:
    # worked out by hand: 20 in x tan 0.5 deg = 20 x 0.008727 = 0.1745 in
    assert weights.levelling_error(20 * INCH, radians(0.5)) / INCH == as_printed("0.1745")


def test_a_levelling_error_is_refused_beyond_5_degrees() -> None:
    assert weights.levelling_error(1.0, radians(5)) == pytest.approx(0.08749, abs=5e-6)
    with pytest.raises(OutsideRange, match=r"0\.08727 rad out of level"):
        weights.levelling_error(1.0, radians(5.0001))


def test_a_tare_may_equal_the_reading_but_not_exceed_it() -> None:
    assert weights.net_mass(2.5, 2.5) == 0.0
    with pytest.raises(OutsideRange, match=r"tare of 2\.6 kg is larger than the reading of 2\.5 kg"):
        weights.net_mass(2.5, 2.6)


@pytest.mark.parametrize("masses", [[], [10.0, -10.0], [10.0, -10.5]])
def test_a_centre_of_gravity_needs_a_positive_total(masses: list[float]) -> None:
    with pytest.raises(OutsideRange, match="must add up to a positive total"):
        weights.centre_of_gravity(masses, [1.0] * len(masses))


def test_a_mass_without_an_arm_is_refused() -> None:
    with pytest.raises(ValueError, match="shorter"):
        weights.centre_of_gravity([1.0, 2.0], [1.0])


def test_no_mass_has_no_arm() -> None:
    with pytest.raises(OutsideRange, match="a mass of 0 kg has no arm"):
        weights.arm_of_moment(1.0, 0.0)


@pytest.mark.parametrize("chord", [0.0, -0.9])
def test_a_chord_must_be_positive(chord: float) -> None:
    with pytest.raises(OutsideRange, match=r"mean aerodynamic chord is .* must be positive"):
        weights.chord_fraction(1.0, 0.5, chord)
    with pytest.raises(OutsideRange, match=r"mean aerodynamic chord is .* must be positive"):
        weights.arm_at_chord_fraction(0.3, 0.5, chord)


ITEMS = st.lists(st.tuples(st.floats(0.1, 500), st.floats(-10, 10)), min_size=1, max_size=8)


@given(ITEMS, st.floats(-20, 20))
def test_moving_the_datum_moves_the_arm_by_the_same_length(
    items: list[tuple[float, float]], by: float
) -> None:
    masses, arms = zip(*items, strict=True)
    moved = weights.centre_of_gravity(masses, [arm - by for arm in arms])
    assert moved + by == pytest.approx(weights.centre_of_gravity(masses, arms), abs=1e-12)


@given(ITEMS, st.floats(0.01, 100))
def test_scaling_all_masses_leaves_the_centre_of_gravity(items: list[tuple[float, float]], by: float) -> None:
    masses, arms = zip(*items, strict=True)
    scaled = weights.centre_of_gravity([by * mass for mass in masses], arms)
    assert scaled == pytest.approx(weights.centre_of_gravity(masses, arms), abs=1e-12)


@given(ITEMS)
def test_the_centre_of_gravity_lies_between_the_outermost_items(items: list[tuple[float, float]]) -> None:
    masses, arms = zip(*items, strict=True)
    centre = weights.centre_of_gravity(masses, arms)
    assert min(arms) - 1e-12 <= centre <= max(arms) + 1e-12


@given(ITEMS, ITEMS)
def test_two_groups_combine_as_two_items_at_their_centres(
    first: list[tuple[float, float]], second: list[tuple[float, float]]
) -> None:
    groups = [tuple(zip(*items, strict=True)) for items in (first, second)]
    masses = [weights.total_mass(mass) for mass, _ in groups]
    centres = [weights.centre_of_gravity(mass, arm) for mass, arm in groups]
    whole_masses, whole_arms = zip(*first, *second, strict=True)
    whole = weights.centre_of_gravity(whole_masses, whole_arms)
    assert weights.centre_of_gravity(masses, centres) == pytest.approx(whole, abs=1e-12)


@given(ITEMS, st.floats(0.1, 50), st.floats(-10, 10))
def test_fitting_and_removing_an_item_leaves_no_trace(
    items: list[tuple[float, float]], mass: float, arm: float
) -> None:
    masses, arms = zip(*items, strict=True)
    centre = weights.centre_of_gravity([*masses, mass, -mass], [*arms, arm, arm])
    assert centre == pytest.approx(weights.centre_of_gravity(masses, arms), abs=1e-12)


@given(ITEMS)
def test_the_moment_of_the_whole_is_mass_times_its_arm(items: list[tuple[float, float]]) -> None:
    masses, arms = zip(*items, strict=True)
    whole = weights.moment(weights.total_mass(masses), weights.centre_of_gravity(masses, arms))
    assert whole == pytest.approx(weights.total_moment(masses, arms), abs=1e-9)
    assert weights.arm_of_moment(whole, weights.total_mass(masses)) == pytest.approx(
        weights.centre_of_gravity(masses, arms), abs=1e-12
    )


@given(st.floats(-5, 5), st.floats(-5, 5), st.floats(0.1, 3))
def test_fraction_of_chord_and_arm_are_inverses(arm: float, edge: float, chord: float) -> None:
    fraction = weights.chord_fraction(arm, edge, chord)
    assert weights.arm_at_chord_fraction(fraction, edge, chord) == pytest.approx(arm, abs=1e-12)


@given(st.floats(0, 1000), st.floats(0, 100))
def test_net_and_tare_make_the_reading(net: float, tare: float) -> None:
    assert weights.net_mass(net + tare, tare) == pytest.approx(net, abs=1e-9)


@given(st.floats(0.01, 3), st.floats(0, radians(5)))
def test_a_levelling_error_changes_sign_with_the_angle(height: float, angle: float) -> None:
    assert weights.levelling_error(height, -angle) == -weights.levelling_error(height, angle)


@given(st.floats(-5, 5), st.floats(0.01, 3), st.floats(-0.08, 0.08))
def test_an_arm_freed_of_its_levelling_error_is_that_of_the_level_aircraft(
    arm: float, height: float, angle: float
) -> None:
    read = arm + weights.levelling_error(height, angle)
    assert weights.levelled_arm(read, weights.levelling_error(height, angle)) == pytest.approx(arm, abs=1e-12)
