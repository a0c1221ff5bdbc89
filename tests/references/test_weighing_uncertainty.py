"""The uncertainty of an invented aircraft on three scales, worked out apart from the project, reproduced
through a record."""

from __future__ import annotations

from pathlib import Path

import pytest
from book_record import INCH, POUND
from published import as_printed, example, number
from sample_project import Draft, Tree, pack_fitted, scale, support, weighing

from dossier.dossier import Dossier
from dossier.halton import COUNT
from dossier.judge.decision import Limit, conformity_probability
from dossier.judge.verdict import State, Verdict

POINTS = ("nose", "left", "right")
EMPTY_WEIGHT = "us-14-cfr-103/e-1"
U_AS_GUARD_BAND = "97.725 %"
"""One-sided, normal: a guard band of two standard uncertainties (JCGM 106:2012, 8.3)."""


def three_scales(certificates: str, mpe: str) -> dict[str, Tree]:
    """Give each point a scale; ``certificates`` has one letter a point."""
    return {
        point: scale(name=point, certificate=letter, maximum_permissible_error=f"{mpe} lb")
        for point, letter in zip(POINTS, certificates, strict=True)
    }


def aircraft_near_254_lb(certificates: str, folder: Path, coverage: str = U_AS_GUARD_BAND) -> Dossier:
    """UN-010: 253.2 lb with a battery of exactly known mass aboard, no parachute, held against 254 lb."""
    given = example("uncertainty", "UN-010").given
    draft = Draft()
    draft.record["items_left_out"] = ["parachute"]
    rule = {"kind": "guarded", "coverage": coverage} if coverage else {"kind": "simple"}
    draft.compliance["decision_rules"] = {"rule": {**rule, "agreed": "2026-01-10", "agreed_by": "A. Builder"}}
    draft.compliance["usual_decision_rule"] = "rule"
    points = [support(point, f"{given['net_lb'][point]} lb", arm="20 in", scale=point) for point in POINTS]
    draft.events.extend(
        [
            pack_fitted("P-1", "40 lb"),
            weighing(*points, scales=three_scales(certificates, given["scale_mpe_lb_each"])),
        ]
    )
    return draft.make(folder)


def empty_weight(dossier: Dossier) -> Verdict:
    return next(verdict for verdict in dossier.verdicts if verdict.requirement == EMPTY_WEIGHT)


@pytest.mark.parametrize(
    ("certificates", "key"), [("ABC", "u_independent_lb"), ("AAA", "u_fully_correlated_lb")]
)
def test_three_scales_have_the_expected_uncertainty_apart_and_from_one_certificate(
    certificates: str, key: str, tmp_path: Path
) -> None:
    table = example("uncertainty", "UN-010")
    mass = aircraft_near_254_lb(certificates, tmp_path).figures["empty_mass"]
    assert mass.value / POUND == as_printed(table.expect["total_lb"])
    assert mass.standard_uncertainty / POUND == as_printed(table.expect[key])


@pytest.mark.parametrize(
    ("certificates", "key"), [("ABC", "p_conform_independent"), ("AAA", "p_conform_one_certificate")]
)
def test_the_probability_of_conformity_is_the_expected_one(
    certificates: str, key: str, tmp_path: Path
) -> None:
    verdict = empty_weight(aircraft_near_254_lb(certificates, tmp_path))
    printed = number(example("uncertainty", "UN-010").expect[key])
    assert verdict.probability == pytest.approx(printed, abs=1 / COUNT)


def test_errors_of_one_certificate_are_no_normal_total(tmp_path: Path) -> None:
    expect = example("uncertainty", "UN-010").expect
    limit = Limit(254.0, "<")
    taken_for_normal = conformity_probability(
        number(expect["total_lb"]), number(expect["u_fully_correlated_lb"]), limit
    )
    assert taken_for_normal == as_printed(expect["p_conform_correlated"])
    verdict = empty_weight(aircraft_near_254_lb("AAA", tmp_path))
    assert verdict.distribution == "sampled"
    assert verdict.probability is not None
    assert verdict.probability < number(expect["p_conform_correlated"]) - 0.05


@pytest.mark.parametrize(
    ("certificates", "key"),
    [("ABC", "acceptance_limit_independent_lb"), ("AAA", "acceptance_limit_one_certificate_lb")],
)
def test_the_acceptance_limit_is_the_expected_one(certificates: str, key: str, tmp_path: Path) -> None:
    verdict = empty_weight(aircraft_near_254_lb(certificates, tmp_path))
    assert verdict.acceptance_limit == as_printed(example("uncertainty", "UN-010").expect[key])


def test_the_same_reading_conforms_by_simple_acceptance_and_is_inconclusive_with_a_guard_band(
    tmp_path: Path,
) -> None:
    expect = example("uncertainty", "UN-010").expect
    assert (expect["accept_simple"], expect["accept_w_eq_U_independent"]) == ("true", "false")
    simple = empty_weight(aircraft_near_254_lb("ABC", tmp_path / "simple", coverage=""))
    guarded = empty_weight(aircraft_near_254_lb("ABC", tmp_path / "guarded"))
    assert simple.verdict is State.CONFORMS
    assert guarded.verdict is State.INCONCLUSIVE


def test_the_empty_centre_has_the_expected_value_and_uncertainty(tmp_path: Path) -> None:
    # UN-011 measures one arm for both mains, so they stand here as one support: its scale error is
    # that of two scales
    table = example("uncertainty", "UN-011")
    given = table.given
    net, arm = given["net_lb"], given["arm_in"]
    mpe = number(given["scale_mpe_lb"])
    spread = f"± {given['arm_mpe_in']} in (limits)"
    scales = {
        "nose": scale(name="nose", certificate="A", maximum_permissible_error=f"{mpe} lb"),
        "main": scale(name="main", certificate="B", maximum_permissible_error=f"{mpe * 2**0.5} lb"),
    }
    points = [
        support("nose", f"{net['nose']} lb", arm=f"{arm['nose']} in {spread}", scale="nose"),
        support(
            "main",
            f"{number(net['left']) + number(net['right'])} lb",
            arm=f"{arm['main']} in {spread}",
            scale="main",
        ),
    ]
    draft = Draft()
    draft.events.append(weighing(*points, scales=scales))
    centre = draft.make(tmp_path).figures["weighed_cg"]
    assert centre.value / INCH == as_printed(table.expect["ewcg_in"])
    assert centre.standard_uncertainty / INCH == as_printed(table.expect["u_ewcg_in"])
