"""Tightening torques of plain steel threads where the maker of the joint gives none.

Source: AC 43.13-1B, table 7-1 (dry, cadmium plated, bolts mainly in shear); the rows here were read in two
copies, others are left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

INCH_POUND = 0.11298482902761668
"""N·m, exactly: 4.4482216152605 N times 0.0254 m."""


@dataclass(frozen=True)
class Row:
    """Inch-pounds: range for a tension nut, for a shear nut, and the largest torque allowed for each."""

    tension: tuple[float, float]
    shear: tuple[float, float]
    largest_tension: float
    largest_shear: float

    def range_of(self, nut: str) -> tuple[float, float]:
        """Return lowest and highest torque in N·m for a nut that ``nut`` begins with: tension or shear."""
        low, high = self.tension if nut.startswith("tension") else self.shear
        return low * INCH_POUND, high * INCH_POUND


TABLE: Mapping[str, Row] = {
    "10-32": Row((20, 25), (12, 15), 40, 25),
    "1/4-28": Row((50, 70), (30, 40), 100, 60),
    "5/16-24": Row((100, 140), (60, 85), 225, 140),
    "3/8-24": Row((160, 190), (95, 110), 390, 240),
    "7/16-20": Row((450, 500), (270, 300), 840, 500),
    "1/2-20": Row((480, 690), (290, 410), 1100, 660),
    "1/4-20": Row((40, 50), (25, 30), 75, 45),
    "3/8-16": Row((160, 185), (95, 100), 275, 170),
    "1/2-13": Row((400, 480), (240, 290), 880, 520),
}
"""Thread -> row."""
