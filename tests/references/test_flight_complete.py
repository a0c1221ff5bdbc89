"""Every example of flight performance is reproduced, or stands here with the reason why not."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

import pytest
from flight_examples import FILES, flight_example
from published import read

HERE = Path(__file__).parent
MODULES = (
    "test_flight_air.py",
    "test_flight_polar.py",
    "test_flight_power.py",
    "test_flight_computed.py",
    "test_flight_uncertainty.py",
)

LAW = "a limit of a law or standard: rule sets hold it as data, and nothing in flight performance computes it"
TRAILER = "a limit of the road for trailers: test_road_limits.py holds the shipped limits against it"

NOT_REPRODUCED = {
    "cs22-49": LAW,
    "jar-vla-1": LAW,
    "cfr103": LAW,
    "cfr1-1-lsa": LAW,
    "astm-f2564-scope": LAW,
    "airspeed-error-limit": LAW,
    "light-limits-35kt": LAW,
    "us-width": TRAILER,
    "us-ca": TRAILER,
    "us-md": TRAILER,
    "eu-96-53": TRAILER,
    "uk-width": TRAILER,
    "uk-length": TRAILER,
}
"""Example -> why no formula reproduces it."""

PARTS_NOT_REPRODUCED = {
    "da-nws": "nws_ft is the weather service's own fit; the exact height is held within 25 ft of it",
    "claim-ld-minsink-ok": "verdict is words; tests/judge/test_claim_identities.py judges these numbers",
    "claim-ld-minsink-bad": "verdict is words; tests/judge/test_claim_identities.py judges these numbers",
    "claim-stall-24kt": "verdict is words; tests/judge/test_claim_identities.py judges these numbers",
    "claim-sustain-bad": "verdict is words; tests/judge/test_claim_identities.py judges these numbers",
    "claim-climb-bad": "verdict is words; tests/judge/test_claim_identities.py judges these numbers",
    "claim-span-ld": "verdict is words; tests/judge/test_claim_identities.py judges these numbers",
}
"""Example -> the part of it that is not reproduced here, and why."""


def examples() -> set[str]:
    return {name for file in FILES for name in read(file)["examples"]}


def used() -> set[str]:
    """Examples that a test asks for: strings of the code, not words in comments or docstrings."""
    found: set[str] = set()
    for module in MODULES:
        tree = ast.parse((HERE / module).read_text("utf-8"))
        found |= {
            node.value
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant) and isinstance(node.value, str)
        }
    return found & examples()


def keys_used() -> set[str]:
    return {
        node.value
        for module in MODULES
        for node in ast.walk(ast.parse((HERE / module).read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


def test_every_example_is_reproduced_or_has_a_reason() -> None:
    assert examples() - used() == set(NOT_REPRODUCED)


def test_no_example_stands_in_both_files() -> None:
    both = Counter(name for file in FILES for name in read(file)["examples"])
    assert max(both.values()) == 1


@pytest.mark.parametrize("name", sorted(examples() - set(NOT_REPRODUCED)))
def test_every_number_of_an_example_is_looked_at(name: str) -> None:
    # keys that tests make from a word and a number, or a letter of a word
    made = {"qc_24", "qc_55", "qc_100", "w65", "w80", "a", "b", "c", "RC_ftpmin", "mu_Pas"}
    assert set(flight_example(name).expect) <= keys_used() | made | {"verdict"}


def test_a_verdict_in_words_is_listed_as_a_part_that_is_left_out() -> None:
    in_words = {name for name in used() if "verdict" in flight_example(name).expect}
    assert in_words <= set(PARTS_NOT_REPRODUCED)


@pytest.mark.parametrize("name", sorted(PARTS_NOT_REPRODUCED))
def test_a_part_that_is_left_out_belongs_to_an_example_that_is_reproduced(name: str) -> None:
    assert name in used()


def test_25_examples_of_publications_or_more_are_reproduced() -> None:
    assert len(used() & set(read("flight")["examples"])) >= 25


def test_25_printed_numbers_or_more_are_reproduced() -> None:
    printed = [flight_example(name) for name in used() if flight_example(name).answer == "read"]
    assert sum(len(example.tolerance) for example in printed) >= 25


def test_answers_from_publications_and_computed_ones_are_kept_apart() -> None:
    published = {flight_example(name).answer for name in read("flight")["examples"]}
    computed = {flight_example(name).answer for name in read("flight_computed")["examples"]}
    assert published == {"read", "recomputed", "memory"}
    assert computed == {"computed"}


@pytest.mark.parametrize("file", FILES)
def test_every_source_says_how_it_is_known(file: str) -> None:
    bases = {source["basis"] for source in read(file)["sources"].values()}
    assert bases == {"read" if file == "flight" else "computed"}
