"""The section on which the builder's numbers are held against one another."""

from __future__ import annotations

from math import isfinite

from dossier import display
from dossier.compose import links
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.judge.claim_numbers import Number
from dossier.judge.claim_register import HeldClaim
from dossier.judge.identity import Standing
from dossier.judge.identity_bands import BANDS

MARKS = {
    Standing.SOUND: Mark("sound", "conforms"),
    Standing.DOUBTFUL: Mark("doubtful", "inconclusive"),
    Standing.IMPOSSIBLE: Mark("impossible", "fails"),
    None: Mark("not held", "not-shown"),
}
ORDER = (Standing.IMPOSSIBLE, Standing.DOUBTFUL, None, Standing.SOUND)
"""What must be looked at stands first."""
IMPLIED = {"pack_mass": "specific_energy", "pack_volume": "energy_density", "drag_area": "area"}
"""Identity -> how what it implies is printed, where it is no plain number."""
SOURCES = {
    "claim": "published",
    "type": "the type's file",
    "measured": "measured",
    "computed": "computed",
}


def identity_table(at: Printer) -> Grid | None:
    """Make the table; none where nothing met anything."""
    held = sorted(at.dossier.claim_identities, key=lambda one: ORDER.index(one.standing))
    if not held:
        return None
    return grid(
        "Claims held against one another",
        "Identity | = Result | + Numbers | Would be true | + Band and its basis",
        [_row(at, one) for one in held],
    )


def _row(at: Printer, one: HeldClaim) -> Row:
    return row(
        Cell(one.says, note=_option(at, one)),
        MARKS[one.standing],
        _numbers(at, one),
        _would_be(at, one),
        Cell(_band(at, one), note=f"{one.basis}: {one.note}" if one.note else ""),
    )


def _option(at: Printer, one: HeldClaim) -> str:
    return str(at.dossier.project.battery.options[one.option].name) if one.option else ""


def _numbers(at: Printer, one: HeldClaim) -> Cell:
    target, others = one.target, "; ".join(_words(at, number) for number in one.others)
    against = f"{_source(target)}; held against: {others}" if others else _source(target)
    return Cell(f"{target.label}, {at.value(target.value, target.style)}", _link(at, target), note=against)


def _link(at: Printer, number: Number) -> str:
    if number.source == "claim":
        return f"#{links.anchor(number.name)}"
    return at.sheet(number.name) if number.name in at.dossier.figures else ""


def _words(at: Printer, number: Number) -> str:
    return f"{number.label}, {at.value(number.value, number.style)} ({_source(number)})"


def _source(number: Number) -> str:
    place = f", {number.place.file}:{number.place.line}" if number.place and number.source != "claim" else ""
    return f"{SOURCES[number.source]}{place}"


def _band(at: Printer, one: HeldClaim) -> str:
    """Print what is held against the band, and its ends; an end that is none is left out."""
    if one.implied is None:
        return ""
    band, style = BANDS[one.identity], IMPLIED.get(one.identity, "rate")
    ranges = [
        (words, _range(at, pair, style))
        for words, pair in (("sound", band.sound), ("possible", band.possible))
    ]
    return "; ".join([at.first(one.implied, style), *(f"{words} {text}" for words, text in ranges if text)])


def _range(at: Printer, pair: tuple[float, float], style: str) -> str:
    ends = [_end(at, word, end, style) for word, end in zip(("from", "to"), pair, strict=True)]
    return " ".join(end for end in ends if end)


def _shown(word: str, end: float) -> bool:
    return isfinite(end) and not (word == "from" and end == 0)


def _end(at: Printer, word: str, end: float, style: str) -> str:
    return f"{word} {at.first(end, style)}" if _shown(word, end) else ""


def _would_be(at: Printer, one: HeldClaim) -> Cell:
    if one.reason:
        return Cell(one.reason)
    if one.would_be_true is None:
        return Cell()
    off = f"off by {display.rounded(100 * one.off_by, 0)}\u00a0%" if one.off_by is not None else ""
    return Cell(at.value(one.would_be_true, one.target.style), note=off)
