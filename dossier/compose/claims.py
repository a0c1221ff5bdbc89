"""What the builder says in public, held against what this serial shows."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal

from dossier import display
from dossier.compose import links
from dossier.compose.claim_identities import identity_table
from dossier.compose.environment import render
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer, expanded
from dossier.compose.trade_rules import trade_table
from dossier.compose.verdict_words import claim_mark
from dossier.dossier import Dossier
from dossier.judge.claim_result import ClaimResult, Support
from dossier.quantities import COVERAGE_FACTOR

_DECIMALS = 1


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page, if anything is claimed."""
    if not dossier.claims:
        return ()
    at = Printer(dossier, links.CLAIMS)
    details = [
        (
            links.anchor(one.claim),
            one.text,
            claim_mark(one.result),
            " ".join([one.reason, *_how_made(dossier, one)]),
            would_be_true(one),
            one.where,
        )
        for one in dossier.claims
    ]
    text = render(
        "claims.md.jinja",
        top=notices(at),
        table=_table(at),
        details=details,
        identities=identity_table(at),
        trade=trade_table(at),
    )
    return (Page(links.CLAIMS, "Published claims", "Conformity", text),)


def _how_made(dossier: Dossier, claim: ClaimResult) -> Iterator[str]:
    """Say what the figure is, and what its sheet remarks: it may hold what this serial has not."""
    figure = dossier.figures.get(claim.figure or "")
    if figure:
        yield f"Held against it: {figure.label}."
        yield from ([figure.working.note] if figure.working.note else [])


def _table(at: Printer) -> Grid:
    return grid(
        "Claims and what this serial shows",
        "+ Claim | = Result | Means | # Shown | Would be true",
        [
            row(
                Cell(one.text, f"#{links.anchor(one.claim)}"),
                claim_mark(one.result),
                means(one),
                _shown(at, one),
                would_be_true(one),
            )
            for one in at.dossier.claims
        ],
    )


def means(claim: ClaimResult) -> str:
    """Say what the claim is held to mean, such as ``at least 40 min``."""
    within = (
        f", within {display.rounded(100 * claim.tolerance, 0)}\u00a0%" if claim.tolerance is not None else ""
    )
    return f"{claim.relation} {claim.claimed:g}\u00a0{claim.unit}".rstrip("\u00a0") + within


def _shown(at: Printer, claim: ClaimResult) -> Cell:
    if claim.value is None:
        return Cell("nothing")
    link = at.sheet(claim.figure) if claim.figure in at.dossier.figures and claim.figure else ""
    if claim.least is not None:
        return Cell(_between(claim.least, claim.most, claim.unit), link, note="published models")
    spread = claim.standard_uncertainty or 0.0
    decimals = display.decimals_for(COVERAGE_FACTOR * spread) if spread else _DECIMALS
    value = display.show_beside(claim.value, claim.claimed, claim.unit, decimals)[0]
    return Cell(f"{value} {expanded(spread, claim.unit)}".rstrip(), link, note=_to_reserve(claim, decimals))


def _to_reserve(claim: ClaimResult, decimals: int) -> str:
    """Say that the value ends at a limit at which to land, and what it is down to the reserve."""
    if claim.below_landing_limit is None or claim.value is None:
        return ""
    whole = display.rounded(claim.value + claim.below_landing_limit, decimals)
    return f"to the limit at which to land; {whole}\u00a0{claim.unit} to the reserve"


def _between(least: float, most: float | None, unit: str) -> str:
    """Print what published models leave open, to two digits: nothing finer is known of it."""
    low = display.rounded(least, display.decimals_for(least)) if least else "0"
    if not most:
        return f"{low}\u00a0{unit}".rstrip("\u00a0") + " and more"
    high = display.rounded(most, display.decimals_for(most))
    return f"{low} to {high}\u00a0{unit}".rstrip("\u00a0")


def would_be_true(claim: ClaimResult) -> str:
    """Print the boldest number that the figure supports; nothing where the claim itself is supported."""
    if claim.would_be_true is None or claim.result is Support.SUPPORTED:
        return ""
    spread = claim.guard_band or 0.0
    decimals = display.decimals_for(spread) if spread else _DECIMALS
    if claim.least is not None:
        decimals = 1 + display.decimals_for(claim.would_be_true)
    return f"{claim.relation} {_towards_truth(claim, decimals)}\u00a0{claim.unit}".rstrip("\u00a0")


def _towards_truth(claim: ClaimResult, decimals: int) -> str:
    """Round so that the printed number is no bolder than the one that holds."""
    assert claim.would_be_true is not None
    side = {"at least": ROUND_FLOOR, "at most": ROUND_CEILING}.get(claim.relation, ROUND_HALF_UP)
    return f"{Decimal(repr(claim.would_be_true)).quantize(Decimal(1).scaleb(-decimals), side):f}"
