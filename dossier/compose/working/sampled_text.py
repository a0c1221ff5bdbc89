"""What draws say of a figure beside first order, in sentences for its working sheet."""

from __future__ import annotations

from dossier import units
from dossier.display import (
    Preference,
    interval_words,
    percent_words,
    rounded,
    sampled_decimals,
    show,
    show_uncertain,
    unanswered_words,
)
from dossier.figures import Figure
from dossier.halton import COUNT
from dossier.sampling import TOLERATED, Sampled

_PERCENT = 100


def sampled_text(figure: Figure, sampled: Sampled | None, preference: Preference) -> tuple[str, ...]:
    """Say what the draws gave and whether the plain ± may stand; nothing of a figure without draws."""
    if sampled is None:
        return ()
    return tuple(
        sentence
        for sentence in (
            _interval(figure, sampled, preference),
            _unanswered(sampled),
            _comparison(figure, sampled, preference),
        )
        if sentence
    )


def interval_in_si(sampled: Sampled, kind: str) -> str:
    """Print the interval in the SI unit that a formula takes, beside an input."""
    unit = units.KINDS[kind].si
    low, _, high = sampled.quantiles or (0.0, 0.0, 0.0)
    decimals = sampled_decimals(sampled, kind, unit, 0)
    behind = "" if unit == "1" else f"\u00a0{unit}"
    ends = f"from {rounded(low, decimals)} to {rounded(high, decimals)}{behind} (95\u00a0%)"
    parts = (ends if sampled.quantiles else "", unanswered_words(sampled))
    return "; ".join(words for words in parts if words)


def _interval(figure: Figure, sampled: Sampled, preference: Preference) -> str:
    made = f"Made again from {COUNT} draws of all errors"
    if sampled.quantiles is None:
        return f"{made}, and none of them has an answer."
    style = figure.style or figure.kind
    median = show(sampled.quantiles[1], style, preference, extra_decimals=1).first
    return f"{made}: {interval_words(sampled, style, preference)}, half of them below {median}."


def _unanswered(sampled: Sampled) -> str:
    if not sampled.unanswered:
        return ""
    because = f" The first of these: {sampled.because}." if sampled.because else ""
    return f"{percent_words(sampled.unanswered)} of the draws have no answer.{because}"


def _comparison(figure: Figure, sampled: Sampled, preference: Preference) -> str:
    """Compare at 95 % on both sides; what is printed with ± is k = 2, a little more."""
    off = sampled.largest_difference
    plain = show_uncertain(
        figure.value, figure.standard_uncertainty, figure.style or figure.kind, preference
    ).uncertainty
    if off is None or sampled.quantiles is None:
        return ""
    width = sampled.quantiles[2] - sampled.quantiles[0]
    share = f"{rounded(_PERCENT * off / width, 1)}\u00a0%" if width else "0\u00a0%"
    if sampled.first_order_holds:
        return f"First order agrees: its 95\u00a0% interval is off by {share} of the width at most."
    instead = f" The interval of the draws stands instead of {plain}." if plain else ""
    why = (
        f"off by {share} of the width, and {rounded(_PERCENT * TOLERATED, 0)}\u00a0% is tolerated"
        if off > TOLERATED * width
        else "silent on the draws without an answer"
    )
    return f"First order does not describe it: its 95\u00a0% interval is {why}.{instead}"
