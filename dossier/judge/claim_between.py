"""A claim of something that published models leave open between a least and a most."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import inf

from dossier.figures import Figure
from dossier.judge.claim_result import ClaimResult, Support
from dossier.judge.decision import in_unit, settled
from dossier.judge.words import plain, unit_behind

VERBS: Mapping[Support, str] = {
    Support.SUPPORTED: "so even the end that speaks against it supports",
    Support.NOT_SUPPORTED: "which leaves open",
    Support.CONTRADICTED: "which contradicts",
}


def between(blank: ClaimResult, least: Figure, most: Figure | None) -> ClaimResult:
    """Hold a claim against both ends: nothing between them is shown, and nothing outside them is open.

    Args:
        blank: the claim.
        least: what the strictest of the models gives.
        most: what the most lenient gives; None where it has no end.
    """
    kind = "ratio" if least.kind == "number" else least.kind
    low = in_unit(least.value, kind, blank.unit)
    high = in_unit(most.value, kind, blank.unit) if most else inf
    support, true = _support(blank, low, high)
    against = most if true == high and most else least
    first = plain(_two(low))
    ends = (
        unit_behind(f"{first} to {plain(_two(high))}", blank.unit)
        if most
        else f"{unit_behind(first, blank.unit)} and more"
    )
    claimed = unit_behind(plain(blank.claimed), blank.unit)
    return replace(
        blank,
        result=support,
        figure=against.name,
        value=true,
        standard_uncertainty=0.0,
        guard_band=0.0,
        least=low,
        most=high if most else None,
        off_by=settled(true - blank.claimed),
        would_be_true=true,
        reason=f"Published models give {ends}, {VERBS[support]} {blank.relation} {claimed}.",
    )


def _two(value: float) -> float:
    return float(f"{value:.2g}")


def _support(claim: ClaimResult, low: float, high: float) -> tuple[Support, float]:
    """Return how it stands, and the boldest number that both ends bear out."""
    number, room = claim.claimed, (claim.tolerance or 0.0) * abs(claim.claimed)
    if claim.relation == "at least":
        shown, excluded, true = low >= number, high < number, low
    elif claim.relation == "at most":
        shown, excluded, true = high <= number, low > number, high
    else:
        shown = number - room <= low and high <= number + room
        excluded, true = high < number - room or low > number + room, low
    result = Support.SUPPORTED if shown else Support.CONTRADICTED if excluded else Support.NOT_SUPPORTED
    return result, true if true < inf else low
