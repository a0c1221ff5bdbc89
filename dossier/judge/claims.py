"""What the builder claims in public, held against the computed figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import isinf
from types import MappingProxyType

from dossier.figures import Figure
from dossier.findings import Finding, in_order
from dossier.judge.case import warning
from dossier.judge.claim_between import between
from dossier.judge.claim_figures import Found, figure_of
from dossier.judge.claim_landing import Early, LandsEarly, below_limit, strictly
from dossier.judge.claim_result import ClaimResult, Support
from dossier.judge.decision import Decision, Limit, decide, in_unit, settled, spread_in_unit
from dossier.judge.decision_rules import usual_coverage
from dossier.judge.evidence import estimate_in
from dossier.judge.figure_origins import why_missing
from dossier.judge.near_limit import Part, draws_near
from dossier.judge.verdict import Obstacle
from dossier.judge.words import beside, called, plain, short, telling, unit_behind
from dossier.model.compliance import Claim, Compliance

NO_BASES: Mapping[str, str] = MappingProxyType({})
DIMENSIONLESS = frozenset({"number", "ratio"})
"""Kinds of a value without a unit: a glide of 19 may be written as a number or as a ratio."""
USUAL_COVERAGE = 0.95
"""One-sided, where the usual decision rule is simple: a claim is supported only with a guard band."""


@dataclass(frozen=True)
class Claims:
    """All claims of the builder, judged for one serial."""

    results: tuple[ClaimResult, ...]
    """In the order of the file."""
    findings: tuple[Finding, ...]


def judge_claims(
    compliance: Compliance,
    figures: Mapping[str, Figure],
    bases: Mapping[str, str] = NO_BASES,
    batteries: Sequence[str] = (),
    *,
    landing: Sequence[LandsEarly] = (),
    unmeasured: Mapping[str, str] = NO_BASES,
) -> Claims:
    """Judge every claim.

    Args:
        compliance: holds the claims and the usual decision rule, whose coverage is used if it is guarded.
        figures: the computed figures by name.
        bases: :data:`dossier.judge.evidence.ESTIMATE` for a figure that nobody measured: it shows nothing.
        batteries: keys of the batteries of the type, for claims that name a quantity and no figure.
        landing: limits at which to land, on the gauge cards: where one comes before the reserve, endurance
            and range are held against what is left down to it.
        unmeasured: why nothing is held against a quantity, where that is told by more than the quantity.
    """
    coverage = usual_coverage(compliance) or USUAL_COVERAGE
    results, findings = [], []
    for name, claim in compliance.claims.items():
        found = _found(claim, figures, batteries, unmeasured)
        blank, figure = replace(_blank(name, claim), figure=found.name or None), found.figure
        obstacle = _obstacle(name, claim, found, figures) or _estimated(figure, figures, bases)
        findings += [obstacle.finding] if obstacle and obstacle.finding else []
        if obstacle:
            results.append(replace(blank, reason=obstacle.reason))
        elif found.least:
            results.append(between(blank, found.least, found.most))
        elif figure:
            early = below_limit(figure, figures, landing) if blank.relation != "at most" else None
            results.append(_hold(blank, figure, coverage, early))
    return Claims(tuple(results), in_order(findings))


def _found(
    claim: Claim, figures: Mapping[str, Figure], batteries: Sequence[str], unmeasured: Mapping[str, str]
) -> Found:
    if claim.figure is not None:
        return Found(figures.get(claim.figure), name=str(claim.figure))
    if str(claim.quantity) in unmeasured:
        return Found(reason=unmeasured[str(claim.quantity)])
    return figure_of(claim, figures, batteries)


def _kind(figure: Figure) -> str:
    """Return the kind by whose units a figure is written; without a unit it may stand in per cent."""
    return "ratio" if figure.kind in DIMENSIONLESS else figure.kind


def _blank(name: str, claim: Claim) -> ClaimResult:
    quantity = claim.value
    return ClaimResult(
        claim=name,
        text=claim.text.replace("{value}", quantity.text),
        where=str(claim.where),
        relation=str(claim.relation),
        claimed=in_unit(quantity.value, quantity.kind, quantity.unit),
        unit=quantity.unit,
        figure=str(claim.figure) if claim.figure else None,
        tolerance=claim.tolerance.value if claim.tolerance else None,
        place=claim.place,
    )


def _obstacle(name: str, claim: Claim, found: Found, figures: Mapping[str, Figure]) -> Obstacle | None:
    """Say why a claim cannot be held against a figure."""
    if found.reason:
        return Obstacle(found.reason)
    figure = found.figure or found.least
    if figure is None:
        what, remedy = why_missing(found.name, figures)
        return Obstacle(
            f"The figure {found.name!r} is not computed for this serial.",
            warning(
                "J012",
                f"the claim {name!r} names {found.name!r}, {what}",
                remedy,
                claim.place_of_key("figure"),
            ),
        )
    if figure.kind != claim.value.kind and not {figure.kind, claim.value.kind} <= DIMENSIONLESS:
        kinds = f"a {called(claim.value.kind)}, and the figure {figure.name!r} is a {called(figure.kind)}"
        return Obstacle(
            f"The claim is {kinds}.",
            warning(
                "J013",
                f"the claim {name!r} is {kinds}",
                "name the figure that the claim is about",
                claim.place_of_key("figure"),
            ),
        )
    if claim.relation == "about" and claim.tolerance is None:
        return Obstacle(
            "How far off is still about is not said.",
            warning(
                "J014",
                f"the claim {name!r} says about, and not how far off is still about",
                "add for example  tolerance: 5 %",
                claim.place_of_key("relation"),
            ),
        )
    return None


def _estimated(
    figure: Figure | None, figures: Mapping[str, Figure], bases: Mapping[str, str]
) -> Obstacle | None:
    found = estimate_in(figure.name, figures, bases) if figure else None
    if found is None:
        return None
    return Obstacle(f"The figure {found!r} is a physical estimate, and an estimate shows nothing.")


def _hold(blank: ClaimResult, figure: Figure, coverage: float, early: Early | None) -> ClaimResult:
    """Hold the figure and its guard band against the claim; the stricter of two limits decides."""
    whole = _held(blank, figure, coverage, 1.0)
    return strictly(_held(blank, figure, coverage, early.kept), whole, early) if early else whole


def _held(blank: ClaimResult, figure: Figure, coverage: float, share: float) -> ClaimResult:
    """Hold a part of the figure, all of it mostly."""
    value = in_unit(share * figure.value, _kind(figure), blank.unit)
    uncertainty = spread_in_unit(share * figure.standard_uncertainty, _kind(figure), blank.unit)
    result = replace(
        blank,
        value=value,
        standard_uncertainty=uncertainty,
        off_by=settled(value - blank.claimed),
    )
    judged = _about if blank.relation == "about" else _bounded
    return judged(result, (share, figure), value, coverage)


def _decided(result: ClaimResult, part: Part, limit: Limit, coverage: float) -> Decision:
    """Decide as for a requirement: near the limit by draws, where they say otherwise than a normal spread."""
    value, uncertainty = result.value or 0.0, result.standard_uncertainty or 0.0
    draws = draws_near(value, uncertainty, limit, (part,), result.unit)
    return decide(value, uncertainty, limit, coverage, draws)


def _unanswered(result: ClaimResult) -> ClaimResult:
    reason = "In too many draws of its errors the figure has no answer, so it does not show the claim."
    return replace(result, result=Support.NOT_SUPPORTED, reason=reason)


def _bounded(result: ClaimResult, part: Part, value: float, coverage: float) -> ClaimResult:
    limit = Limit(result.claimed, ">=" if result.relation == "at least" else "<=")
    decision = _decided(result, part, limit, coverage)
    if isinf(decision.guard_band):
        return _unanswered(result)
    support = _support(decision.outcome == "conforms", decision.outcome == "does not conform")
    return replace(
        result,
        result=support,
        guard_band=decision.guard_band,
        would_be_true=limit.worse(value, decision.guard_band),
        reason=_sentence(support, result, telling(value, limit), decision.guard_band),
    )


def _about(result: ClaimResult, part: Part, value: float, coverage: float) -> ClaimResult:
    room = (result.tolerance or 0.0) * abs(result.claimed)
    ends = (Limit(result.claimed + room, "<="), Limit(result.claimed - room, ">="))
    decisions = [_decided(result, part, end, coverage) for end in ends]
    support = _support(
        all(decision.outcome == "conforms" for decision in decisions),
        any(decision.outcome == "does not conform" for decision in decisions),
    )
    band = max(decision.guard_band for decision in decisions)
    if isinf(band):
        return _unanswered(result)
    return replace(
        result,
        result=support,
        guard_band=band,
        would_be_true=value,
        reason=_sentence(support, result, beside(value, result.claimed, ends), band),
    )


def _support(shown: bool, excluded: bool) -> Support:
    return Support.SUPPORTED if shown else Support.CONTRADICTED if excluded else Support.NOT_SUPPORTED


def _sentence(support: Support, result: ClaimResult, value: str, band: float) -> str:
    shown = unit_behind(value, result.unit)
    doubt = (
        f" with a guard band of {unit_behind(short(band), result.unit)}"
        if band
        else ", whose uncertainty is not stated,"
    )
    verb = {
        Support.SUPPORTED: "supports",
        Support.NOT_SUPPORTED: "does not show",
        Support.CONTRADICTED: "contradicts",
    }[support]
    claimed = unit_behind(plain(result.claimed), result.unit)
    return f"The figure of {shown}{doubt} {verb} {result.relation} {claimed}."
