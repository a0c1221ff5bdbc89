"""Every weight-and-balance example is reproduced through a record, or stands here with the reason why not."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from published import read

HERE = Path(__file__).parent
MODULES = (
    "test_weighing_and_loading.py",
    "test_loading_tables.py",
    "test_limits_and_ballast.py",
    "test_changes.py",
    "test_weighing_uncertainty.py",
)
THROUGH_A_RECORD = ("WB", "UN-010", "UN-011")

NOT_THROUGH_A_RECORD: dict[str, str] = {}
"""Example -> why no record can state it. Empty: masses at arms, in and out, say all of them."""

PARTS_NOT_THROUGH_A_RECORD = {
    "WB-016": (
        "the shift of 4.42 in is from a loading that the book prints elsewhere and the copied example "
        "leaves out"
    ),
    "WB-017": (
        "the least fuel for the power of the engine is a rule for combustion engines; its mass is taken "
        "as given"
    ),
    "WB-026": "a record holds arms and no percentages, so the example is reproduced from its answer",
    "WB-035": (
        "a record holds what was moved and does not solve for it, so the example is reproduced from its "
        "answer"
    ),
    "WB-040": (
        "the least fuel for the power of the engine is a rule for combustion engines; its mass is taken "
        "as given"
    ),
}
"""Example -> the part of it that is not reproduced, and why."""


def wanted() -> set[str]:
    names = {*read("weight_and_balance")["examples"], *read("uncertainty")["examples"]}
    return {name for name in names if name.startswith(THROUGH_A_RECORD)}


def used() -> set[str]:
    """Examples that a test asks for: strings of the code, not words in comments or docstrings."""
    found: set[str] = set()
    for module in MODULES:
        tree = ast.parse((HERE / module).read_text("utf-8"))
        strings = {
            node.value
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant) and isinstance(node.value, str)
        }
        found |= {text for text in strings if re.fullmatch(r"(WB|UN)-\d{3}", text)}
    return found


def test_every_example_is_reproduced_or_has_a_reason() -> None:
    assert wanted() - used() == set(NOT_THROUGH_A_RECORD)


def test_every_example_that_is_asked_for_exists() -> None:
    assert used() <= wanted()


@pytest.mark.parametrize("name", sorted(PARTS_NOT_THROUGH_A_RECORD))
def test_a_part_that_is_left_out_belongs_to_an_example_that_is_reproduced(name: str) -> None:
    assert name in used()
    assert len(PARTS_NOT_THROUGH_A_RECORD[name]) > 20


def test_every_source_of_the_examples_says_how_it_is_known() -> None:
    bases = {source["basis"] for source in read("weight_and_balance")["sources"].values()}
    assert bases <= {"read", "read (secondary)", "memory", "computed"}
