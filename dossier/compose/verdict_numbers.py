"""The numbers of a verdict, in the unit of the law, never so rounded that they contradict it."""

from __future__ import annotations

from dossier import display
from dossier.compose.printer import expanded
from dossier.judge.decision import Limit
from dossier.judge.verdict import Verdict
from dossier.judge.words import on_the_safe_side
from dossier.quantities import COVERAGE_FACTOR

_DECIMALS = 1
SIGNS = {"<": "less than", "<=": "no more than", ">=": "at least", ">": "more than"}


def limit(verdict: Verdict) -> str:
    """Print the limit with the comparison of the law, such as ``less than 254 lb``."""
    return f"{SIGNS[verdict.comparison]} {_spaced(verdict.limit_text)}" if verdict.comparison else ""


def value(verdict: Verdict) -> str:
    """Print the value on its own side of the limit, with its uncertainty."""
    if verdict.value is None:
        return ""
    spread = expanded(verdict.standard_uncertainty or 0.0, verdict.unit)
    return f"{_beside(verdict, verdict.value)} {spread}".rstrip()


def whole(verdict: Verdict) -> str:
    """Print the mass before the law leaves anything out of it, to the decimals of what counts."""
    if verdict.whole is None:
        return ""
    return f"{display.rounded(verdict.whole, _decimals(verdict))}\u00a0{verdict.unit}"


def margin(verdict: Verdict) -> str:
    """Print how far the value is inside the limit; with a minus sign it is outside."""
    if verdict.margin is None:
        return ""
    return display.show_beside(verdict.margin, 0.0, verdict.unit, _decimals(verdict))[0]


def margin_words(verdict: Verdict) -> str:
    """Say the margin in words, such as ``12.4 lb below the limit of 254 lb``."""
    if verdict.margin is None or not verdict.limit_text:
        return ""
    upper = verdict.comparison in ("<", "<=")
    side = ("below" if upper else "above") if verdict.margin > 0 else ("above" if upper else "below")
    amount = display.show_beside(abs(verdict.margin), 0.0, verdict.unit, _decimals(verdict))[0]
    return (
        f"at the limit of {_spaced(verdict.limit_text)}"
        if not verdict.margin
        else f"{amount} {side} the limit of {_spaced(verdict.limit_text)}"
    )


def acceptance(verdict: Verdict) -> str:
    """Print the worst value that the present measuring could have proved, rounded to the safe side.

    Empty for what nothing was measured for: a count, or a mass that the design lays down.
    """
    if verdict.acceptance_limit is None or not verdict.guard_band or verdict.limit is None:
        return ""
    law = Limit(verdict.limit, verdict.comparison)
    return f"{on_the_safe_side(verdict.acceptance_limit, verdict.guard_band, law)}\u00a0{verdict.unit}"


def probability(verdict: Verdict) -> str:
    """Print the probability of conformity; what rounds to 0 or 100 % is told as a bound."""
    if verdict.probability is None:
        return ""
    shown = display.percent_words(verdict.probability)
    return f"{shown}, by draws" if verdict.distribution == "sampled" else shown


def _beside(verdict: Verdict, number: float) -> str:
    if verdict.limit is None:
        return f"{display.rounded(number, _decimals(verdict))}\u00a0{verdict.unit}"
    return display.show_beside(number, verdict.limit, verdict.unit, _decimals(verdict))[0]


def _decimals(verdict: Verdict) -> int:
    spread = COVERAGE_FACTOR * (verdict.standard_uncertainty or 0.0)
    if spread:
        return display.decimals_for(spread)
    is_count = not verdict.unit and verdict.value is not None and verdict.value == int(verdict.value)
    return 0 if is_count else _DECIMALS


def _spaced(text: str) -> str:
    return text.replace(" ", "\u00a0")
