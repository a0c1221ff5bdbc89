"""How values are printed: in the reader's units first, the other system in brackets, rounded by the habit
of the field.

Values are stored and compared unrounded. An uncertainty is printed with two digits and its value to match. A
value that is printed beside a limit gets more digits until the print stands on the same side of the limit as
the value does.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from math import floor, log10

from dossier import units
from dossier.figures import Figure
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.sampling import Sampled
from dossier.styles import STYLES

MINUS = "\u2212"
MOST_DECIMALS = 9
"""Where the search for a print on the right side of a limit ends: far below anything that
is measured here."""


@dataclass(frozen=True)
class Preference:
    """What the type's file says of presentation."""

    us_first: bool = False
    airspeed: str = "kt"


@dataclass(frozen=True)
class Shown:
    """A printed value. ``other`` is empty where both systems use the same unit."""

    first: str
    other: str = ""
    uncertainty: str = ""
    """Such as ``± 0.42 kg (k = 2)``; empty where there is none."""

    def __str__(self) -> str:
        """Both systems, the other in brackets."""
        return f"{self.first} ({self.other})" if self.other else self.first


def with_doubt(value: str, uncertainty: str) -> str:
    """Put a printed uncertainty behind its value; an interval is set off by a comma."""
    return f"{value}{',' if uncertainty.startswith('from') else ''} {uncertainty}".rstrip()


def show(value: float, style: str, preference: Preference, extra_decimals: int = 0) -> Shown:
    """Print an SI value in both systems, without uncertainty."""
    first, second = _in_order(style, preference)
    kind = STYLES[style].kind
    texts = [
        _in_unit_telling(value, kind, unit, decimals + extra_decimals) for unit, decimals in (first, second)
    ]
    return Shown(texts[0], texts[1] if first[0] != second[0] else "")


def show_figure(figure: Figure, preference: Preference, sampled: Sampled | None = None) -> Shown:
    """Print a figure with its expanded uncertainty, or with what draws say where first order fails."""
    style = figure.style or figure.kind
    if sampled is None or sampled.first_order_holds:
        return show_uncertain(figure.value, figure.standard_uncertainty, style, preference)
    return show_sampled(figure.value, sampled, style, preference)


def show_sampled(value: float, sampled: Sampled, style: str, preference: Preference) -> Shown:
    """Print an SI value with the interval that holds 95 % of its draws, and the share that has no answer."""
    kind = STYLES[style].kind
    first, second = _in_order(style, preference)
    texts = [
        _in_unit(value, kind, unit, sampled_decimals(sampled, kind, unit, usual))
        for unit, usual in (first, second)
    ]
    doubt = sampled_words(sampled, style, preference)
    return Shown(texts[0], texts[1] if first[0] != second[0] else "", doubt)


def sampled_words(sampled: Sampled, style: str, preference: Preference, *, coarse: bool = False) -> str:
    """Say where 95 % of the draws lie, and how many have no answer."""
    parts = (interval_words(sampled, style, preference, coarse=coarse), unanswered_words(sampled))
    return "; ".join(words for words in parts if words)


def interval_words(sampled: Sampled, style: str, preference: Preference, *, coarse: bool = False) -> str:
    """Say from where to where 95 % of the draws lie; empty where none of them has an answer.

    ``coarse`` is for a table: as many decimals as the values around it, and one digit of the standard
    uncertainty at least.
    """
    if sampled.quantiles is None:
        return ""
    (unit, usual), kind = _in_order(style, preference)[0], STYLES[style].kind
    decimals = sampled_decimals(sampled, kind, unit, usual)
    decimals = max(usual, decimals - 1) if coarse else decimals
    low, _, high = (_in_unit(end, kind, unit, decimals) for end in sampled.quantiles)
    of = " of the draws that have an answer" if sampled.unanswered else ""
    return f"from {low} to {high} (95\u00a0%{of})"


def unanswered_words(sampled: Sampled) -> str:
    """Say how many draws have no answer, and why where that is known; empty where all have one."""
    if not sampled.unanswered:
        return ""
    how_many = "all" if sampled.quantiles is None else percent_words(sampled.unanswered) + " of the"
    return f"{how_many} draws: {sampled.state or 'no answer'}"


def percent_words(share: float) -> str:
    """Print a share that is neither 0 nor 1 so that it is not rounded to one of them."""
    percent = 100 * share
    if percent > 99.9:
        return "more than 99.9\u00a0%"
    return "less than 0.1\u00a0%" if percent < 0.1 else f"{rounded(percent, 1)}\u00a0%"


def sampled_decimals(sampled: Sampled, kind: str, unit: str, usual: int) -> int:
    """Return the decimals that show the standard uncertainty behind an interval with two digits.

    A quarter of the width stands for it (JCGM 101:2008, 5.5, memory: as many digits as it has).
    """
    low, _, high = sampled.quantiles or (0.0, 0.0, 0.0)
    quarter = (high - low) / 4 / units.scale(kind, unit)[0]
    return decimals_for(quarter) if quarter else usual


def show_uncertain(value: float, standard_uncertainty: float, style: str, preference: Preference) -> Shown:
    """Print an SI value with its expanded uncertainty, k = 2; value and uncertainty end at
    the same decimal."""
    kind = STYLES[style].kind
    first, second = _in_order(style, preference)
    finest = max(units.scale(kind, unit)[0] for unit, _ in (first, second))
    if not _number(rounded(COVERAGE_FACTOR * standard_uncertainty / finest, MOST_DECIMALS)):
        return show(
            value, style, preference
        )  # none, or what the rounding of floats leaves of errors that cancel
    texts, spreads = [], []
    for unit, _ in (first, second):
        factor = units.scale(kind, unit)[0]
        expanded = COVERAGE_FACTOR * standard_uncertainty / factor
        decimals = decimals_for(expanded)
        texts.append(_in_unit(value, kind, unit, decimals))
        spreads.append(f"± {rounded(expanded, decimals)}{_behind(unit)} (k\u00a0=\u00a02)")
    return Shown(texts[0], texts[1] if first[0] != second[0] else "", spreads[0])


def show_quantity(quantity: Quantity, style: str, preference: Preference) -> Shown:
    """Print a quantity of the record in the reader's units."""
    return show_uncertain(quantity.value, quantity.standard_uncertainty, style, preference)


def show_beside(value: float, limit: float, unit: str, decimals: int) -> tuple[str, str]:
    """Print a value and its limit, both already in the same unit, so that the prints compare as
    the values do.

    Returns:
        the value and the limit, each with the unit.
    """
    bound = _plain(limit)
    for more in range(decimals, MOST_DECIMALS + 1):
        shown = rounded(value, more)
        if _order(_number(shown), _number(bound)) == _order(Decimal(repr(value)), Decimal(repr(limit))):
            return f"{shown}{_behind(unit)}", f"{bound}{_behind(unit)}"
    exact, exact_limit = (repr(number).replace("-", MINUS) + _behind(unit) for number in (value, limit))
    return exact, exact_limit


def as_written(quantity: Quantity) -> str:
    """Print a quantity as its author wrote it, with a true minus sign."""
    return f"{MINUS}{quantity.text[1:]}" if quantity.text.startswith("-") else quantity.text


def rounded(value: float, decimals: int) -> str:
    """Round half away from zero to a number of decimals; a negative number rounds to tens, hundreds ..."""
    step = Decimal(1).scaleb(-decimals)
    number = (
        Decimal(repr(value)).quantize(step, ROUND_HALF_UP)
        if decimals >= 0
        else ((Decimal(repr(value)) / step).quantize(Decimal(1), ROUND_HALF_UP) * step)
    )
    text = f"{number:f}"
    return text.removeprefix("-") if not number else text.replace("-", MINUS)


def decimals_for(expanded: float) -> int:
    """Return the decimals that show an uncertainty with two digits (JCGM 100:2008, 7.2.6)."""
    return min(MOST_DECIMALS, 1 - floor(log10(abs(float(f"{expanded:.1e}")))))


def _in_order(style: str, preference: Preference) -> tuple[tuple[str, int], tuple[str, int]]:
    chosen = STYLES[style]
    si, us = (chosen.si, chosen.si_decimals), (chosen.us, chosen.us_decimals)
    if style == "speed":
        indicator = (preference.airspeed, 1)
        return indicator, si if preference.airspeed != "km/h" else us
    return (us, si) if preference.us_first else (si, us)


def _in_unit(value: float, kind: str, unit: str, decimals: int) -> str:
    factor, offset = units.scale(kind, unit)
    return f"{rounded((value - offset) / factor, decimals)}{_behind(unit)}"


def _in_unit_telling(value: float, kind: str, unit: str, decimals: int) -> str:
    factor, offset = units.scale(kind, unit)
    return _in_unit(value, kind, unit, _telling_decimals((value - offset) / factor, decimals))


def _telling_decimals(value: float, decimals: int) -> int:
    """Return as many decimals as keep a small value from being printed as another one: 0.045 kg is
    not 0.0 kg."""
    enough = (
        more
        for more in range(decimals, MOST_DECIMALS)
        if abs(float(f"{value:.{more}f}") - value) <= 0.05 * abs(value)
    )
    return next(enough, decimals)


def _behind(unit: str) -> str:
    """A unit with the space that does not break; none behind a bare number."""
    return f"\u00a0{unit}" if unit else ""


def _plain(value: float) -> str:
    return f"{value:.10g}".replace("-", MINUS)


def _number(text: str) -> Decimal:
    return Decimal(text.replace(MINUS, "-"))


def _order(value: Decimal, limit: Decimal) -> int:
    return (value > limit) - (value < limit)
