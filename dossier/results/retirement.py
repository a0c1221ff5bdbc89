"""Whether a fitted battery still has the capacity below which the type retires it."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compute import pack_criteria, performance
from dossier.figures import Figure, Input, OutsideRange, evaluate, given, taken
from dossier.findings import Finding, Place, Severity
from dossier.judge.decision import Limit as Bound
from dossier.judge.decision import decide
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Cell, Option
from dossier.model.events import PackFitted
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.results.battery_outcome import OF_DECISION, Outcome

HABIT = 0.8
"""Of the nominal capacity (common practice, no source): where the type names no limit."""
HABIT_WORDS = "80 %, the habit of the trade (common practice, no source): the type names no limit"


@dataclass(frozen=True)
class Retirement:
    """One fitted battery against that limit."""

    pack: str
    limit: float
    """Of the nominal capacity."""
    limit_words: str
    share: Figure | None
    """Capacity left of the nominal one; None where nobody measured it."""
    outcome: Outcome
    """``accepted`` here means: above the limit."""
    why: str
    """Why nothing is shown; empty otherwise."""
    finding: Finding | None = None


def retirement(
    fitted: PackFitted,
    battery: tuple[str, Option, Cell],
    measured: Figure | Quantity | None,
    aircraft: Aircraft,
    coverage: float | None,
) -> Retirement:
    """Hold the capacity of a fitted battery against the limit, with the guard band of the usual decision
    rule.

    Args:
        fitted: the battery.
        battery: name of its option, the option and its cell.
        measured: its capacity as its latest test or its record has it, or the health that the record states
            instead; None where neither is there.
        aircraft: names the limit, or does not.
        coverage: the one-sided probability of the rule; none for simple acceptance.
    """
    name = aircraft.use.retirement_limit if aircraft.use else None
    stated = aircraft.limits[name] if name is not None else None
    limit = stated.value.value if stated else HABIT
    words = str(stated.name) if stated else HABIT_WORDS
    made = (str(fitted.pack), limit, words)
    if measured is None:
        return Retirement(*made, None, Outcome.NOT_SHOWN, "nobody measured its capacity")
    try:
        share = _share(battery, measured)
    except OutsideRange as error:
        return Retirement(*made, None, Outcome.NOT_SHOWN, str(error))
    decision = decide(share.value, share.standard_uncertainty, Bound(limit, ">="), coverage)
    outcome, why = OF_DECISION[decision.outcome], ""
    if share.standard_uncertainty == 0 and coverage is not None and outcome is Outcome.ACCEPTED:
        outcome, why = (
            Outcome.NOT_SHOWN,
            "its capacity states no uncertainty, and the decision rule is guarded",
        )
    told = (
        None if outcome in (Outcome.ACCEPTED, Outcome.NOT_SHOWN) else _finding(fitted, share, limit, outcome)
    )
    return Retirement(*made, share, outcome, why, told)


def _share(battery: tuple[str, Option, Cell], measured: Figure | Quantity) -> Figure:
    name, option, cell = battery
    short, label = f"capacity_share.{name}", f"Capacity left, of the nominal one, {option.name}"
    if isinstance(measured, Quantity):
        return evaluate(
            performance.as_stated, short, label, "ratio", {"y": given(measured, "health, as stated")}
        )
    nominal, place = cell.nominal_capacity, option.place_of_key("parallel")
    return evaluate(
        pack_criteria.capacity_of_nominal,
        short,
        label,
        "ratio",
        {
            "Q": taken(measured),
            "N_p": Input(
                "strings in parallel", "number", float(option.parallel), place or "", str(option.parallel)
            ),
            "Q_nom": Input(
                "nominal capacity of the cell, as rated",
                "charge",
                nominal.value,
                nominal.place or "",
                nominal.text,
            ),
        },
    )


def _finding(fitted: PackFitted, share: Figure, limit: float, outcome: Outcome) -> Finding:
    doubt = COVERAGE_FACTOR * share.standard_uncertainty
    left = f"{100 * share.value:.1f} % ± {100 * doubt:.1f} % (k = 2) of its nominal capacity"
    below = outcome is Outcome.REJECTED
    stands = "below" if below else "too close to tell from"
    return Finding(
        "C007",
        f"battery {fitted.pack}, fitted, has {left}: {stands} the {100 * limit:g} % at which it is retired",
        "take it out, or test it again by a better test"
        if below
        else "test it again by a better test, or take it out",
        _place(fitted),
        Severity.WARNING,
    )


def _place(fitted: PackFitted) -> Place | None:
    """Point at what was stated when it was fitted; a later test has its own place in the working."""
    return fitted.place_of_key("measured_capacity" if fitted.measured_capacity else "health")
