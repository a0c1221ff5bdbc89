"""The section on which the builder's numbers are held against one another."""

from __future__ import annotations

from math import isfinite

from dossier import display, units
from dossier.compose import links
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.judge.claim_numbers import Number
from dossier.judge.claim_register import HeldClaim
from dossier.judge.identity import Standing
from dossier.judge.identity_bands import BANDS
from dossier.styles import STYLES

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
    return Cell(f"{target.label}, {in_own_unit(at, target, target.value)}", _link(at, target), note=against)


def _link(at: Printer, number: Number) -> str:
    if number.source == "claim":
        return f"#{links.anchor(number.name)}"
    return at.sheet(number.name) if number.name in at.dossier.figures else ""


def _words(at: Printer, number: Number) -> str:
    return f"{number.label}, {in_own_unit(at, number, number.value)} ({_source(number)})"


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
    return Cell(in_own_unit(at, one.target, one.would_be_true), note=off)


def in_own_unit(at: Printer, number: Number, value: float) -> str:
    """Print an SI value as the page prints such values, or in the unit in which the number was written where
    the page knows another: a range in nautical miles is not told in feet, nor a life of years in minutes.

    Args:
        at: the page.
        number: whose unit counts.
        value: the number itself, or the one that would be true in its place.
    """
    kind, unit = number.written or ("", "")
    if not unit or unit in (STYLES[number.style].si, STYLES[number.style].us):
        return at.value(value, number.style)
    factor, offset = units.scale(kind, unit)
    amount = (value - offset) / factor
    return f"{display.rounded(amount, _decimals(amount))}\u00a0{unit}"


def _decimals(amount: float) -> int:
    """Three significant digits, but no digit more than a round number has."""
    least = max(0, 1 + display.decimals_for(amount)) if amount else 0
    return next((few for few in range(least) if abs(round(amount, few) - amount) < 1e-9 * abs(amount)), least)
