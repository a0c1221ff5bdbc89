"""Published figures as tests read them: numbers stay text: half the last printed digit is the tolerance."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

REFERENCES = Path(__file__).parent / "references"


@dataclass(frozen=True)
class Example:
    """One published or computed example; every leaf is text as printed."""

    name: str
    given: dict[str, Any]
    expect: dict[str, Any]
    disagrees: bool
    """The printed answer does not follow from the printed inputs."""
    basis: str


@cache
def read(file: str) -> dict[str, Any]:
    """Read a file of ``tests/references`` without turning any scalar into a number."""
    tree: dict[str, Any] = yaml.load((REFERENCES / f"{file}.yaml").read_text("utf-8"), yaml.BaseLoader)
    return tree


def example(file: str, name: str) -> Example:
    """Return one example."""
    tree = read(file)
    row = tree["examples"][name]
    basis = tree["sources"][row["source"]]["basis"]
    return Example(name, row["given"], row["expect"], row.get("disagrees") == "true", basis)


def number(text: str) -> float:
    """Read a given number."""
    return float(text)


def numbers(texts: list[str]) -> list[float]:
    """Read a column of given numbers."""
    return [float(text) for text in texts]


def column(rows: list[dict[str, str]], key: str) -> list[float]:
    """Read one column of a table of given rows."""
    return [float(row[key]) for row in rows]


def as_printed(text: str) -> Any:
    """Expect a number to half of its last printed digit."""
    exponent = Decimal(text).as_tuple().exponent
    assert isinstance(exponent, int), f"{text!r} is no finite number"
    # half a digit, and a hair for a tie that binary numbers cannot hold
    return pytest.approx(float(text), rel=0, abs=0.5 * 10.0**exponent * (1 + 1e-9))
