"""Every example of battery.yaml is shown by a test, or stands here with the reason why not."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from published import read

HERE = Path(__file__).parent
MODULES = (
    HERE / "test_battery_runs.py",
    HERE / "test_battery_examples.py",
    HERE.parent / "compute" / "test_pack.py",
    HERE.parent / "compute" / "test_open_circuit.py",
    HERE.parent / "compute" / "test_energy.py",
)
RULE = "a requirement or a definition of a standard: for rule sets and procedures, no formula follows from it"
NOT_SHOWN = {
    "BAT-CP-ECKER2015": "the rest voltages of this cell are not among the stored tables",
    "BAT-TRAUB-001": "a power law of the current: the tool uses the resistance, which has no exponent",
    "BAT-TRAUB-002": "an abstract that says how far such methods come (3 %): told in discharge.py",
    "BAT-PEUK-001": "an abstract that says why a power law fails: the reason for the resistance",
    "BAT-AGE-WANG": "the highlights, without constants: ageing.yaml has what was read of the law itself",
    "BAT-SOLVER": "the accuracy of the solvers: tests/compute/test_discharge.py and test_mission.py show it",
    "BAT-STD-R100": RULE,
    "BAT-WIRE-PROT": "a requirement: tests/results/test_wiring.py shows the comparisons that follow it",
    "BAT-STD-6469-4": RULE,
    "BAT-STD-6469-3": RULE,
    "BAT-STD-FMVSS305": RULE,
    "BAT-STD-UN383-SUM": RULE,
    "BAT-STD-UN383-TESTS": RULE,
    "BAT-STD-UNNO": RULE,
    "BAT-STD-AIR-SOC": RULE,
    "BAT-STD-38.3-ASSY": RULE,
    "BAT-STD-DO311A": RULE,
    "BAT-STD-SCELA": RULE,
    "BAT-STD-F2840": RULE,
    "BAT-STD-F3239": RULE,
    "BAT-STD-SCE19": RULE,
    "BAT-STD-IEC": RULE,
    "BAT-RES-NCO": RULE,
}
"""Example -> why no test of the physics shows it."""
NOT_WHOLE = {
    "BAT-CP-0p5C": "the run with its own heat: the quadrature keeps the temperature",
    "BAT-CP-1C": "the run with its own heat, likewise",
    "BAT-CP-2C": "only that it is not answered, and by how much the circuit would be off",
    "BAT-CP-5C": "only that it is not answered",
    "BAT-ANA-003": "the place of the cut-off to 1.7e-5, not to 1e-6: the stored tables are rounded",
    "BAT-X09-HALFPACK": "the ratio from a rate of 1 needs a rate of 2, where there is no answer",
    "BAT-TEMP-ECKER2015": "the resistance at 0 °C and the run time; the capacity is in the run time",
    "BAT-TEMP-MARQUIS2019": "likewise",
    "BAT-TEMP-OREGAN2022": "likewise",
    "BAT-WIRE-N1": (
        "wires in the bundle, its load and the height: told in words, nothing is reckoned with them"
    ),
    "BAT-WIRE-MAIN": "at which rate it holds: told in words",
    "BAT-FUSE-T113": "the sequence of breakers, which in the copy has fewer entries than gauges",
}
"""Example -> the part that is not shown, and why."""


def wanted() -> set[str]:
    return set(read("battery")["examples"]) | {
        name for name in read("packs")["examples"] if name.startswith("BAT-")
    }


def used() -> set[str]:
    """Examples that a test asks for: strings of the code, not words in comments or docstrings."""
    found: set[str] = set()
    for module in MODULES:
        for node in ast.walk(ast.parse(module.read_text("utf-8"))):
            if (
                isinstance(node, ast.Constant)
                and isinstance(node.value, str)
                and re.fullmatch(r"BAT-[\w.-]+", node.value)
            ):
                found.add(node.value)
    return found


def test_every_example_is_shown_or_has_a_reason() -> None:
    assert wanted() - used() == set(NOT_SHOWN)


def test_every_example_that_is_asked_for_exists() -> None:
    assert used() <= wanted()


@pytest.mark.parametrize("name", sorted(NOT_WHOLE))
def test_a_part_that_is_left_out_belongs_to_an_example_that_is_shown(name: str) -> None:
    assert name in used()


def test_every_source_of_the_examples_says_how_it_is_known() -> None:
    bases = {source["basis"] for source in read("battery")["sources"].values()}
    assert bases == {"read", "read (secondary)", "computed"}


@pytest.mark.parametrize("name", sorted(read("battery")["examples"]))
def test_every_example_has_its_tolerance(name: str) -> None:
    assert read("battery")["examples"][name]["tolerance"]
