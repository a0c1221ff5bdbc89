"""Draws against published examples (uncertainty.yaml) and against distributions with a closed form."""

from __future__ import annotations

import importlib
import json
import pickle
import pkgutil
from collections.abc import Callable, Mapping
from functools import cache
from math import cos, exp, log, sin, sqrt
from statistics import NormalDist
from typing import Any

import numpy as np
import pytest
from published import as_printed, example, number, numbers
from uncertainties import correlated_values

import dossier.compute
from dossier import halton, sampling
from dossier.figures import (
    Figure,
    FirstOrderFails,
    Formula,
    Input,
    Inputs,
    OutsideRange,
    Working,
    error_source,
    evaluate,
    propagate,
    taken,
)
from dossier.halton import COUNT
from dossier.quantities import error, parse
from dossier.sampling import Column, Draws, Sampled, numerical_tolerance, sample

END = NormalDist().inv_cdf(0.975)
WIDTH = 0.011
"""How far an end may be off, of the width."""
Model = Callable[..., float]


def given(label: str, value: float, u: float, *, bounded: bool = False) -> Input:
    return Input(label, "number", error(value, u, label, bounded=bounded), "invented")


def figure(model: Model, inputs: Inputs, name: str = "figure") -> Figure:
    """Make a figure of any function; the data sheet is of no matter here."""
    return Figure(name, name, "number", propagate(model, inputs), Working(model, inputs))  # type: ignore[arg-type]


def drawn(model: Model, inputs: Inputs) -> Column:
    return Draws(flat(inputs)).evaluate(model, inputs)


def flat(inputs: Inputs) -> list[Input]:
    return [item for one in inputs.values() for item in ((one,) if isinstance(one, Input) else one)]


def interval(column: Column) -> tuple[float, float]:
    found = column.sampled().quantiles
    assert found is not None
    return found[0], found[2]


def near(low: float, high: float) -> tuple[Any, Any]:
    slack = WIDTH * (high - low)
    return pytest.approx(low, abs=slack), pytest.approx(high, abs=slack)


# ---------- published examples ----------


def add(x: list[float]) -> float:
    return sum(x)


def added(name: str, *, bounded: bool) -> Column:
    units = numbers(example("uncertainty", name).given["u"])
    return drawn(add, {"x": [given(f"x{i}", 0.0, u, bounded=bounded) for i, u in enumerate(units)]})


@pytest.mark.parametrize("name", ["UN-020", "UN-021"])
def test_a_sum_of_rectangular_errors_has_the_interval_of_the_supplement(name: str) -> None:
    high = number(example("uncertainty", name).expect["high"])  # from memory, and exact in its note
    assert interval(added(name, bounded=True)) == near(-high, high)


def test_the_sum_of_four_rectangular_errors_has_the_end_of_the_closed_form() -> None:
    high = 2 * sqrt(3) * (2 - 0.6**0.25)
    assert high == as_printed(example("uncertainty", "UN-020").expect["high"])
    assert interval(added("UN-020", bounded=True)) == near(-high, high)


def test_a_sum_of_normal_errors_is_normal() -> None:
    assert interval(added("UN-020", bounded=False)) == near(-2 * END, 2 * END)


def test_first_order_takes_a_dominant_rectangular_error_for_too_wide() -> None:
    errors = [given(f"x{i}", 0.0, u, bounded=True) for i, u in enumerate((1.0, 1.0, 1.0, 10.0))]
    found = sample([figure(add, {"x": errors})])["figure"]
    assert found.first_order is not None
    assert found.first_order[1] == pytest.approx(19.9, abs=0.05)  # printed in 9.2.4, memory


def mass(m_R: float, dm: float, rho_a: float, rho_W: float, rho_R: float) -> float:
    return (m_R + dm) * (1 + (rho_a - 1.2) * (1 / rho_W - 1 / rho_R)) - 100000.0


def mass_inputs() -> dict[str, Input]:
    x = example("uncertainty", "UN-022").given
    between = {name: numbers(x[name]) for name in ("rho_a", "rho_W", "rho_R")}
    return {
        "m_R": given("m_R", number(x["m_R_mg"]), number(x["u_m_R_mg"])),
        "dm": given("dm", number(x["dm_mg"]), number(x["u_dm_mg"])),
        **{
            name: given(name, (low + high) / 2, (high - low) / 2 / sqrt(3), bounded=True)
            for name, (low, high) in between.items()
        },
    }


def test_a_calibrated_mass_has_the_interval_of_the_supplement() -> None:
    expect = example("uncertainty", "UN-022").expect
    low, high = number(expect["low_mg"]), number(expect["high_mg"])
    assert interval(drawn(mass, mass_inputs())) == near(low, high)


def test_a_calibrated_mass_has_the_standard_uncertainty_of_the_supplement() -> None:
    expect = example("uncertainty", "UN-022").expect
    column = drawn(mass, mass_inputs())
    assert float(column.values.std()) == pytest.approx(number(expect["u_mg"]), rel=0.01)
    assert float(column.values.mean()) == pytest.approx(number(expect["value_mg"]), abs=0.001)


def test_first_order_misses_the_product_of_two_errors_whose_partners_are_zero() -> None:
    expect = example("uncertainty", "UN-022").expect
    one = figure(mass, mass_inputs())
    assert one.standard_uncertainty == as_printed(expect["u_first_order_mg"])
    assert not sample([one])["figure"].first_order_holds


def loss(x_1: float, x_2: float) -> float:
    return x_1**2 + x_2**2


@pytest.mark.parametrize("case", [0, 1, 2])
def test_a_comparison_loss_has_mean_and_standard_uncertainty_of_the_supplement(case: int) -> None:
    table = example("uncertainty", "UN-023")
    u, x = number(table.given["u"]), numbers(table.given["x1"])[case]
    values = drawn(loss, {"x_1": given("x_1", x, u), "x_2": given("x_2", 0.0, u)}).values
    assert float(values.mean()) * 1e6 == pytest.approx(numbers(table.expect["value"])[case], rel=0.005)
    assert float(values.std()) * 1e6 == pytest.approx(numbers(table.expect["u"])[case], rel=0.015)
    assert float(values.mean()) == pytest.approx(x**2 + 2 * u**2, rel=0.005)


def test_a_comparison_loss_without_reflection_is_exponential() -> None:
    u = number(example("uncertainty", "UN-023").given["u"])
    column = drawn(loss, {"x_1": given("x_1", 0.0, u), "x_2": given("x_2", 0.0, u)})
    assert interval(column) == near(-2 * u**2 * log(0.975), -2 * u**2 * log(0.025))


def impedance() -> dict[str, Figure]:
    x = example("uncertainty", "UN-004").given
    u = numbers(x["u"])
    r = {name: number(text) for name, text in x["correlation"].items()}
    matrix = np.array([[1, r["V_I"], r["V_phi"]], [r["V_I"], 1, r["I_phi"]], [r["V_phi"], r["I_phi"], 1]])
    values = correlated_values(numbers(x["value"]), (matrix * np.outer(u, u)).tolist())
    V, I, phi = (  # noqa: E741 - the symbols of the guide
        Input(name, "number", one, "invented") for name, one in zip("VIp", values, strict=True)
    )
    whole = {"V": V, "I": I, "phi": phi}
    return {
        "R": figure(lambda V, I, phi: V * cos(phi) / I, whole, "R"),  # noqa: E741 - the symbol of current
        "X": figure(lambda V, I, phi: V * sin(phi) / I, whole, "X"),  # noqa: E741 - the symbol of current
        "Z": figure(lambda V, I: V / I, {"V": V, "I": I}, "Z"),  # noqa: E741 - the symbol of current
    }


@pytest.mark.parametrize("name", ["R", "X", "Z"])
def test_correlated_inputs_have_the_printed_uncertainty_by_first_order_and_by_draws(name: str) -> None:
    expect = example("uncertainty", "UN-004").expect
    made = impedance()
    column = Draws(made.values()).of(made[name])
    assert made[name].value == as_printed(expect[name])
    u = number(expect[f"u_{name}"])
    assert made[name].standard_uncertainty == pytest.approx(u, rel=0.02)  # printed with two digits
    assert float(column.values.std()) == pytest.approx(u, rel=0.03)


@pytest.mark.parametrize("pair", ["RX", "RZ", "XZ"])
def test_figures_of_one_measurement_are_drawn_together(pair: str) -> None:
    made = impedance()
    draws = Draws(made.values())
    found = np.corrcoef(*(draws.of(made[name]).values for name in pair))[0, 1]
    assert found == pytest.approx(number(example("uncertainty", "UN-004").expect[f"r_{pair}"]), abs=0.01)


def test_draws_of_the_end_gauge_find_the_second_order_term_of_the_reference() -> None:
    # the note of UN-001: 11.9 nm, which first order leaves out
    x = example("uncertainty", "UN-001").given
    l_s = number(x["ls_mm"]) * 1e6

    def gauge(d: float, alpha: float, theta: float, dalpha: float, dtheta: float) -> float:
        return l_s + d - l_s * (dalpha * theta + alpha * dtheta)

    inputs = {
        "d": given("d", number(x["d_nm"]), sqrt(number(x["u_d_nm"]) ** 2 + number(x["u_ls_nm"]) ** 2)),
        "alpha": given("alpha", number(x["alphas_per_C"]), number(x["u_alphas"])),
        "theta": given("theta", number(x["theta_C"]), number(x["u_theta"])),
        "dalpha": given("dalpha", 0.0, number(x["u_dalpha"])),
        "dtheta": given("dtheta", 0.0, number(x["u_dtheta"])),
    }
    whole, first = drawn(gauge, inputs).values.std(), figure(gauge, inputs).standard_uncertainty
    assert first == pytest.approx(number(example("uncertainty", "UN-001").expect["uc_nm"]), abs=0.5)
    assert sqrt(whole**2 - first**2) == pytest.approx(11.9, rel=0.05)


@pytest.mark.parametrize(
    ("u", "digits", "tolerance"),
    [(0.00035, 2, 0.000005), (0.00035, 1, 0.00005), (2.0, 1, 0.5), (77.1, 2, 0.5), (0.096, 1, 0.05)],
)
def test_a_numerical_tolerance_is_half_the_last_digit_of_the_uncertainty(
    u: float, digits: int, tolerance: float
) -> None:
    # the first three are examples of JCGM 101:2008, 7.9.2 (memory); 0.096 becomes 0.1, whose digit is a tenth
    assert numerical_tolerance(u, digits) == pytest.approx(tolerance, rel=1e-12)


# ---------- closed forms ----------


def test_two_rectangular_errors_make_a_trapezoid() -> None:
    a, b = 2.0, 1.0
    column = drawn(
        add, {"x": [given("a", 0.0, a / sqrt(3), bounded=True), given("b", 0.0, b / sqrt(3), bounded=True)]}
    )
    end = a + b - sqrt(8 * a * b * 0.025)  # the tail holds t²/8ab at the distance t from its end
    assert interval(column) == near(-end, end)


def test_two_equal_rectangular_errors_make_a_triangle() -> None:
    column = drawn(add, {"x": [given(name, 0.0, 1 / sqrt(3), bounded=True) for name in "ab"]})
    end = 2 - sqrt(8 * 0.025)
    assert interval(column) == near(-end, end)


def test_a_reciprocal_of_a_normal_value_has_the_reciprocal_ends() -> None:
    column = drawn(lambda x: 1 / x, {"x": given("x", 10.0, 1.5)})
    assert interval(column) == near(1 / (10 + 1.5 * END), 1 / (10 - 1.5 * END))


def test_an_exponential_of_a_normal_value_has_the_median_of_its_estimate() -> None:
    found = drawn(lambda x: exp(x), {"x": given("x", 1.0, 0.4)})
    assert found.sampled().quantiles is not None
    assert found.sampled().quantiles[1] == pytest.approx(exp(1.0), rel=0.002)


def test_a_rectangular_error_stays_within_its_bounds() -> None:
    values = drawn(lambda x: x, {"x": given("x", 5.0, 1 / sqrt(3), bounded=True)}).values
    assert 4.0 < float(values.min()) < 4.01
    assert 5.99 < float(values.max()) < 6.0


def test_limits_of_the_record_are_bounds_and_a_plus_minus_is_normal() -> None:
    spans = {}
    for text in ("5 m ± 0.1 m (limits)", "5 m ± 0.1 m"):
        quantity = parse(text, "length")
        one = Input("x", "length", quantity.estimate("x"), "invented")
        spans[text] = float(np.ptp(drawn(lambda x: x, {"x": one}).values))
    assert spans["5 m ± 0.1 m (limits)"] < 0.2 < spans["5 m ± 0.1 m"]


# ---------- what is shared, and what has no answer ----------


def test_a_figure_less_itself_is_nothing_in_every_draw() -> None:
    one = figure(lambda x: x**3, {"x": given("x", 2.0, 0.5)})
    nothing = figure(lambda a, b: a - b, {"a": taken(one), "b": taken(one)}, "nothing")
    assert Draws([nothing]).of(nothing).values.tolist() == [0.0] * COUNT


def test_a_shared_scale_leaves_a_ratio_in_every_draw() -> None:
    scale = error_source("scale", 0.2)
    a, b = (
        Input(name, "number", value * (1 + scale), "invented") for name, value in (("a", 6.0), ("b", 3.0))
    )
    ratio = figure(lambda a, b: a / b, {"a": a, "b": b})
    assert Draws([ratio]).of(ratio).values == pytest.approx(2.0, rel=1e-12)


def test_a_figure_is_made_again_from_the_record_and_not_from_its_slope() -> None:
    square = figure(lambda x: x * x, {"x": given("x", 1.0, 0.5)}, "square")
    fourth = figure(lambda s: s * s, {"s": taken(square)}, "fourth")
    low, high = interval(Draws([fourth]).of(fourth))
    straight = 1 + 2 * 0.5 * END  # the square by its slope, squared below
    assert high == pytest.approx((1 + 0.5 * END) ** 4, rel=0.02)
    assert high > 1.5 * straight**2
    assert low >= 0


def needs_positive(x: float) -> float:
    if not x > 0:
        raise OutsideRange(f"x is {x:.3g}", "x is not positive")
    return sqrt(x)


def half_refused() -> Figure:
    return figure(needs_positive, {"x": given("x", 1.0, 0.5)})


def test_the_share_without_an_answer_is_that_of_the_distribution() -> None:
    found = sample([half_refused()])["figure"]
    assert found.unanswered == pytest.approx(NormalDist().cdf(-2), abs=0.001)
    assert found.state == "x is not positive"
    assert found.because.startswith("x is -")


def test_what_is_made_of_a_figure_without_an_answer_has_none_either_and_says_why() -> None:
    one = half_refused()
    more = figure(lambda y: y + 1, {"y": taken(one)}, "more")
    found = sample([one, more])
    assert found["more"].unanswered == found["figure"].unanswered
    assert found["more"].state == "x is not positive"


def test_first_order_never_holds_where_a_draw_has_no_answer() -> None:
    assert not sample([half_refused()])["figure"].first_order_holds


def test_a_division_by_nothing_is_no_answer() -> None:
    found = drawn(lambda x: 1 / max(x, 0.0), {"x": given("x", 1.0, 0.5)}).sampled()
    assert found.unanswered == pytest.approx(NormalDist().cdf(-2), abs=0.001)
    assert "division" in found.because


def test_a_result_that_is_no_finite_number_is_no_answer() -> None:
    found = drawn(lambda x: float("inf") if x < 0 else x, {"x": given("x", 1.0, 0.5)}).sampled()
    assert found.because == "the result is no finite number"
    assert 0 < found.unanswered < 0.05


def test_no_answer_in_any_draw_leaves_no_interval() -> None:
    def never(x: float) -> float:
        raise OutsideRange(f"x is {x:.3g}")

    found = drawn(never, {"x": given("x", 1.0, 0.5)}).sampled()
    assert found.quantiles is None
    assert found.unanswered == 1.0
    assert not found.first_order_holds


def test_a_formula_that_ends_close_by_keeps_what_was_asked() -> None:
    inputs = {"x": given("x", 1.0, 2.0)}
    with pytest.raises(FirstOrderFails, match="within one standard uncertainty of the x") as failed:
        propagate(needs_positive, inputs)
    assert failed.value.formula is needs_positive
    assert failed.value.inputs is inputs


def test_a_figure_without_uncertainty_is_not_sampled() -> None:
    certain = figure(lambda x: x, {"x": Input("x", "number", 1.0, "invented")})
    assert sample([certain]) == {}


def test_an_error_that_nothing_ranked_rests_on_is_no_silent_zero() -> None:
    with pytest.raises(KeyError):
        Draws([given("x", 1.0, 0.1)]).of(given("y", 1.0, 0.1))


# ---------- the points ----------


def test_the_points_of_the_first_bases_are_those_of_the_definition() -> None:
    assert halton.points(2)[:7].tolist() == [1 / 2, 1 / 4, 3 / 4, 1 / 8, 5 / 8, 3 / 8, 7 / 8]
    assert halton.points(3)[:8] == pytest.approx([1 / 3, 2 / 3, 1 / 9, 4 / 9, 7 / 9, 2 / 9, 5 / 9, 8 / 9])


def test_the_bases_are_the_first_primes() -> None:
    found = halton.primes()
    assert [next(found) for _ in range(10)] == [2, 3, 5, 7, 11, 13, 17, 19, 23, 29]


@pytest.mark.parametrize("base", [2, 3, 31, 97])
def test_no_point_is_at_an_end_and_each_tenth_has_its_share(base: int) -> None:
    points = halton.points(base)
    assert 0 < points.min() < points.max() < 1
    counts = np.histogram(points, bins=10, range=(0, 1))[0]
    assert counts.tolist() == pytest.approx([COUNT / 10] * 10, rel=0.05)


def test_the_points_of_a_base_cannot_be_changed_by_who_asks() -> None:
    with pytest.raises(ValueError, match="read-only"):
        halton.normal(2)[0] = 0.0


def test_the_error_that_matters_most_gets_the_first_base() -> None:
    small, large = given("small", 0.0, 0.1), given("large", 0.0, 1.0)
    one = figure(lambda a, b: a + b, {"a": small, "b": large})
    values = Draws([one]).of(one).values
    assert values == pytest.approx(halton.normal(2) + 0.1 * halton.normal(3))


def test_the_same_figures_give_the_same_bytes() -> None:
    def bytes_of() -> bytes:
        one = figure(lambda a, b: a / b, {"a": given("a", 3.0, 0.3), "b": given("b", 2.0, 0.2)})
        return json.dumps(sample([one])["figure"].quantiles).encode() + Draws([one]).of(one).values.tobytes()

    assert bytes_of() == bytes_of()


def test_the_order_of_asking_changes_nothing() -> None:
    a, b = given("a", 3.0, 0.3), given("b", 2.0, 0.2)
    one = figure(lambda a, b: a / b, {"a": a, "b": b}, "one")
    two = figure(lambda b: 1 / b, {"b": b}, "two")
    forth, back = Draws([one, two]), Draws([one, two])
    forward = [forth.of(one).values.tolist(), forth.of(two).values.tolist()]
    backward = [back.of(two).values.tolist(), back.of(one).values.tolist()]
    assert forward == backward[::-1]


def test_a_rectangular_error_travels_to_another_worker() -> None:
    one = figure(lambda x: x, {"x": given("x", 0.0, 1.0, bounded=True)})
    there = pickle.loads(pickle.dumps(one.estimate))
    assert [type(source) for source in there.derivatives] == [
        type(source) for source in one.estimate.derivatives
    ]  # type: ignore[union-attr]


# ---------- the tool's own formulas on columns ----------


@cache
def elementwise_formulas() -> Mapping[str, Formula]:
    found = {}
    for module in pkgutil.iter_modules(dossier.compute.__path__, "dossier.compute."):
        for one in vars(importlib.import_module(module.name)).values():
            if isinstance(one, Formula) and one.is_elementwise:
                found[one.name] = one
    return found


VALUES: dict[str, float | list[float]] = {
    "C_D0": 0.0165, "C_Lmax": 1.4, "E_i": [1e6, 2e6], "E_u": 5e6, "K": 0.026, "P": 9000.0, "S": 11.2,
    "c_MAC": 1.1, "dx_level": 0.01, "eta": 0.66, "g": 9.80665, "h": 300.0, "m": 210.0,
    "m_i": [100.0, 80.0, -5.0], "m_ref": 200.0, "m_scale": 60.0, "m_tare": 10.0, "n": 1.0, "rho": 1.225,
    "t": 60.0, "v": 15.0, "v_S": 14.0, "v_bg": 19.0, "v_c": 2.0, "w": 0.7, "w_ref": 0.68, "x": 1.2,
    "x_CG": 0.9, "x_LEMAC": 0.5, "x_i": [1.0, -0.2, 2.0], "y": 3.0, "v_GS": 15.0, "f_LO": 1.2,
    "P_s": 7000.0, "v_LO": 14.0, "mu_r": 0.05, "C_Lg": 0.6, "D_p": 1.3, "k_p": 0.6,
}  # fmt: skip
"""Symbol -> an invented value. An elementwise formula with a symbol that is not here has to bring one."""


def doubted(symbol: str, share: float) -> Input | list[Input]:
    value = VALUES[symbol]
    if isinstance(value, list):
        return [given(f"{symbol} {i}", one, share * abs(one)) for i, one in enumerate(value)]
    return given(symbol, value, share * abs(value))


@pytest.mark.parametrize("name", sorted(elementwise_formulas()))
@pytest.mark.parametrize("share", [0.02, 0.6])
def test_a_formula_on_columns_gives_what_it_gives_draw_by_draw(name: str, share: float) -> None:
    model = elementwise_formulas()[name]
    inputs: Inputs = {symbol: doubted(symbol, share) for symbol in model.parameters}
    at_once, by_rows = Draws(flat(inputs)).evaluate(model, inputs), drawn(model.function, inputs)
    assert np.allclose(at_once.values, by_rows.values, rtol=1e-12, atol=1e-12, equal_nan=True)
    assert at_once.refused == by_rows.refused


def test_wide_doubts_lead_a_formula_out_of_its_range() -> None:
    model = elementwise_formulas()["climb_rate"]
    inputs: Inputs = {symbol: doubted(symbol, 0.6) for symbol in model.parameters}
    assert 0.05 < Draws(flat(inputs)).evaluate(model, inputs).sampled().unanswered < 0.95


def test_every_formula_of_the_flights_is_made_at_once() -> None:
    assert {"climb_rate", "climb_time", "endurance", "sink_rate", "total_mass"} <= set(elementwise_formulas())


def test_a_figure_of_a_formula_is_evaluated_through_its_sheet() -> None:
    formula = elementwise_formulas()["climb_time"]
    height, rate = given("h", 300.0, 1.0), given("v", 2.0, 0.1)
    one = evaluate(formula, "time", "Time", "time", {"h": height, "v_c": rate})
    found: Sampled = sample([one])["time"]
    assert found.quantiles is not None
    assert found.quantiles[1] == pytest.approx(150.0, rel=0.005)
    assert sampling.COVERAGE == 0.95
