"""Which decision rule holds for a requirement, and whether it was agreed before the measurement."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from dossier.judge.case import Case, warning
from dossier.judge.decision import coverage_multiple
from dossier.judge.verdict import Obstacle
from dossier.judge.words import percent
from dossier.model.compliance import Compliance, DecisionRule

_MOST_NAMES = 12
"""As many as a message can list and still be read."""


def rule_for(case: Case, requirement: str) -> tuple[str, DecisionRule]:
    """Return the name and the rule that the builder agreed for a requirement."""
    name = str(case.reliance.decision_rules.get(requirement, case.compliance.usual_decision_rule))
    return name, case.compliance.decision_rules[name]


def coverage(rule: DecisionRule) -> float | None:
    """Return the coverage of a guarded rule, none for a simple one."""
    if rule.kind == "simple":
        return None
    assert rule.coverage is not None, "a guarded rule without coverage is refused with the record"
    return rule.coverage.value


def usual_coverage(compliance: Compliance) -> float | None:
    """Return the coverage of the usual rule, none where that is simple."""
    return coverage(compliance.decision_rules[compliance.usual_decision_rule])


def words(rule: DecisionRule, *, by_draws: bool = False) -> str:
    """Say what a rule does, since when; with draws the band that leaves the same share beyond it."""
    agreed = f"agreed on {rule.agreed.isoformat()} by {rule.agreed_by}"
    share = coverage(rule)
    if share is None:
        return f"simple acceptance: the value alone decides; {agreed}"
    multiple = f"{coverage_multiple(share):.3f} standard uncertainties ({percent(share)}, one-sided)"
    if by_draws:
        multiple = (
            f"{percent(share)} of the draws of its errors, one-sided, which are not normal: "
            f"{coverage_multiple(share):.3f} standard uncertainties would not hold it"
        )
    return f"guarded acceptance: the value and its guard band of {multiple} must keep the limit; {agreed}"


def unanswered(rule: DecisionRule, share: float) -> Obstacle | None:
    """Say if so many draws of a figure have no answer that no guard band holds the coverage of the rule."""
    agreed = coverage(rule)
    if agreed is None or share <= 1 - agreed:
        return None
    return Obstacle(
        f"In {percent(round(share, 3))} of the draws of its errors the figure has no answer, so no guard "
        "band holds "
        f"{percent(agreed)}."
    )


def untimely(
    case: Case, agreed: tuple[str, DecisionRule], figure: str, uncertainty: float
) -> Obstacle | None:
    """Say if a rule came after the measurement (ISO/IEC 17025:2017, 7.1.3) or has no uncertainty to guard.

    A figure without date and without uncertainty is a value that the design sets: there was no measurement.
    """
    name, rule = agreed
    day = case.evidence.first_measured(figure)
    if day is None and uncertainty > 0:
        return _undated(case, figure)
    if day is None:
        return None
    if rule.agreed > day:
        return _too_late(name, rule, day.isoformat())
    return _unguarded(case, figure) if uncertainty == 0 and rule.kind == "guarded" else None


def _undated(case: Case, figure: str) -> Obstacle:
    return Obstacle(
        f"When the figure {figure!r} was measured is not known, and the decision rule must be older.",
        warning(
            "J006",
            f"no date of measurement is known for the figure {figure!r}",
            "give it through an event with a date: a weighing or a flight test",
            case.place,
        ),
    )


def _too_late(name: str, rule: DecisionRule, day: str) -> Obstacle:
    agreed = rule.agreed.isoformat()
    return Obstacle(
        f"The decision rule {name!r} was agreed on {agreed}, after the measurement of {day}.",
        warning(
            "J005",
            f"the decision rule {name!r} was agreed on {agreed}, and the measurement is of {day}",
            "measure again, or use a rule that was agreed before (ISO/IEC 17025:2017, 7.1.3)",
            rule.place_of_key("agreed"),
        ),
    )


def _unguarded(case: Case, figure: str) -> Obstacle:
    return Obstacle(
        f"The measurement of {figure!r} states no uncertainty, so it has no guard band.",
        warning(
            "J007",
            f"the figure {figure!r} was measured, and no uncertainty is stated",
            'write the measured value with ±, such as "24 kt ± 1 kt"',
            case.place,
        ),
    )


def near(name: str, known: Iterable[str], what: str) -> str:
    """Make the remedy for a name that does not exist."""
    names = sorted(map(str, known))
    close = get_close_matches(name, names, n=1, cutoff=0.5)
    hint = f"did you mean {close[0]!r}? " if close else ""
    shown = names[:_MOST_NAMES] if names else ["none"]
    more = f" and {len(names) - len(shown)} more" if len(names) > len(shown) else ""
    return f"{hint}{what}: {', '.join(shown)}{more}"
