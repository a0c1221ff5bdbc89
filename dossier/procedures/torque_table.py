"""Tightening torques of plain steel threads where the maker of the joint gives none.

Source: AC 43.13-1B, table 7-1 (dry, cadmium plated, bolts mainly in shear); the rows here were read in two
copies, others are left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
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

_HAIR = 1e-9  # relative: binary numbers do not hold 35 in-lb ± 5 in-lb exactly
_THREAD = re.compile(r"(?<![\w/.-])(?:\d+/\d+|\d+)-\d+(?![\w/-])|(?<!\w)M\d+(?:x[\d.]+)?(?!\w)")
"""Such as 10-32, 1/4-28, M6; paragraphs and tables are numbered in the same way."""
_KIND = re.compile(r"\b(tension|shear)\b", re.IGNORECASE)


@dataclass(frozen=True)
class Nut:
    """What the table is entered with."""

    thread: str
    """Empty if a text names none."""
    kind: str
    """Begins with tension or shear; empty if a text names neither or both."""
    drag: float = 0.0
    """N·m, with which the nut runs down freely."""


def names_table(source: str) -> bool:
    """Whether a source is this table."""
    return "43.13" in source and "7-1" in source


def nut_of(text: str, drag: float = 0.0) -> Nut:
    """Read thread and kind of nut out of words such as ``1/4-28 bolt with a shear castle nut``."""
    found = _THREAD.findall(text)
    threads = [one for one in found if one in TABLE] or [one for one in found if "/" in one or one[0] == "M"]
    kinds = {found.lower() for found in _KIND.findall(text)}
    return Nut(threads[0] if threads else "", kinds.pop() if len(kinds) == 1 else "", drag)


def outside(called: str, nut: Nut, least: float, most: float) -> Iterator[tuple[str, str]]:
    """Say what is wrong with a torque that follows the table, and what would be right.

    Args:
        called: what is tightened, with its article.
        nut: what the table is entered with.
        least: N·m.
        most: N·m.
    """
    row = TABLE.get(nut.thread)
    if row is None:
        words = f"the table has no row for the thread {nut.thread!r}" if nut.thread else "no thread is named"
        yield words, f"write one of {', '.join(TABLE)}, or the torque and the source of the maker"
        return
    if not nut.kind:
        words = f"{called} is tightened after the table, and nothing says whether the nut is of the tension"
        yield f"{words} or the shear type", "write tension nut or shear nut"
        return
    low, high = (bound + nut.drag for bound in row.range_of(nut.kind))
    if least < low * (1 - _HAIR) or most > high * (1 + _HAIR):
        lowest, highest = f"{least / INCH_POUND:.0f}", f"{most / INCH_POUND:.0f}"
        said = lowest if lowest == highest else f"{lowest} to {highest}"
        words = (
            f"{called} is tightened to {said} in-lb; the table has {low / INCH_POUND:.0f} to "
            f"{high / INCH_POUND:.0f} in-lb for {nut.thread} and this nut"
        )
        yield words, "correct the torque, or write the torque and the source of the maker"
