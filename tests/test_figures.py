"""Uncertainty around formulas: the end gauge of JCGM 100:2008, H.1, and a weighing (uncertainty.yaml)."""

from __future__ import annotations

import pickle
from collections.abc import Sequence
from math import sqrt
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import as_printed, example, number, numbers
from uncertainties import ufloat

from dossier.compute.weights import centre_of_gravity, total_mass
from dossier.figures import (
    Figure,
    Formula,
    Input,
    OutsideRange,
    Step,
    Working,
    constant,
    error_source,
    evaluate,
    formula,
    propagate,
    taken,
)
from dossier.figures import (
    given as taken_from_record,
)
from dossier.findings import Place
from dossier.quantities import parse

GUM = example("uncertainty", "UN-001")
WEIGHT = example("uncertainty", "UN-010")
ARM = example("uncertainty", "UN-011")


def measured(label: str, value: float, spread: float, kind: str = "number") -> Input:
    return Input(label, kind, ufloat(value, spread, tag=label), "invented")


@formula
def difference(m_max: float, m: float) -> float:
    r"""Difference of two masses.

    Formula: \Delta m = m_{max} - m
    Result: dm
    Valid: always
    Source: definition, with a place
    """
    return m_max - m


@formula
def quotient(m: float, m_ref: float) -> float:
    r"""Ratio of two masses.

    Formula: r = \frac{m}{m_{ref}}
    Result: r
    Valid: a positive reference, however long
        this sentence runs
    Source: definition
    """
    if not m_ref > 0:
        raise OutsideRange(f"the reference mass is {m_ref:g} kg")
    return m / m_ref


# ---- the end gauge of the guide


def end_gauge(l_s: float, d: float, alpha_s: float, theta: float, dalpha: float, dtheta: float) -> float:
    """Length of an end gauge compared with a standard, in m, temperatures in K; the model of H.1."""
    return l_s + d - l_s * (dalpha * theta + alpha_s * dtheta)


def end_gauge_inputs() -> dict[str, Input]:
    table = {key: number(value) for key, value in GUM.given.items() if key != "model"}
    return {
        "l_s": measured("standard", table["ls_mm"] * 1e-3, table["u_ls_nm"] * 1e-9),
        "d": measured("comparison", table["d_nm"] * 1e-9, table["u_d_nm"] * 1e-9),
        "alpha_s": measured("expansion", table["alphas_per_C"], table["u_alphas"]),
        "theta": measured("temperature", table["theta_C"], table["u_theta"]),
        "dalpha": measured("difference of expansion", table["dalpha"], table["u_dalpha"]),
        "dtheta": measured("difference of temperature", table["dtheta"], table["u_dtheta"]),
    }


def end_gauge_figure() -> Figure:
    # the name, label and working are of no matter here, the estimate is that of the guide
    estimate = propagate(end_gauge, end_gauge_inputs())
    return Figure("length", "length", "length", estimate, working=None)  # type: ignore[arg-type]


def test_the_end_gauge_of_the_guide_has_the_printed_length() -> None:
    assert end_gauge_figure().value * 1e3 == as_printed(GUM.expect["l_mm"])


def test_the_end_gauge_of_the_guide_has_the_printed_standard_uncertainty() -> None:
    assert end_gauge_figure().standard_uncertainty * 1e9 == as_printed(GUM.expect["uc_nm"])


@pytest.mark.parametrize(
    ("label", "key"),
    [
        ("standard", "ls"),
        ("comparison", "d"),
        ("difference of expansion", "dalpha"),
        ("difference of temperature", "dtheta"),
    ],
)
def test_the_end_gauge_of_the_guide_has_the_printed_contributions(label: str, key: str) -> None:
    # 16.675 nm is printed 16.6 in the guide, cut and not rounded
    amounts = {one.label: one.amount * 1e9 for one in end_gauge_figure().contributions()}
    expected = as_printed("16.675") if key == "dtheta" else as_printed(GUM.expect["contributions_nm"][key])
    assert amounts[label] == expected


def test_inputs_whose_partner_is_zero_contribute_nothing_to_first_order() -> None:
    # the term of second order that is missed is 11.9 nm (computed: l_s u(dalpha) u(theta)), a known limit
    labels = [one.label for one in end_gauge_figure().contributions()]
    assert labels == ["standard", "difference of temperature", "comparison", "difference of expansion"]


# ---- a weighing on three scales


SCALES = ("nose", "left", "right")


def scale_inputs(shared: bool) -> list[Input]:
    spread = number(WEIGHT.given["scale_mpe_lb_each"]) / sqrt(3)
    calibration = error_source("calibration", spread)
    return [
        Input(at, "mass", number(WEIGHT.given["net_lb"][at]) + calibration, "invented")
        if shared
        else measured(at, number(WEIGHT.given["net_lb"][at]), spread, "mass")
        for at in SCALES
    ]


def empty_mass(shared: bool) -> Figure:
    return evaluate(total_mass, "mass.empty", "empty mass", "mass", {"m_i": scale_inputs(shared)})


def test_three_scales_weigh_the_worked_total() -> None:
    assert empty_mass(shared=False).value == as_printed(WEIGHT.expect["total_lb"])


def test_independent_scales_add_their_errors_in_squares() -> None:
    # printed with one digit, 0.5: three times 0.5/sqrt(3) in squares is 0.5 exactly
    assert empty_mass(shared=False).standard_uncertainty == pytest.approx(0.5)
    assert empty_mass(shared=False).standard_uncertainty == as_printed(WEIGHT.expect["u_independent_lb"])


def test_scales_of_one_calibration_add_their_errors_outright() -> None:
    assert empty_mass(shared=True).standard_uncertainty == as_printed(WEIGHT.expect["u_fully_correlated_lb"])


def test_one_calibration_is_one_contribution() -> None:
    found = empty_mass(shared=True).contributions()
    assert [(one.label, one.amount) for one in found] == [("calibration", pytest.approx(sqrt(0.75)))]


def arm_inputs() -> dict[str, list[Input]]:
    net = [number(ARM.given["net_lb"][at]) for at in SCALES]
    arms = {at: number(value) for at, value in ARM.given["arm_in"].items()}
    scale, tape = (number(ARM.given[key]) / sqrt(3) for key in ("scale_mpe_lb", "arm_mpe_in"))
    main = measured("main arm", arms["main"], tape, "length")
    return {
        "m_i": [measured(at, mass, scale, "mass") for at, mass in zip(SCALES, net, strict=True)],
        "x_i": [measured("nose arm", arms["nose"], tape, "length"), main, main],
    }


def empty_arm() -> Figure:
    return evaluate(centre_of_gravity, "cg.empty", "empty centre of gravity", "length", arm_inputs())


def test_the_empty_centre_of_gravity_is_the_worked_one() -> None:
    assert empty_arm().value == as_printed(ARM.expect["ewcg_in"])


def test_both_mains_share_the_error_of_their_one_arm() -> None:
    assert empty_arm().standard_uncertainty == as_printed(ARM.expect["u_ewcg_in"])


def test_random_draws_find_the_same_uncertainty_of_the_centre_of_gravity() -> None:
    # an independent way: 200,000 draws of every input, which scatter by well below 1 %
    draws = np.random.default_rng(20260101)
    net, arms = (numbers_of(ARM.given[key]) for key in ("net_lb", "arm_in"))
    scale, tape = (number(ARM.given[key]) for key in ("scale_mpe_lb", "arm_mpe_in"))
    masses = np.array(net) + draws.uniform(-scale, scale, (200_000, 3))
    errors = draws.uniform(-tape, tape, (200_000, 2))
    places = np.array([arms[0], arms[1], arms[1]]) + errors[:, [0, 1, 1]]
    spread = ((masses * places).sum(axis=1) / masses.sum(axis=1)).std()
    assert spread == pytest.approx(number(ARM.expect["u_ewcg_in_monte_carlo"]), rel=0.01)
    assert empty_arm().standard_uncertainty == pytest.approx(spread, rel=0.01)


def numbers_of(column: dict[str, str]) -> list[float]:
    return numbers(list(column.values()))


def test_contributions_come_largest_first_and_make_the_whole_in_squares() -> None:
    found = empty_arm().contributions()
    assert [one.label for one in found] == ["main arm", "nose", "nose arm", "left", "right"]
    assert sqrt(sum(one.amount**2 for one in found)) == pytest.approx(empty_arm().standard_uncertainty)


# ---- inputs that figures share


def test_a_figure_less_itself_is_certain() -> None:
    mass = empty_mass(shared=False)
    none = evaluate(difference, "none", "none", "mass", {"m_max": taken(mass), "m": taken(mass)})
    assert (none.value, none.standard_uncertainty) == (0.0, pytest.approx(0.0, abs=1e-12))


def test_a_shared_scale_factor_leaves_a_ratio() -> None:
    # both loads on one scale: an error of 1 kg in 100 kg and 200 kg shifts the ratio by 1/200 - 100/200²
    common = error_source("scale", 1.0)
    load, reference = (Input(f"{value} kg", "mass", value + common, "invented") for value in (100.0, 200.0))
    ratio = evaluate(quotient, "ratio", "ratio", "ratio", {"m": load, "m_ref": reference})
    assert ratio.standard_uncertainty == pytest.approx(1 / 200 - 100 / 200**2, rel=1e-4)


def test_a_quantity_of_the_record_taken_twice_is_one_input() -> None:
    quantity = parse("108.4 kg ± 0.2 kg", "mass")
    both = {parameter: taken_from_record(quantity, "mass") for parameter in ("m_max", "m")}
    none = evaluate(difference, "none", "none", "mass", both)
    assert none.standard_uncertainty == pytest.approx(0, abs=1e-12)


def test_two_equal_quantities_are_two_inputs() -> None:
    first, second = (parse("108.4 kg ± 0.2 kg", "mass") for _ in range(2))
    both = {"m_max": taken_from_record(first, "one"), "m": taken_from_record(second, "other")}
    apart = evaluate(difference, "none", "none", "mass", both)
    assert apart.standard_uncertainty == pytest.approx(0.1 * sqrt(2))


def test_a_figure_keeps_the_inputs_of_the_figure_it_is_made_from() -> None:
    mass = empty_mass(shared=False)
    inputs = {"m_max": constant("limit", "mass", 254.0, "definition"), "m": taken(mass)}
    left = evaluate(difference, "left", "left", "mass", inputs)
    assert {one.label for one in left.contributions()} == set(SCALES)


@pytest.mark.parametrize("as_limit", [True, False])
def test_a_figure_moves_with_its_input_and_not_against_it(as_limit: bool) -> None:
    load, fixed = measured("load", 100.0, 1.0, "mass"), constant("fixed", "mass", 300.0, "definition")
    inputs = {"m_max": load, "m": fixed} if as_limit else {"m_max": fixed, "m": load}
    left = evaluate(difference, "left", "left", "mass", inputs)
    together = left.estimate - load.estimate if as_limit else left.estimate + load.estimate
    assert together.std_dev == pytest.approx(0, abs=1e-12)


def test_a_total_moves_with_each_of_its_masses() -> None:
    load = measured("load", 100.0, 1.0, "mass")
    total = evaluate(total_mass, "total", "total", "mass", {"m_i": [load]})
    assert (total.estimate - load.estimate).std_dev == pytest.approx(0, abs=1e-12)


def test_two_inputs_of_one_label_are_one_contribution_in_squares() -> None:
    inputs = {"m_i": [measured("scale", 10.0, 0.3), measured("scale", 10.0, 0.4)]}
    found = evaluate(total_mass, "total", "total", "mass", inputs).contributions()
    assert [(one.label, one.amount) for one in found] == [("scale", pytest.approx(0.5))]


# ---- one figure and its working


def test_a_figure_from_certain_inputs_is_certain() -> None:
    inputs = {"m_max": constant("limit", "mass", 254.0, "definition"),
              "m": constant("mass", "mass", 250.0, "definition")}  # fmt: skip
    left = evaluate(difference, "left", "left", "mass", inputs)
    assert (left.value, left.standard_uncertainty, left.contributions()) == (4.0, 0.0, ())


def test_a_figure_keeps_its_formula_inputs_steps_and_note() -> None:
    inputs = {"m_i": scale_inputs(shared=False)}
    steps = (Step("mains", 211.2, "mass"),)
    more = {"note": "three scales", "style": "exact", "steps": steps}
    figure = evaluate(total_mass, "mass.empty", "empty mass", "mass", inputs, **more)
    assert figure.working == Working(total_mass, inputs, steps, "three scales")
    assert figure.style == "exact"


def test_an_input_of_the_record_knows_its_line() -> None:
    place = Place("serials/0001.yaml", 12, 5)
    one = taken_from_record(parse("108.4 kg ± 0.2 kg", "mass", place), "left main")
    assert (one.origin, one.text) == (place, "108.4 kg ± 0.2 kg")
    assert one.standard_uncertainty == pytest.approx(0.1)


def test_an_earlier_figure_as_input_is_named() -> None:
    assert taken(empty_mass(shared=False)).origin == "mass.empty"


def test_a_constant_carries_its_citation() -> None:
    assert str(constant("limit", "mass", 254.0, "definition, with a place").origin) == (
        "Definition of the quantity, with a place (own)"
    )


# ---- borders


def test_a_formula_outside_its_range_gives_no_figure() -> None:
    inputs = {"m": measured("load", 1.0, 0.1), "m_ref": measured("reference", -1.0, 0.1)}
    with pytest.raises(OutsideRange, match=r"^the reference mass is -1 kg$"):
        evaluate(quotient, "ratio", "ratio", "ratio", inputs)


def test_a_range_that_ends_within_the_uncertainty_is_told_with_the_input() -> None:
    inputs = {"m": measured("load", 1.0, 0.1), "m_ref": measured("reference", 0.5, 1.0)}
    with pytest.raises(OutsideRange) as refused:
        evaluate(quotient, "ratio", "ratio", "ratio", inputs)
    told = "within one standard uncertainty of the reference, the reference mass is -0.5 kg"
    assert str(refused.value) == told


def test_a_data_sheet_gives_title_symbols_range_and_source() -> None:
    assert quotient.title == "Ratio of two masses"
    assert (quotient.latex, quotient.result) == (r"r = \frac{m}{m_{ref}}", "r")
    assert quotient.valid == "a positive reference, however long this sentence runs"
    assert quotient.parameters == ("m", "m_ref")
    assert str(difference.source) == "Definition of the quantity, with a place (own)"


def without(heading: str) -> Any:
    def sheet(m: float) -> float:
        return m

    lines = ["A title.", "", r"Formula: m = m", "Result: m", "Valid: always", "Source: definition"]
    sheet.__doc__ = "\n".join(line for line in lines if not line.startswith(heading))
    return sheet


@pytest.mark.parametrize("heading", ["Formula", "Result", "Valid", "Source"])
def test_a_data_sheet_with_a_missing_line_is_refused(heading: str) -> None:
    with pytest.raises(ValueError, match=f"the docstring has no '{heading}' line: 'A title.'"):
        formula(without(heading))


def test_a_data_sheet_with_an_unknown_source_is_refused() -> None:
    sheet = without("nothing")
    sheet.__doc__ = sheet.__doc__.replace("definition", "hearsay")
    with pytest.raises(KeyError, match="hearsay"):
        formula(sheet)


def test_a_formula_travels_to_another_worker_by_name() -> None:
    sent = pickle.loads(pickle.dumps(total_mass))
    assert isinstance(sent, Formula)
    assert sent is total_mass


# ---- laws


LOADS = st.lists(st.tuples(st.floats(10, 300), st.floats(0.01, 1)), min_size=1, max_size=6)


@given(LOADS)
def test_a_sum_has_the_root_of_the_sum_of_squares(loads: list[tuple[float, float]]) -> None:
    inputs = [measured(f"load {index}", value, spread) for index, (value, spread) in enumerate(loads)]
    total = evaluate(total_mass, "total", "total", "mass", {"m_i": inputs})
    assert total.standard_uncertainty == pytest.approx(sqrt(sum(spread**2 for _, spread in loads)), rel=1e-6)


@given(LOADS, st.floats(-10, 10))
def test_the_uncertainty_of_a_centre_of_gravity_does_not_see_the_datum(
    loads: list[tuple[float, float]], by: float
) -> None:
    def spread_at(datum: float) -> float:
        masses = [measured(f"load {index}", value, spread) for index, (value, spread) in enumerate(loads)]
        arms = [constant("arm", "length", index * 0.7 - datum, "definition") for index in range(len(loads))]
        inputs = {"m_i": masses, "x_i": arms}
        return evaluate(centre_of_gravity, "cg", "cg", "length", inputs).standard_uncertainty

    assert spread_at(by) == pytest.approx(spread_at(0.0), rel=1e-6, abs=1e-9)


@given(st.floats(50, 300), st.floats(0.01, 1), st.floats(50, 300), st.floats(0.01, 1))
def test_a_quotient_has_the_sum_of_relative_variances(m: float, u_m: float, ref: float, u_ref: float) -> None:
    # JCGM 100:2008, 5.1.6; the difference quotient adds terms of third order, here below 1e-3
    inputs = {"m": measured("load", m, u_m), "m_ref": measured("reference", ref, u_ref)}
    ratio = evaluate(quotient, "ratio", "ratio", "ratio", inputs)
    relative = sqrt((u_m / m) ** 2 + (u_ref / ref) ** 2)
    assert ratio.standard_uncertainty / ratio.value == pytest.approx(relative, rel=1e-3)


def as_sequence(m_i: Sequence[float]) -> float:
    return m_i[0] - m_i[-1]


def test_any_function_of_floats_can_be_wrapped() -> None:
    inputs = {"m_i": [measured("a", 5.0, 0.3), measured("b", 2.0, 0.4)]}
    answer = propagate(as_sequence, inputs)
    assert (answer.nominal_value, answer.std_dev) == pytest.approx((3.0, 0.5))
