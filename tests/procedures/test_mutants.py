"""The steps of the demonstration lists are spoiled in every way, a sample of them is tried, and what the
verifier
does not notice must be explained: as good as before, or a weakness that has a name."""

from __future__ import annotations

from functools import cache

import pytest

from dossier.procedures.chain import faults
from dossier.procedures.rules.table import MODEL_RULES, TEXT_RULES, WORD_RULES
from procedures.mutants import DEMOS, EVERYTHING, all_variants, good
from procedures.mutation_run import UNEXPLAINED, Outcome, outcome
from procedures.survivors import EQUIVALENT

EVERY = 8
"""Each so many-th variant is tried here; the benchmark tries them all."""
MOST = 20
"""How many of a kind are tried here; the benchmark tries more."""
LEAST = {
    "deleted": 1.0,
    "second check deleted": 1.0,
    "second check by the maker": 1.0,
    "one person fewer": 1.0,
    "wrong side": 1.0,
    "wrong position": 1.0,
    "torque high": 1.0,
    "torque low": 1.0,
    "count wrong": 1.0,
    "hazard deleted": 0.95,
    "hazard one step late": 0.85,
    "words of the other side": 1.0,
    "number in words wrong": 1.0,
    "done by whoever holds": 1.0,
    "stray step in words": 1.0,
    "stray step with its act": 0.95,
    "critical deleted": 0.85,
    "direction reversed": 0.9,
    "limit of the same kind": 0.5,
    "limit of another kind": 0.6,
    "verb weakened": 0.5,
}
"""Kind -> the share that is caught. A swap, a doubled look and a moved step often leave a list that is as
good."""


@cache
def tried(project: str) -> Outcome:
    """Try the sample once for all tests of this file."""
    return outcome(project, MOST, EVERY)


@pytest.mark.parametrize("project", DEMOS)
def test_the_good_lists_have_no_fault(project: str) -> None:
    for variant in (EVERYTHING, *all_variants(project)[::EVERY]):
        base = good(project, variant)
        told = [
            *faults(base.chain),
            *(
                fault
                for one in base.lists
                for rule in (*WORD_RULES, *MODEL_RULES)
                for fault in rule(one, base.system)
            ),
            *(fault for one in base.lists for rule in TEXT_RULES for fault in rule(one)),
        ]
        assert told == [], str(variant)


@pytest.mark.parametrize("project", DEMOS)
def test_each_kind_is_caught_as_often_as_promised(project: str) -> None:
    done = tried(project)
    shares = {kind: done.caught[kind] / done.tried[kind] for kind in LEAST if done.tried[kind]}
    assert {kind: share for kind, share in shares.items() if share < LEAST[kind]} == {}


@pytest.mark.parametrize("project", DEMOS)
def test_what_survives_is_explained(project: str) -> None:
    assert [name for name, reason in tried(project).survivors if reason == UNEXPLAINED] == []


@pytest.mark.parametrize("project", DEMOS)
def test_each_variant_and_each_kind_has_its_share_of_the_sample(project: str) -> None:
    done = tried(project)
    assert set(done.tried) == set(done.there)
    assert done.variants == len({EVERYTHING, *all_variants(project)[::EVERY]})
    assert done.tried.total() < done.there.total()


def test_every_explanation_is_for_a_step_that_there_is() -> None:
    texts = {str(step.written.do) for project in DEMOS for one in good(project).lists for step in one.steps}
    assert {text for _, text in EQUIVALENT} <= texts
