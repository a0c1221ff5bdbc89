"""Every step of the demonstration lists is spoiled in every way; what the verifier does not notice must be
explained."""

from __future__ import annotations

from collections import Counter

import pytest

from dossier.procedures.chain import faults
from procedures.mutants import DEMOS, caught_by, good, mutants
from procedures.survivors import explanation

LEAST = {
    "deleted": 0.99,
    "second check deleted": 1.0,
    "second check by the maker": 1.0,
    "one person fewer": 1.0,
    "wrong side": 1.0,
    "wrong position": 1.0,
    "torque high": 1.0,
    "torque low": 1.0,
    "count wrong": 1.0,
    "hazard deleted": 0.93,
    "hazard one step late": 0.85,
}
"""Kind -> the share that is caught. A swap, a doubled look and a step moved to the end often leave a list
that is as good."""


@pytest.mark.parametrize("project", DEMOS)
def test_the_good_lists_have_no_fault(project: str) -> None:
    assert list(faults(good(project).chain)) == []


@pytest.mark.parametrize("project", DEMOS)
def test_each_kind_is_caught_as_often_as_promised_and_what_survives_is_explained(project: str) -> None:
    total, survived = Counter[str](), []
    for mutant in mutants(project):
        total[mutant.kind] += 1
        survived += [mutant] if caught_by(mutant) is None else []
    left = Counter(mutant.kind for mutant in survived)
    assert [mutant.name for mutant in survived if explanation(mutant) is None] == []
    assert [kind for kind, least in LEAST.items() if 1 - left[kind] / max(1, total[kind]) < least] == []
