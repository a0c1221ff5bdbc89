"""What a law leaves out of a mass, in the words that stand wherever the mass stands that counts."""

from __future__ import annotations

from dossier import display
from dossier.compose import verdict_numbers
from dossier.compose.printer import expanded
from dossier.compose.words import listed
from dossier.judge.verdict import LeftOut, Verdict
from dossier.quantities import COVERAGE_FACTOR

GRANTED = {"read": "", "read (secondary)": ", as reported"}
"""How far the source of an allowance was read; what is only recalled is not left out."""
_DECIMALS = 1


def sum_words(verdict: Verdict) -> str:
    """Write the way from the whole mass to the one that counts; empty where nothing is left out.

    Such as ``271.20 lb less parachute 22.0 lb (allowance 24 lb, AC 103-7, as reported)``.
    """
    if not verdict.left_out:
        return ""
    return f"{verdict_numbers.whole(verdict)} less {items_words(verdict)}"


def items_words(verdict: Verdict) -> str:
    """Name what is left out, each item with its mass and its allowance."""
    return listed(_item(one, verdict.unit) for one in verdict.left_out)


def _item(one: LeftOut, unit: str) -> str:
    name = f"{one.name[:1].lower()}{one.name[1:]}"
    allowance = f"allowance {_plain(one.allowance, unit)}, {_short(one.source)}{GRANTED[one.source_basis]}"
    part = f"{_plain(one.amount, unit)} of " if one.amount < one.mass else ""
    return f"{part}{name} {_mass(one, unit)} ({allowance}; {_known(one)})"


def _known(one: LeftOut) -> str:
    if one.is_of_piece:
        return "as weighed" if one.standard_uncertainty else "by the record, which states no ±"
    return "by the type's list, not weighed" + ("" if one.standard_uncertainty else ", without ±")


def _mass(one: LeftOut, unit: str) -> str:
    spread = COVERAGE_FACTOR * one.standard_uncertainty
    decimals = display.decimals_for(spread) if spread else _DECIMALS
    uncertainty = expanded(one.standard_uncertainty, unit).removesuffix(" (k = 2)")
    return f"{display.rounded(one.mass, decimals)}\u00a0{unit} {uncertainty}".rstrip()


def _plain(amount: float, unit: str) -> str:
    return f"{amount:g}\u00a0{unit}"


def _short(title: str) -> str:
    """Name a source by what stands before the first comma of its title."""
    return title.partition(",")[0]
