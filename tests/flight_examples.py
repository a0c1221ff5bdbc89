"""Examples of flight performance of tests/references, each with its own tolerance."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest
from published import read

FILES = ("flight", "flight_computed")


@dataclass(frozen=True)
class FlightExample:
    """One example; every leaf is text as it stands in the file."""

    given: dict[str, Any]
    expect: dict[str, Any]
    tolerance: dict[str, str]
    answer: str

    def __getitem__(self, key: str) -> float:
        """Read a given number."""
        return float(self.given[key])

    def column(self, key: str) -> list[float]:
        """Read a given column."""
        return [float(text) for text in self.given[key]]

    def near(self, key: str) -> Any:
        """Expect a number within the tolerance of the example; a hair is left for binary numbers."""
        value, tolerance = float(self.expect[key]), float(self.tolerance[key])
        return pytest.approx(value, rel=0, abs=tolerance * (1 + 1e-9) + 1e-12 * abs(value))


def flight_example(name: str) -> FlightExample:
    """Return one example from either file."""
    row = next(read(file)["examples"][name] for file in FILES if name in read(file)["examples"])
    return FlightExample(row["given"], row["expect"], row["tolerance"], row["answer"])
