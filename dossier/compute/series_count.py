"""How many cells stand in series behind the voltages of a gauge: every number that fits, never the likeliest
alone."""

from __future__ import annotations

BANDS = {"full": (4.05, 4.25), "middle": (3.55, 3.75), "empty": (2.5, 3.3)}
"""Voltages of a lithium cell with a nickel-rich or cobalt cathode, in V (source practice, adjustable
defaults)."""


def series_candidates(
    full: float, middle: float | None = None, empty: float | None = None
) -> tuple[int, ...]:
    """List each number of cells in series for which every given voltage, in V, falls into its band.

    Valid for NMC and NCA cells, not for iron phosphate. With ``full`` alone the answer is often a range.
    Source: practice.
    """
    given = {"full": full, "middle": middle, "empty": empty}
    marks = [(value, BANDS[name]) for name, value in given.items() if value is not None]
    most = int(full / BANDS["full"][0]) + 1
    return tuple(
        n for n in range(1, most + 1) if all(low <= value / n <= high for value, (low, high) in marks)
    )
