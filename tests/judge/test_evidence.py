"""What a figure rests on: the days and the estimates that went into it."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from invented import compliance, figure, read, serial, verdict

from dossier.compute import weights
from dossier.figures import Figure, evaluate, taken
from dossier.judge.evidence import ESTIMATE, Evidence
from dossier.judge.verdict import State
from dossier.judge.verdicts import judge_all
from dossier.model.rule_set import RuleSet

OWN = """
rule_set: own
title: Rules of an invented club
jurisdiction: nowhere
revision: "1"
valid_from: 2026-02-01
last_checked: 2026-05-01
scope: An example. It is no approval.
sources:
  club: {title: Club rules, publisher: an invented club, edition: "1", basis: read}
  hearsay: {title: Club rules, publisher: an invented club, edition: "2", basis: memory}
facts:
  built: {asks: When was it built?}
  helmet: {asks: Is a helmet worn?, answers: ["yes", "no"]}
requirements:
  old:
    clause: "1"
    statement: What was built before 2003 weighs no more than 120 kg.
    applies_if: [{fact: built, before: 2003-01-01, otherwise: It was built later.}]
    figure: {name: empty_mass, relation: <=, limit: 120 kg}
    source: club
  recalled:
    clause: "2"
    statement: A helmet is worn.
    declared: {fact: helmet, one_of: ["yes"]}
    source: hearsay
"""


@pytest.fixture
def own(tmp_path: Path) -> dict[str, RuleSet]:
    path = tmp_path / "own.yaml"
    path.write_text(OWN, "utf-8")
    return {"own": read(path, "rule_sets/own.yaml", RuleSet)}


@pytest.fixture
def sum_of_two() -> dict[str, Figure]:
    """Two weighed parts, and the empty mass made from them."""
    parts = [figure("wing", "40 kg ± 0.2 kg"), figure("hull", "60 kg ± 0.2 kg")]
    inputs = {"m_i": [taken(part) for part in parts]}
    total = evaluate(weights.total_mass, "empty_mass", "empty mass", "mass", inputs)
    return {one.name: one for one in (*parts, total)}


def evidence(figures: dict[str, Figure], **changes: Any) -> Evidence:
    days = {"wing": date(2026, 1, 5), "hull": date(2026, 4, 2)}
    return Evidence(figures, days, changes.get("bases", {}), {}, date(2026, 6, 1))


def test_a_figure_made_from_two_measurements_takes_the_earlier_day(sum_of_two: dict[str, Figure]) -> None:
    assert evidence(sum_of_two).first_measured("empty_mass") == date(2026, 1, 5)


def test_a_rule_agreed_between_two_measurements_came_too_late(
    tmp_path: Path, sum_of_two: dict[str, Figure], own: dict[str, RuleSet]
) -> None:
    file = compliance(tmp_path, "own", built="2002-12-31")  # agreed on 2026-01-10
    seen = evidence(sum_of_two)
    judgement = judge_all(file, own, seen.figures, seen.measured_on, {}, {}, seen.as_of)
    assert verdict(judgement, "old").verdict is State.NOT_SHOWN


def test_a_figure_made_from_an_estimate_is_one(sum_of_two: dict[str, Figure]) -> None:
    assert evidence(sum_of_two, bases={"hull": ESTIMATE}).estimated_from("empty_mass") == "hull"


def test_a_mass_made_from_an_estimate_shows_nothing(
    tmp_path: Path, sum_of_two: dict[str, Figure], own: dict[str, RuleSet]
) -> None:
    file = compliance(tmp_path, "own", built="2002-12-31")
    days = dict.fromkeys(sum_of_two, date(2026, 4, 2))
    judgement = judge_all(file, own, sum_of_two, days, {"hull": ESTIMATE}, {}, date(2026, 6, 1))
    assert verdict(judgement, "old").reason == (
        "The figure 'hull' is a physical estimate, and an estimate shows nothing."
    )


@pytest.mark.parametrize(
    ("built", "state"), [("2002-12-31", State.CONFORMS), ("2003-01-01", State.NOT_APPLICABLE)]
)
def test_before_a_day_does_not_take_the_day_in(
    tmp_path: Path, own: dict[str, RuleSet], built: str, state: State
) -> None:
    judgement = serial().judged(compliance(tmp_path, "own", built=built), own)
    assert verdict(judgement, "old").verdict is state


@pytest.mark.parametrize(
    ("day", "state"), [("2026-01-31", State.NOT_APPLICABLE), ("2026-02-01", State.CONFORMS)]
)
def test_a_rule_set_is_in_force_on_its_first_day(
    tmp_path: Path, own: dict[str, RuleSet], day: str, state: State
) -> None:
    judgement = serial(as_of=day).judged(compliance(tmp_path, "own", built="2002-12-31"), own)
    assert verdict(judgement, "old").verdict is state


def test_a_recalled_requirement_is_not_shown_by_what_is_declared(
    tmp_path: Path, own: dict[str, RuleSet]
) -> None:
    judgement = serial().judged(compliance(tmp_path, "own", helmet="yes", built="2002-12-31"), own)
    assert verdict(judgement, "recalled").verdict is State.NOT_SHOWN


def test_what_is_declared_where_a_date_is_due_is_not_shown(tmp_path: Path, own: dict[str, RuleSet]) -> None:
    judgement = serial().judged(compliance(tmp_path, "own", built="long ago"), own)
    assert verdict(judgement, "old").verdict is State.NOT_SHOWN


def test_of_two_reliances_on_one_rule_set_the_first_is_used(tmp_path: Path) -> None:
    twice = compliance(tmp_path, "us-14-cfr-103", more="battery_basis: counted")
    text = (tmp_path / "compliance.yaml").read_text("utf-8")
    again = "  - rule_set: us-14-cfr-103\n    because: again\n    battery_basis: not-counted\ndeclared:"
    (tmp_path / "compliance.yaml").write_text(text.replace("declared:", again, 1), "utf-8")
    twice = read(tmp_path / "compliance.yaml", "compliance.yaml", type(twice))
    assert verdict(serial().judged(twice), "e-1").battery_basis == "counted"
